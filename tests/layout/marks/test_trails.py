"""Trails: bulbs and forks as one thing, shafts from the rim, heads inside their cells."""

from itertools import pairwise
from math import dist, hypot

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layout.marks.trail import draw
from layout.picture.items import Fill, Stroke
from layout.picture.order import Layer
from tests.support.drawn import NINE, STYLES, board_style, cells, lattice, points, trail
from verify.board import COMPASS
from verify.marks import Trail

SIDE = 10.0
PLACE = lattice(side=SIDE)


def look(role="thermometer", style="paperback"):
    return board_style(style).marks.trails[role]


def painted(mark, role="thermometer", style="paperback"):
    return list(draw(mark, look(role, style), PLACE))


def items(mark, role="thermometer", style="paperback"):
    return [item for _, item in painted(mark, role, style)]


def thermometer(*paths):
    return Trail("thermometer", tuple(trail(path) for path in paths), start="bulb")


def arrow(ring, *paths):
    return Trail("arrow", tuple(trail(path) for path in paths), end="arrowhead", ring=cells(ring))


def body(mark, role="thermometer", style="paperback"):
    """The stroke of the innermost coat's lines."""
    ink = 1 - look(role, style).ink
    return next(
        item
        for item in items(mark, role, style)
        if isinstance(item, Stroke) and item.grey == ink and not item.path[0].closed
    )


def test_a_thermometer_runs_through_the_middles_of_its_cells():
    line = body(thermometer("r1c1 e se s"))
    assert list(points(line.path)) == [PLACE.centre(c) for c in trail("r1c1 e se s")]
    assert (line.cap, line.join) == ("round", "round")
    assert line.width == pytest.approx(look().width.at(SIDE))


def test_its_bulb_is_a_disc_on_the_first_cell():
    discs = [item for item in items(thermometer("r5c5 n")) if isinstance(item, Fill)]
    centre = PLACE.centre(cells("r5c5")[0])
    for each in discs:
        for point in points(each.path):
            assert dist(point, centre) == pytest.approx(look().bulb * SIDE / 2)


def test_a_fork_is_one_shape_whose_coats_are_each_painted_whole():
    mark = thermometer("r5c5 e e n", "r5c5 e e s s", "r5c5 e ne")
    strokes = [item for item in items(mark) if isinstance(item, Stroke) and not item.path[0].closed]
    white, edge, inside = strokes
    assert white.path == edge.path == inside.path
    assert white.width > edge.width > inside.width
    assert (white.grey, inside.grey) == (1.0, 1 - look().ink)
    steps = [frozenset(step) for contour in inside.path for step in pairwise(points((contour,)))]
    assert len(steps) == len(set(steps)) == 3 + 2 + 1


def test_a_branch_that_another_covers_adds_nothing():
    assert body(thermometer("r5c5 e e n", "r5c5 e e")).path == body(thermometer("r5c5 e e n")).path


def test_a_later_trail_clears_the_earlier_all_round():
    white = items(thermometer("r5c5 n"))[0]
    inside = body(thermometer("r5c5 n"))
    edge = look().edge.at(SIDE)
    assert white.grey == 1.0
    assert white.width == pytest.approx(inside.width + 2 * (edge + look().clear * SIDE))


def bridges(mark, role="thermometer"):
    """The last coats: stretches over a crossing, butt against the white."""
    lines = [
        item for item in items(mark, role) if isinstance(item, Stroke) and not item.path[0].closed
    ]
    return [
        item
        for item in lines
        if item.cap == "butt" and item.grey == 1.0 and item.path != lines[0].path
    ]


def test_where_it_crosses_itself_a_bridge_stands_on_the_crossing():
    (bridge,) = bridges(thermometer("r1c1 se n sw"))
    (contour,) = bridge.path
    (x1, y1), (x2, y2) = points((contour,))
    assert ((x1 + x2) / 2, (y1 + y2) / 2) == pytest.approx(PLACE.corner(1, 1))
    # It spans the stem below it and no more, so that nothing else is cleared.
    stem = look().width.at(SIDE) + 2 * look().edge.at(SIDE)
    assert hypot(x2 - x1, y2 - y1) == pytest.approx(stem)


@pytest.mark.parametrize("path", ["r1c1 se se n w", "r1c1 e s w", "r3c1 ne ne s s"])
def test_a_trail_that_does_not_cross_itself_has_no_bridge(path):
    assert bridges(thermometer(path)) == []


def test_branches_of_a_fork_bridge_each_other_too():
    assert len(bridges(thermometer("r1c1 e se", "r1c1 s se n".replace("se n", "ne")))) == 0
    assert len(bridges(thermometer("r1c1 se", "r1c1 e sw"))) == 1


@pytest.mark.parametrize("step", sorted(COMPASS))
@pytest.mark.parametrize("style", STYLES)
def test_an_arrow_s_shaft_starts_on_the_rim(step, style):
    mark = arrow("r5c5", f"r5c5 {step} {step}")
    shaft = body(mark, "arrow", style)
    centre = PLACE.centre(cells("r5c5")[0])
    radius = look("arrow", style).ring * SIDE / 2
    assert dist(shaft.path[0].start, centre) == pytest.approx(radius, abs=1e-6)
    assert shaft.cap == "butt"


@pytest.mark.parametrize("step", sorted(COMPASS))
@pytest.mark.parametrize("style", STYLES)
def test_an_arrowhead_stays_inside_the_last_cell(step, style):
    mark = arrow("r5c5", f"r5c5 {step} {step}")
    width = look("arrow", style).width.at(SIDE)
    heads = [
        item
        for item in items(mark, "arrow", style)
        if isinstance(item, Stroke)
        and item.grey < 1
        and item.join == "miter"
        and not item.path[0].closed
    ]
    x, y = PLACE.centre(mark.branches[0][-1])
    (head,) = heads
    for px, py in points(head.path):
        # The mitred tip reaches out by no more than the line's width.
        assert abs(px - x) + width <= SIDE / 2
        assert abs(py - y) + width <= SIDE / 2


def test_the_shaft_ends_at_the_tip_of_the_head():
    mark = arrow("r5c5", "r5c5 e ne")
    lines = [item for item in items(mark, "arrow") if isinstance(item, Stroke) and item.grey < 1]
    shaft, head = (item for item in lines if not item.path[0].closed)
    assert list(points(head.path))[1] == list(points(shaft.path))[-1]
    left, tip, right = points(head.path)
    assert dist(left, tip) == pytest.approx(dist(right, tip))


def test_a_total_of_two_cells_has_one_ring_around_both():
    mark = arrow("r5c5 r5c6", "r5c6 ne n")
    ring = items(mark, "arrow")[-1]
    xs, ys = zip(*points(ring.path), strict=True)
    (x1, y), (x2, _) = PLACE.centres(cells("r5c5 r5c6"))
    radius = look("arrow").ring * SIDE / 2
    assert (min(xs), max(xs)) == pytest.approx((x1 - radius, x2 + radius))
    assert (min(ys), max(ys)) == pytest.approx((y - radius, y + radius))
    start = body(mark, "arrow").path[0].start
    assert dist(start, (x2, y)) == pytest.approx(radius)


def test_a_shaft_that_leaves_a_long_ring_askew_still_starts_on_its_rim():
    mark = arrow("r5c4 r5c5 r5c6", "r5c5 ne n")
    _, y = body(mark, "arrow").path[0].start
    assert PLACE.centre(cells("r5c5")[0])[1] - y == pytest.approx(look("arrow").ring * SIDE / 2)


def test_lines_lie_over_thin_rays_and_broad_shapes_under_them():
    assert {layer for layer, _ in painted(thermometer("r5c5 n"))} == {Layer.TRAIL}
    assert {layer for layer, _ in painted(arrow("r5c5", "r5c5 n"), "arrow")} == {Layer.SHAFT}


@st.composite
def paths(draw_):
    """A path that never comes back to a cell."""
    path = [draw_(st.sampled_from(NINE.cells))]
    for step in draw_(st.lists(st.sampled_from(sorted(COMPASS)), min_size=1, max_size=8)):
        after = NINE.step(path[-1], step)
        if after is not None and after not in path:
            path.append(after)
    return tuple(path)


@given(paths().filter(lambda path: len(path) > 1), st.sampled_from(STYLES))
def test_no_thermometer_reaches_beyond_its_cells(path, style):
    mark = Trail("thermometer", (path,), start="bulb")
    columns = [NINE.place(cell)[1] for cell in path]
    left, _ = PLACE.corner(0, min(columns))
    right, _ = PLACE.corner(0, max(columns) + 1)
    for item in items(mark, style=style):
        reach = item.width / 2 if isinstance(item, Stroke) else 0.0
        xs = [x for x, _ in points(item.path)]
        assert min(xs) - reach >= left
        assert max(xs) + reach <= right
