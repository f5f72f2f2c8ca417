"""Every part of every mark shows in the finished file, whatever its look; what can't is refused."""

from dataclasses import replace
from functools import cache
from io import BytesIO
from math import cos, radians, sin
from typing import Any

import pypdfium2
import pytest

from layout.board.board import draw_board, lay_out
from layout.shipped import shipped_styles
from layout.style.board import TrailLook, Weight
from layout.style.style import read_style, shipped_style_names, style_of
from layout.writers.pdf import pdf_of_picture
from tests.support.drawn import board_style, cells, plain_puzzle
from tests.support.drawn_marks import with_marks
from verify.board import Board, Outside
from verify.marks import Area, Badge, Cage, Clue, Ray, Sign, Tint, Trail
from verify.reading.node import Place
from verify.reading.problems import Unreadable

FOUR = Board(4, 4, 4, (2, 2))
DOTS_A_MM = 8

PLAIN = TrailLook(
    width=Weight(0.1),
    ink=0.6,
    edge=Weight(0.0),
    edge_ink=0.0,
    clear=0.04,
    bulb=0.7,
    ring=0.7,
    ring_line=Weight(0.04),
    circle=0.7,
    head=0.2,
    tip=0.34,
)
EDGED = {"edge": Weight(0.02), "edge_ink": 0.8}
BODIES: dict[str, dict[str, Any]] = {
    "solid": {},
    "edged": EDGED,
    "hollow": {**EDGED, "ink": 0.0},
    "broad": {"width": Weight(0.3), "ink": 0.2, "head": 0.4},
    "double": {"pen": Weight(0.025)},
    "double with rungs": {"pen": Weight(0.025), "rungs": 0.25, "rung": 0.2},
    "rungs": {"rungs": 0.25, "rung": 0.25},
    "dashes": {"dash": 0.25, "gap": 0.12},
    "dots": {"dots": True, "gap": 0.08},
    "dashes and dots": {"dash": 0.25, "gap": 0.1, "dots": True},
    "edged dashes": {**EDGED, "dash": 0.25, "gap": 0.14},
    "edged dots": {**EDGED, "dots": True, "gap": 0.12},
    "hollow dashes": {**EDGED, "ink": 0.0, "dash": 0.25, "gap": 0.14},
}
STARTS = ("plain", "bulb", "circle", "ring")
RIM = (0.64, 0.66, 0.68, 0.7, 0.72)
ENDS = ("plain", "arrowhead", "circle")


class Printed:
    """A board of four by four cells, each 10 mm wide, printed and looked at dot by dot."""

    def __init__(self, mark, kind, look):
        style = board_style()
        table = {**getattr(style.marks, kind), mark.role: look}
        style = replace(style, marks=replace(style.marks, **{kind: table}))
        puzzle = with_marks(plain_puzzle(4), [mark])
        width = 40 / lay_out(puzzle, style, 40).side * 10
        self.place = lay_out(puzzle, style, width)
        self.side = self.place.side
        data = pdf_of_picture(draw_board(puzzle, style, width))
        page = pypdfium2.PdfDocument(BytesIO(data))[0]
        self.image = page.render(scale=DOTS_A_MM * 25.4 / 72, grayscale=True).to_pil()
        self.words = page.get_textpage().get_text_range()

    def at(self, name, right=0.0, down=0.0):
        """How dark the paper is so many cells off the middle of a cell, from 0 to 255."""
        x, y = self.place.centre(cells(name, FOUR)[0])
        x, y = x + right * self.side, y + down * self.side
        return 255 - self.image.getpixel((round(x * DOTS_A_MM), round(y * DOTS_A_MM)))

    def rim(self, name, *diameters):
        """How light the lightest place on a circle is, left out where the line passes it."""
        return min(
            max(
                self.at(name, each / 2 * cos(radians(at)), each / 2 * sin(radians(at)))
                for each in diameters
            )
            for at in range(0, 360, 15)
            if min(at % 180, 180 - at % 180) > 40
        )


def trail(start, end):
    path = cells("r2c1 r2c2 r2c3 r2c4", FOUR)
    return Trail(
        "probe",
        (path,),
        start=start if start in ("bulb", "circle") else "plain",
        end=end,
        ring=path[:1] if start == "ring" else (),
    )


@cache
def printed(body, start, end):
    return Printed(trail(start, end), "trails", replace(PLAIN, **BODIES[body]))


def arms(page, body):
    """How dark the outer sides of both arms of a head are, near their ends, beside the shaft."""
    back = 0.9 * replace(PLAIN, **BODIES[body]).head
    off = [0.62 * back + step / 100 for step in range(7)]
    x = PLAIN.tip - back
    return [max(page.at("r2c4", x, side * y) for y in off) for side in (-1, 1)]


@pytest.mark.parametrize("body", BODIES)
@pytest.mark.parametrize("end", ENDS)
@pytest.mark.parametrize("start", STARTS)
def test_every_body_shows_both_of_its_ends(body, start, end):
    page = printed(body, start, end)
    filled = start == "bulb" and "hollow" not in body
    assert (page.rim("r2c1", 0.5) > 20) == filled
    assert (page.rim("r2c1", *RIM) > 20) == (start != "plain")
    assert (page.rim("r2c4", *RIM) > 20) == (end == "circle")
    assert [each > 20 for each in arms(page, body)] == [end == "arrowhead"] * 2
    along = [
        page.at("r2c2", right / 100, down / 100) for right in range(-40, 40) for down in (0, 4)
    ]
    assert max(along) > 20


@pytest.mark.parametrize("body", BODIES)
def test_no_two_bodies_look_alike(body):
    own = printed(body, "plain", "plain").image.tobytes()
    assert [one for one in BODIES if printed(one, "plain", "plain").image.tobytes() == own] == [
        body
    ]


def darkness(mark, kind, **changes):
    """All the ink on the page of a mark in its role's look."""
    look = replace(getattr(board_style().marks, kind)[mark.role], **changes)
    page = Printed(mark, kind, look)
    return sum(255 - each for each in page.image.tobytes())


def four(names):
    return cells(names, FOUR)


TOLD: dict[str, Any] = {
    "cages": Cage("cage", four("r1c1 r1c2"), "15"),
    "areas": Area("clone", four("r1c1 r1c2"), "A"),
    "badges": Badge("difference", four("r1c1 r1c2"), "3"),
    "clues": Clue("diagonal", Outside(-1, 1, "se"), "17"),
}


@pytest.mark.parametrize("kind", TOLD)
@pytest.mark.parametrize("dash", [0.0, 0.1])
@pytest.mark.parametrize("ink", [0.0, 0.2])
def test_a_label_shows_whatever_is_drawn_around_it(kind, dash, ink):
    mark = TOLD[kind]
    changes = {
        "cages": {"dash": dash, "ink": ink or 1.0},
        "areas": {"ink": ink, "edge": Weight(dash / 8)},
        "badges": {"ink": ink, "line": Weight(dash / 8)},
        "clues": {"line": Weight(0.02 + dash / 8)},
    }[kind]
    bare = replace(mark, label="1" if kind == "clues" else "")
    assert darkness(mark, kind, **changes) != darkness(bare, kind, **changes)
    look = replace(getattr(board_style().marks, kind)[mark.role], **changes)
    assert mark.label in Printed(mark, kind, look).words


@pytest.mark.parametrize("shape", ["disc", "square", "inward", "outward"])
@pytest.mark.parametrize("edge", [0.0, 0.03])
@pytest.mark.parametrize("ink", [0.0, 0.5])
def test_a_tint_shows_in_its_own_shape_with_ink_or_with_an_edge(shape, edge, ink):
    if not (edge or ink):
        return
    mark = Tint("even", four("r2c2")[0], shape)
    size = 0.2 if shape in ("inward", "outward") else 0.7
    look = replace(
        board_style().marks.tints["even"], size=size, ink=ink, edge=Weight(edge), edge_ink=0.8
    )
    page = Printed(mark, "tints", look)
    outer, inner = ([page.at("r2c2", x, y) > 20 for x in (-0.11, 0.11)] for y in (-0.4, -0.28))
    if ink:
        assert (page.at("r2c2", 0.3, 0.3) > 20) == (shape == "square")
        assert (page.at("r2c2") > 20) == (shape in ("disc", "square"))
        assert outer == [shape == "inward"] * 2
        assert inner == [shape != "inward"] * 2
    else:
        bare = Printed(mark, "tints", replace(look, edge=Weight(0.0)))
        assert page.image.tobytes() != bare.image.tobytes()


def test_a_sign_and_a_ray_show():
    for kind, mark in (
        ("signs", Sign("greater", four("r1c1 r1c2"), "greater")),
        ("rays", Ray("diagonals", four("r1c1 r2c2 r3c3 r4c4"))),
    ):
        role = next(iter(getattr(board_style().marks, kind)))
        assert darkness(replace(mark, role=role), kind) > darkness(
            replace(mark, role=role), kind, line=Weight(0.0)
        )


def refused(tmp_path, kind, role, look):
    """The problems of a sheet that is like the reference but for one look."""
    text = f"like: paperback\nboard:\n  marks:\n    {kind}:\n      {role}: {{{look}}}\n"
    (tmp_path / "mine.yaml").write_text(text)
    try:
        style_of(tmp_path / "mine.yaml", "mine.yaml")
    except Unreadable as error:
        return [str(problem) for problem in error.problems]
    return []


NONE = "{of-cell: 0%, least: 0pt}"
HIDING = [
    ("trails", "thermometer", "bulb: 0%", "bulb"),
    ("trails", "thermometer", "bulb: 30%", "bulb"),
    ("trails", "thermometer", f"width: {NONE}", "width"),
    ("trails", "slow-thermometer", f"edge: {NONE}", "edge"),
    ("trails", "slow-thermometer", "edge-ink: 0%", "edge-ink"),
    ("trails", "renban", f"edge: {NONE}", "edge"),
    ("trails", "arrow", "head: 0%", "head"),
    ("trails", "arrow", "head: 2%", "head"),
    ("trails", "arrow", "ring: 0%", "ring"),
    ("trails", "arrow", f"ring-line: {NONE}", "ring-line"),
    ("trails", "product-arrow", "dash: 20%, gap: 10%", "dash"),
    ("trails", "product-arrow", "gap: 10%, dots: true", "dots"),
    ("trails", "zipper", "gap: 10%, dots: true", "dots"),
    ("trails", "zipper", "rung: 2%", "rung"),
    ("trails", "beyond", "pen: {of-cell: 7%}", "pen"),
    ("trails", "whisper", "gap: 0%", "gap"),
    ("trails", "whisper", "pen: {of-cell: 2%}", "pen"),
    ("trails", "between", "circle: 0%", "circle"),
    ("cages", "cage", "ink: 0%", "ink"),
    ("cages", "cage", f"line: {NONE}", "line"),
    ("cages", "cage", f"label-height: {NONE}", "label-height"),
    ("areas", "clone", f"label-height: {NONE}", "label-height"),
    ("areas", "window", f"ink: 0%, edge: {NONE}", "ink"),
    ("tints", "even", "size: 0%", "size"),
    ("tints", "count-circle", f"edge: {NONE}", "edge"),
    ("signs", "greater", "spread: 0%", "spread"),
    ("signs", "greater", "length: 0%", "length"),
    ("badges", "difference", f"label-height: {NONE}", "label-height"),
    ("badges", "difference", "ink: 100%", "ink"),
    ("badges", "consecutive", f"line: {NONE}", "line"),
    ("clues", "diagonal", "arrow: 0%", "arrow"),
    ("clues", "outside", "room: 0%", "room"),
]


@pytest.mark.parametrize(("kind", "role", "look", "key"), HIDING)
def test_a_look_that_hides_a_part_of_its_mark_is_refused_at_its_key(
    tmp_path, kind, role, look, key
):
    lines = refused(tmp_path, kind, role, look)
    column = f"      {role}: {{{look}".index(key) + 1
    assert any(line.startswith(f"mine.yaml:5:{column}: ") for line in lines), lines
    for line in lines:
        assert line.startswith("mine.yaml:5:")
        assert f'"{role}"' in line


@pytest.mark.parametrize("look", ["dash: 20%, gap: 10%", "gap: 10%, dots: true"])
@pytest.mark.parametrize("role", ["thermometer", "slow-thermometer", "arrow", "between"])
def test_dashes_and_dots_are_taken_where_every_part_shows(tmp_path, role, look):
    assert refused(tmp_path, "trails", role, look) == []


def test_no_shipped_sheet_hides_anything():
    for name in shipped_style_names():
        assert style_of(shipped_styles() / f"{name}.yaml", f"{name}.yaml")


def test_a_kind_of_mark_that_is_none_is_told_at_its_place(tmp_path):
    sheet = tmp_path / "mine.yaml"
    sheet.write_text("like: paperback\nboard:\n  marks:\n    hairline: {box: {ink: 3%}}\n")
    with pytest.raises(Unreadable, match=r"mine\.yaml:4:5"):
        read_style("mine.yaml", tmp_path, Place("job.yaml", 1, 1))
