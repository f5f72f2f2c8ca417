"""Lines by pattern: whole ends, clean bends, even strokes, and no two alike without greys."""

from itertools import combinations, pairwise
from math import dist, sqrt

import pypdfium2
import pytest

from layout.board.board import draw_board, lay_out
from layout.marks.course import circled, lines
from layout.marks.pattern import broken, cross_strokes, dotted
from layout.marks.trail import draw, is_line
from layout.picture.items import Fill, Stroke
from layout.writers.pdf import pdf_of_picture
from tests.support.drawn import POINT, STYLES, board_style, cell, lattice, points, trail
from tests.support.drawn_marks import LINE_ROLES, line, line_of, nine, with_marks

PLACE = lattice(side=10.0)
PATHS = ("r5c2 e e e", "r5c2 se e", "r2c2 e s se n", "r2c2 se ne se", "r8c8 n", "r8c8 nw")
BENT = [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (20.0, 20.0)]


def look(role, style="paperback"):
    return board_style(style).marks.trails[role]


def painted(mark, style="paperback", place=PLACE):
    return [item for _, item in draw(mark, look(mark.role, style), place)]


def inked(mark, style="paperback", place=PLACE):
    return [item for item in painted(mark, style, place) if item.grey < 1]


def lengths(path):
    return [sum(dist(a, b) for a, b in pairwise(points((each,)))) for each in path]


@pytest.mark.parametrize("dash", [1.0, 3.0, 4.0])
@pytest.mark.parametrize("gap", [1.0, 2.0])
def test_dashes_are_whole_at_both_ends_and_at_every_bend(dash, gap):
    found = broken(BENT, dash, gap)
    assert found.dashes[0].start == BENT[0]
    assert list(points(found.dashes[-1:]))[-1] == pytest.approx(BENT[-1])
    bent = [each for each in found.dashes if len(each.segments) == 2]
    assert [each.segments[0] for each in bent] == [pytest.approx(p) for p in BENT[1:-1]]
    for length in lengths(found.dashes):
        assert 0.6 * dash < length < 1.5 * dash
    for each in bent:
        arms = [dist(a, b) for a, b in pairwise(points((each,)))]
        assert max(arms) < 1.6 * min(arms)


def test_dashes_of_a_stretch_are_alike_and_evenly_apart():
    found = broken([(0.0, 0.0), (30.0, 0.0)], 3.0, 1.5)
    assert len({round(length, 9) for length in lengths(found.dashes)}) == 1
    ends = [x for x, _ in points(found.dashes)]
    gaps = [b - a for a, b in zip(ends[1::2], ends[2::2], strict=False)]
    assert max(gaps) == pytest.approx(min(gaps))
    assert [x for x, _ in found.dots] == pytest.approx(
        [(a + b) / 2 for a, b in zip(ends[1::2], ends[2::2], strict=False)]
    )


def test_a_line_shorter_than_a_dash_is_one_dash_or_two():
    found = broken([(0.0, 0.0), (2.0, 0.0)], 5.0, 2.0)
    xs = [x for x, _ in points(found.dashes)]
    assert (xs[0], xs[-1]) == pytest.approx((0, 2))


def test_a_dot_stands_on_each_end_and_on_every_bend():
    dots = dotted(BENT, 1.7)
    for corner in BENT:
        assert min(dist(corner, dot) for dot in dots) < 1e-9
    apart = [dist(a, b) for a, b in pairwise(dots)]
    assert max(apart) < 1.1 * 1.7
    assert min(apart) > 0.9 * 1.7


def test_strokes_lie_square_across_and_keep_off_bends_and_ends():
    strokes = list(cross_strokes(BENT, 2.5, 2.0))
    middles = [((x1 + x2) / 2, (y1 + y2) / 2) for (x1, y1), (x2, y2) in strokes]
    assert all(dist(*stroke) == pytest.approx(2.0) for stroke in strokes)
    assert min(dist(middle, corner) for middle in middles for corner in BENT) > 1.0
    (x1, y1), (x2, y2) = strokes[-1]
    assert (x2 - x1) + (y2 - y1) == pytest.approx(0)
    assert len(strokes) == 4 + 4 + round(10 * sqrt(2) / 2.5)


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("role", LINE_ROLES)
def test_every_role_is_drawn_in_every_style(style, role):
    for path in PATHS:
        assert inked(line_of(role, path), style)


@pytest.mark.parametrize("path", PATHS)
@pytest.mark.parametrize("role", ["palindrome", "whisper", "equal-sum", "parity-line", "zipper"])
def test_a_line_ends_in_the_middles_of_its_first_and_last_cell(role, path):
    mark = line(role, path)
    spots = [spot for item in inked(mark) for spot in points(item.path)]
    # A dot's middle is the middle of the cell, so that its rim is half a dot from it.
    reach = look(role).width.at(10) / 2 if look(role).dots else 1e-9
    for end in (trail(path)[0], trail(path)[-1]):
        assert min(dist(spot, PLACE.centre(end)) for spot in spots) <= reach + 1e-9


@pytest.mark.parametrize("path", PATHS)
@pytest.mark.parametrize("role", ["between", "beyond", "double-arrow"])
@pytest.mark.parametrize("style", STYLES)
def test_a_line_between_circles_runs_from_rim_to_rim(style, role, path):
    mark = line_of(role, path)
    (course,) = lines(mark, look(role, style), PLACE)
    radius = look(role, style).circle * 10 / 2
    for spot, end in ((course[0], trail(path)[0]), (course[-1], trail(path)[-1])):
        assert dist(spot, PLACE.centre(end)) == pytest.approx(radius)
    circles = next(item for item in inked(mark, style) if item.path[0].closed)
    discs = [item for item in painted(mark, style) if isinstance(item, Fill)]
    assert len(circles.path) == len(discs[0].path) == 2
    half = look(role, style).ring_line.at(10) / 2
    (outer,) = (item for item in inked(mark, style)[-1:] if isinstance(item, Stroke))
    rims = {round(dist(spot, PLACE.centre(trail(path)[0])), 6) for spot in points(outer.path[:1])}
    assert rims == {round(radius - half, 6)}


def test_circled_cells_need_no_halo_and_lines_lie_over_rays():
    mark = line_of("between", "r1c1 e e")
    assert circled(mark) == [cell("r1c1"), cell("r1c3")]
    assert is_line(mark, look("between"))
    assert not is_line(line("renban", "r1c1 e"), look("renban"))


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("side", [3.0, 6.0, 12.0, 20.0])
@pytest.mark.parametrize("role", ["beyond", "entropic-line", "product-arrow"])
def test_both_halves_of_a_double_line_are_told_apart(style, side, role):
    each = look(role, style)
    width = each.width.at(side)
    half = each.pen.at(side)
    white = width - 2 * half
    assert half >= 0.25 * POINT
    assert white >= 0.5 * POINT
    if style == "newsprint":
        assert half >= 0.5 * POINT


def test_a_ladder_is_closed_at_both_ends():
    mark = line("entropic-line", "r5c2 e e")
    *_, rungs = inked(mark)
    xs = sorted({round(x, 6) for x, _ in points(rungs.path)})
    (left, _), (right, _) = PLACE.centre(cell("r5c2")), PLACE.centre(cell("r5c4"))
    assert xs[0] - rungs.width / 2 == pytest.approx(left)
    assert xs[-1] + rungs.width / 2 == pytest.approx(right)


def test_a_double_shaft_ends_on_the_arms_of_its_head():
    strokes = [item for item in inked(line_of("product-arrow")) if not item.path[0].closed]
    shaft, head = strokes[:2]
    end, (first, tip, _) = list(points(shaft.path))[-1], list(points(head.path))
    arm = (first[1] - tip[1]) / (first[0] - tip[0])
    assert abs(arm * (end[0] - tip[0])) == pytest.approx(shaft.width / 2)


def test_no_rung_lies_on_a_crossing():
    mark = line("zipper", "r1c1 se n sw")
    *_, rungs = inked(mark)
    corner = PLACE.corner(1, 1)
    for contour in rungs.path:
        (x1, y1), (x2, y2) = points((contour,))
        assert dist(((x1 + x2) / 2, (y1 + y2) / 2), corner) > look("zipper").rung * 10


def ink_of(role, style):
    """The black of a line on an empty board, once greys have gone to black or white."""
    puzzle = with_marks(nine(full=False), [line_of(role)])
    picture = draw_board(puzzle, board_style(style), 90)
    image = pypdfium2.PdfDocument(pdf_of_picture(picture))[0].render(scale=4, grayscale=True)
    place, scale = lay_out(puzzle, board_style(style), 90), 4 / POINT
    left, top = (round(value * scale) for value in place.corner(4, 1))
    right, bottom = (round(value * scale) for value in place.corner(5, 5))
    return image.to_numpy()[top:bottom, left:right] < 128


@pytest.mark.parametrize("style", STYLES)
def test_lines_are_told_apart_by_shape_alone(style):
    seen = {role: ink_of(role, style) for role in LINE_ROLES}
    # Two thermometers of one book differ in what fills them, and in their rule's sentence.
    roles = [role for role in LINE_ROLES if role != "slow-thermometer"]
    for one, other in combinations(roles, 2):
        differing = (seen[one] ^ seen[other]).sum()
        assert differing > 0.003 * seen[one].size, (one, other)
