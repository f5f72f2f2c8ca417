"""Areas, open circles and heads: under everything, clear of digits, told apart by shape."""

from dataclasses import replace
from math import dist

import pytest

from layout.board.board import draw_board, lay_out
from layout.marks import area, cage, tint
from layout.marks.label import ink_box
from layout.marks.outline import inset, outlines
from layout.picture.items import Fill, Stroke, Text
from layout.picture.order import Layer
from tests.support.drawn import STYLES, board_style, cell, cells, lattice, points
from tests.support.drawn_marks import EVERY_MARK, nine, with_marks
from verify.marks import Area, Cage, Mark, Tint

PLACE = lattice(side=10.0)
SHAPE = cells("r5c5 r5c6 r6c5")


def look(kind, role, style="paperback"):
    return getattr(board_style(style).marks, kind)[role]


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("role", ["window", "extra-region", "clone"])
def test_the_ground_fills_its_cells_and_the_edge_line_lies_inside(style, role):
    drawn = dict(area.draw(Area(role, SHAPE), look("areas", role, style), PLACE))
    ground, edge = drawn[Layer.AREA], drawn[Layer.AREA_EDGE]
    (loop,) = outlines(PLACE.board, SHAPE)
    assert set(points(ground.path)) == set(inset(loop, 0.0, PLACE))
    distance = look("areas", role, style).inset * 10
    assert set(points(edge.path)) == set(inset(loop, distance, PLACE))
    assert edge.width / 2 < distance
    assert Layer.LABEL not in drawn


def test_grounds_lie_under_everything_and_overlapping_edges_are_all_seen():
    marks = [Area("window", SHAPE), Area("extra-region", cells("r5c6 r5c7"))]
    picture = draw_board(with_marks(nine(False), [*EVERY_MARK, *marks]), board_style(), 100)
    grounds = sum(isinstance(mark, Area) for mark in (*EVERY_MARK, *marks))
    assert all(isinstance(item, Fill) for item in picture.items[:grounds])
    edges = picture.items[grounds : 2 * grounds]
    assert all(isinstance(item, Stroke) and item.path[0].closed for item in edges)


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("width", [40, 100, 180])
@pytest.mark.parametrize(
    "mark",
    [
        Area("clone", SHAPE, "A"),
        Area("clone", SHAPE, "W"),
        Cage("calculation", SHAPE, "120×"),
        Cage("calculation", SHAPE, "3−"),
        Cage("equal-cages", SHAPE, "A"),
    ],
    ids=lambda mark: f"{mark.role} {mark.label}",
)
def test_no_label_touches_a_digit(style, width, mark):
    puzzle, style = with_marks(nine(), [mark]), board_style(style)
    place = lay_out(puzzle, style, width)
    texts = [i for i in draw_board(puzzle, style, width).items if isinstance(i, Text)]
    (label,), digits = texts[:-81], texts[-81:]
    assert label.text == mark.label
    left, top, right, bottom = ink_box(label)
    x, y = place.corner(4, 4)
    assert x < left < right < x + place.side
    assert y < top
    for digit in digits:
        a, b, c, d = ink_box(digit)
        assert max(a - right, left - c, b - bottom, top - d) > 0.02 * place.side


@pytest.mark.parametrize("style", STYLES)
def test_a_cage_s_and_an_area_s_label_share_a_cell(style):
    marks: tuple[Mark, ...] = (Area("clone", SHAPE, "A"), Cage("cage", SHAPE, "17"))
    picture = draw_board(with_marks(nine(False), marks), board_style(style), 100)
    one, other = sorted(ink_box(item) for item in picture.items if isinstance(item, Text))
    assert one[2] < other[0]


@pytest.mark.parametrize("kept", [True, False])
def test_answers_keep_no_labels_in_corners_but_clues_and_badges(kept):
    marks = [mark for mark in EVERY_MARK if isinstance(mark, Cage | Area) is not kept]
    puzzle = with_marks(nine(False), marks)
    plain = draw_board(puzzle, board_style(), 100)
    answer = draw_board(puzzle, board_style(), 100, answer=[5] * 81)
    said = [item.text for item in plain.items if isinstance(item, Text)]
    left = [item.text for item in answer.items if isinstance(item, Text)][: -81 or None]
    assert said
    assert left == (said if kept else [])


def label_of(drawn):
    _, item = drawn[1]
    assert isinstance(item, Text)
    return item


def drawn_in(style):
    """A calculation's look as a sheet may have it, drawn in from the edges."""
    return replace(look("cages", "calculation", style), inset=0.07)


@pytest.mark.parametrize("style", STYLES)
def test_neighbouring_calculations_share_one_line_on_the_cell_edge(style):
    shapes = [cells("r5c5 r5c6"), cells("r6c5 r6c6")]
    each = look("cages", "calculation", style)
    drawn = [next(cage.draw(Cage("calculation", shape, "12×"), each, PLACE))[1] for shape in shapes]
    edge = PLACE.corner(5, 0)[1]
    for stroke in drawn:
        (line,) = stroke.path
        assert line.closed  # the label lies inside and cuts nothing
        assert edge in {y for _, y in points((line,))}
    hairline = board_style(style).lines.hairline.at(10)
    assert drawn[0].width == drawn[1].width > 1.9 * hairline


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("label", ["", "12×"])
def test_an_outline_drawn_in_is_solid_but_for_the_room_of_its_label(style, label):
    drawn = list(cage.draw(Cage("calculation", SHAPE, label), drawn_in(style), PLACE))
    stroke = drawn[0][1]
    (loop,) = outlines(PLACE.board, SHAPE)
    corners = inset(loop, 0.07 * 10, PLACE)
    (line,) = stroke.path
    if not label:
        assert line.closed
        assert list(points((line,))) == corners
        return
    first = min(corners, key=lambda corner: corner[0] + corner[1])
    assert not line.closed
    assert list(line.segments[:-1]) == [c for c in corners if c != first]
    _left, _top, right, bottom = ink_box(label_of(drawn))
    start, end = line.start, line.segments[-1]
    assert start[0] > right + stroke.width / 2
    assert end[1] > bottom + stroke.width / 2


def test_a_label_over_a_whole_side_leaves_the_rest_of_a_solid_outline():
    single = cells("r5c5")
    drawn = list(cage.draw(Cage("calculation", single, "123456789×"), drawn_in("paperback"), PLACE))
    (line,) = drawn[0][1].path
    assert not line.closed
    _, _, _, bottom = ink_box(label_of(drawn))
    assert min(y for _, y in points((line,))) > bottom


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("shape", ["inward", "outward"])
def test_heads_stand_at_the_middles_of_the_four_edges_inside_the_cell(style, shape):
    role = "local-minimum" if shape == "inward" else "local-maximum"
    drawn = tint.draw(Tint(role, cell("r5c5"), shape), look("tints", role, style), PLACE)
    heads = [item for _, item in drawn if isinstance(item, Fill)]
    (x, y), (head,) = PLACE.centre(cell("r5c5")), heads
    assert len(head.path) == 4
    for contour in head.path:
        tip, one, other = points((contour,))
        back = (one[0] + other[0]) / 2, (one[1] + other[1]) / 2
        assert min(abs(tip[0] - x), abs(tip[1] - y)) < 1e-9
        assert (dist(tip, (x, y)) < dist(back, (x, y))) is (shape == "inward")
        assert all(max(abs(px - x), abs(py - y)) < 5 for px, py in (tip, one, other))
        # Beyond the tallest digit of the style.
        tall = board_style(style).digits.height * 10 / 2
        assert min(dist(p, (x, y)) for p in (tip, back)) > tall + 0.3


@pytest.mark.parametrize("style", STYLES)
def test_a_counting_circle_is_open_and_its_line_bolder_than_a_tint_s(style):
    circle, odd = look("tints", "count-circle", style), look("tints", "odd", style)
    assert circle.ink == 0
    assert circle.edge_ink >= 0.8
    for side in (4, 10, 20):
        assert circle.edge.at(side) > 1.25 * odd.edge.at(side)


@pytest.mark.parametrize("style", STYLES)
def test_every_role_has_a_look_in_every_style(style):
    assert all(board_style(style).marks.knows(mark) for mark in EVERY_MARK)
