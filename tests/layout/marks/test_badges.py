"""Badges sit exactly on edges and corners, their labels within them, clear of every digit."""

import pytest

from layout.board.board import draw_board, lay_out
from layout.marks.badge import draw
from layout.marks.label import ink_box
from layout.picture.items import Fill, Stroke, Text
from layout.writers.svg import svg_of_picture
from tests.support.drawn import (
    STYLES,
    board_style,
    cells,
    glyphs,
    lattice,
    painted_bounds,
    plain_puzzle,
    points,
    svg_of,
)
from tests.support.drawn_marks import nine, with_marks
from verify.marks import Badge, Trail

PLACE = lattice(side=10.0)
EDGES = [("r5c5 r5c6", (4, 5), (0, 5)), ("r5c5 r6c5", (5, 4), (5, 0))]
CORNER = "r5c5 r5c6 r6c5 r6c6"
LABELLED = (
    [Badge("difference", cells(pair), label) for pair, *_ in EDGES for label in ["3", "9", "12"]]
    + [Badge("sum-mark", cells(pair), label) for pair, *_ in EDGES for label in ["7", "14"]]
    + [Badge("sum-quad", cells(CORNER), label) for label in ("9", "22", "30")]
    + [Badge("quad", cells(CORNER), label) for label in ("5", "5 8", "1 2 9", "6 8 9 9")]
)


def look(role, style="paperback"):
    return board_style(style).marks.badges[role]


def items(mark, style="paperback", place=PLACE):
    return [item for _, item in draw(mark, look(mark.role, style), place)]


def middle(path):
    xs, ys = zip(*points(path), strict=True)
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2


def box(path, reach=0.0):
    xs, ys = zip(*points(path), strict=True)
    return min(xs) - reach, min(ys) - reach, max(xs) + reach, max(ys) + reach


@pytest.mark.parametrize("role", ["consecutive", "ratio"])
@pytest.mark.parametrize("style", STYLES)
def test_dots_sit_in_the_middle_of_an_edge(role, style):
    for pair, corner, (right, down) in EDGES:
        (disc, *_) = (i for i in items(Badge(role, cells(pair)), style) if isinstance(i, Fill))
        x, y = PLACE.corner(*corner)
        assert middle(disc.path) == pytest.approx((x + right, y + down))
        assert disc.grey == (1.0 if role == "consecutive" else 0.0)


def test_a_disc_of_four_cells_sits_on_their_corner():
    for mark in LABELLED[-4:]:
        (disc, *_) = (item for item in items(mark) if isinstance(item, Fill))
        assert middle(disc.path) == pytest.approx(PLACE.corner(5, 5))


def test_the_drawn_dot_sits_on_the_edge_in_the_finished_svg():
    puzzle = with_marks(nine(full=False), [Badge("ratio", cells("r5c5 r5c6"))])
    place = lay_out(puzzle, board_style(), 90)
    root = svg_of(svg_of_picture(draw_board(puzzle, board_style(), 90)))
    x, y = place.corner(4, 5)
    wanted = x, y + place.side / 2
    centres = [((a + c) / 2, (b + d) / 2) for a, b, c, d in painted_bounds(root)]
    assert any(centre == pytest.approx(wanted, abs=1e-3) for centre in centres)


@pytest.mark.parametrize("mark", LABELLED, ids=lambda mark: f"{mark.role} {mark.label}")
@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("side", [4.0, 8.0, 12.0, 20.0])
def test_a_label_lies_within_its_disc(mark, style, side):
    place = lattice(side=side)
    drawn = items(mark, style, place)
    texts = [item for item in drawn if isinstance(item, Text)]
    (disc, *_) = (item for item in drawn if isinstance(item, Fill))
    line = look(mark.role, style).line.at(side)
    left, top, right, bottom = box(disc.path, -line / 2)
    boxes = [ink_box(text) for text in texts]
    assert min(b[0] for b in boxes) > left
    assert max(b[2] for b in boxes) < right
    assert min(b[1] for b in boxes) > top
    assert max(b[3] for b in boxes) < bottom
    x, y = middle(disc.path)
    radius = (bottom - top) / 2
    # Round ends: every corner of the ink lies inside the circle at its side.
    for a, b, c, d in boxes:
        for px in (a, c):
            for py in (b, d):
                beyond = max(abs(px - x) - ((right - left) / 2 - radius), 0)
                assert beyond**2 + (py - y) ** 2 < radius**2


@pytest.mark.parametrize("style", STYLES)
def test_several_digits_stand_apart_on_one_line_or_two(style):
    for symbols, rows in (("5", 1), ("5 8", 1), ("1 2 9", 2), ("6 8 9 9", 2)):
        texts = [i for i in items(Badge("quad", cells(CORNER), symbols), style) if type(i) is Text]
        assert [text.text for text in texts] == symbols.split()
        assert len({round(text.y, 6) for text in texts}) == rows
        boxes = [ink_box(text) for text in texts]
        for at, one in enumerate(boxes):
            for other in boxes[at + 1 :]:
                assert apart(one, other) > 0.1


def apart(one, other):
    """The larger of the gaps between two boxes, level and upright."""
    return max(one[0] - other[2], other[0] - one[2], one[1] - other[3], other[1] - one[3])


@pytest.mark.parametrize("mark", LABELLED, ids=lambda mark: f"{mark.role} {mark.label}")
@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("width", [40, 90, 170])
def test_no_badge_touches_a_digit_of_the_cells_around(mark, style, width):
    puzzle, style = with_marks(nine(), [mark]), board_style(style)
    picture = draw_board(puzzle, style, width)
    place = lay_out(puzzle, style, width)
    drawn = [item for _, item in draw(mark, style.marks.badges[mark.role], place)]
    (disc, *_) = (item for item in drawn if isinstance(item, Fill))
    line = style.marks.badges[mark.role].line.at(place.side)
    left, top, right, bottom = box(disc.path, line / 2)
    x, y, radius = (left + right) / 2, (top + bottom) / 2, (bottom - top) / 2
    straight = (right - left) / 2 - radius
    for digit in [item for item in picture.items if isinstance(item, Text)][-81:]:
        a, b, c, d = ink_box(digit)
        across = max(a - (x + straight), (x - straight) - c, 0.0)
        down = max(b - y, y - d, 0.0)
        assert across**2 + down**2 > (radius + 0.01 * place.side) ** 2


def test_digits_are_printed_as_the_puzzle_s_symbols():
    puzzle = with_marks(
        plain_puzzle(4, more="symbols: [A, B, C, D]\n"),
        [Badge("quad", (0, 1, 4, 5), digits=(1, 4))],
    )
    picture = draw_board(puzzle, board_style(), 60)
    assert [item.text for item in picture.items if isinstance(item, Text)] == ["A", "D"]
    assert "Quad A D: r1c1 r1c2 r2c1 r2c2." in picture.description
    assert len(list(glyphs(svg_of(svg_of_picture(picture))))) == 2


def test_symbols_of_two_characters_stay_within_the_disc():
    puzzle = with_marks(
        plain_puzzle(4, more="symbols: [8, 9, 10, 11]\n"),
        [Badge("quad", (0, 1, 4, 5), digits=(1, 3, 4))],
    )
    picture = draw_board(puzzle, board_style(), 60)
    texts = [item for item in picture.items if isinstance(item, Text)]
    place = lay_out(puzzle, board_style(), 60)
    radius = look("quad").size * place.side / 2
    x, y = place.corner(1, 1)
    assert [text.text for text in texts] == ["8", "10", "11"]
    for text in texts:
        left, top, right, bottom = ink_box(text)
        assert max(abs(left - x), abs(right - x)) < radius
        assert max(abs(top - y), abs(bottom - y)) < radius


@pytest.mark.parametrize("role", ["consecutive", "ratio", "difference", "quad"])
def test_badges_clear_the_lines_below_them(role):
    where = cells(CORNER if role == "quad" else "r5c5 r5c6")
    mark = Badge(role, where, "" if role in ("consecutive", "ratio") else "5")
    line = Trail("equal-sum", ((where[0], where[1]),))
    picture = draw_board(with_marks(nine(full=False), [line, mark]), board_style(), 90)
    grounds = [
        at
        for at, item in enumerate(picture.items)
        if isinstance(item, Fill | Stroke) and item.grey in (0.0, 1.0) and item.path[0].closed
    ]
    grid = max(at for at, item in enumerate(picture.items) if isinstance(item, Stroke))
    assert grounds
    assert grid >= grounds[0]
