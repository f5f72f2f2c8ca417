"""Cages: dashes inside the cell edges whose corners join, and a label with its own room."""

from collections import Counter
from itertools import pairwise
from math import dist

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layout.marks.cage import draw
from layout.marks.outline import inset, outlines
from layout.picture.items import Stroke, Text
from layout.type.fonts import font
from tests.support.drawn import NINE, STYLES, board_style, cell, cells, lattice, points
from verify.marks import Cage

PLACE = lattice(side=10.0)


def look(style="paperback"):
    return board_style(style).marks.cages["cage"]


def dashes_of(mark, style="paperback", place=PLACE):
    return next(item for _, item in draw(mark, look(style), place) if isinstance(item, Stroke))


def label_of(mark, style="paperback", place=PLACE):
    return next(item for _, item in draw(mark, look(style), place) if isinstance(item, Text))


def ink_of(text):
    left, bottom, right, top = (each * text.size for each in font(text.font).bounds(text.text))
    return text.x + left, text.y - top, text.x + right, text.y - bottom


@st.composite
def groups(draw_):
    """Some cells that hang together by their edges."""
    group = {draw_(st.sampled_from(NINE.cells))}
    for _ in range(draw_(st.integers(0, 7))):
        beside = sorted(
            near
            for one in group
            for near in NINE.cells
            if NINE.share_edge(one, near) and near not in group
        )
        group.add(draw_(st.sampled_from(beside)))
    return tuple(sorted(group))


@given(groups())
def test_an_outline_has_each_side_that_parts_inside_from_outside_once(group):
    sides = Counter()
    for loop in outlines(NINE, group):
        for (r1, c1), (r2, c2) in pairwise([*loop, loop[0]]):
            assert (r1 == r2) != (c1 == c2)
            for step in range(abs(r2 - r1) + abs(c2 - c1)):
                down, right = (r2 > r1) - (r2 < r1), (c2 > c1) - (c2 < c1)
                sides[
                    frozenset(
                        {
                            (r1 + step * down, c1 + step * right),
                            (r1 + (step + 1) * down, c1 + (step + 1) * right),
                        }
                    )
                ] += 1
    assert set(sides.values()) == {1}
    shared = sum(NINE.share_edge(a, b) for a in group for b in group) // 2
    assert len(sides) == 4 * len(group) - 2 * shared


def test_cells_that_touch_at_a_corner_alone_have_an_outline_each():
    assert len(outlines(NINE, cells("r1c1 r2c2"))) == 2
    assert len(outlines(NINE, cells("r1c2 r2c1"))) == 2


def test_a_group_that_touches_itself_at_a_corner_does_not_run_through_it():
    bent = cells("r1c2 r1c3 r2c3 r3c3 r3c2 r3c1 r2c1")
    (loop,) = outlines(NINE, bent)
    assert loop.count((1, 1)) == 2
    drawn_in = inset(loop, 1.0, PLACE)
    x, y = PLACE.corner(1, 1)
    near = {p for p in drawn_in if max(abs(p[0] - x), abs(p[1] - y)) < 2}
    assert near == {(x - 1, y + 1), (x + 1, y - 1)}


def test_a_ring_of_cells_has_an_inner_and_an_outer_outline():
    ring = cells("r1c1 r1c2 r1c3 r2c1 r2c3 r3c1 r3c2 r3c3")
    outer, inner = sorted(outlines(NINE, ring), key=len, reverse=True), None
    assert [len(loop) for loop in outer] == [4, 4]
    assert inner is None


def test_the_inset_outline_lies_inside_the_cells():
    (loop,) = outlines(NINE, cells("r1c1 r1c2 r2c2"))
    drawn_in = inset(loop, 1.0, PLACE)
    x, y = PLACE.corner(0, 0)
    wanted = [(1, 1), (19, 1), (19, 19), (11, 19), (11, 9), (1, 9)]
    assert sorted(drawn_in) == sorted((x + a, y + b) for a, b in wanted)


@given(groups(), st.sampled_from(STYLES))
def test_dashes_never_leave_the_cells_and_keep_clear_of_their_edges(group, style):
    line = dashes_of(Cage("cage", group), style)
    keep = look(style).inset * PLACE.side - line.width / 2 - 1e-9
    assert keep > 0
    for x, y in points(line.path):
        column, row = int((x - PLACE.left) // PLACE.side), int((y - PLACE.top) // PLACE.side)
        assert NINE.cell(row, column) in group
        for down, right in ((0, 1), (0, -1), (1, 0), (-1, 0)):
            beyond = row + down, column + right
            if not NINE.holds(*beyond) or NINE.cell(*beyond) not in group:
                assert gap_to_side(x, y, row, column, down, right) >= keep


def gap_to_side(x, y, row, column, down, right):
    left, top = PLACE.corner(row, column)
    edge_x, edge_y = left + (right > 0) * PLACE.side, top + (down > 0) * PLACE.side
    return abs(x - edge_x) if right else abs(y - edge_y)


@given(groups(), st.sampled_from(STYLES))
def test_every_corner_is_a_whole_angle(group, style):
    line = dashes_of(Cage("cage", group), style)
    assert (line.cap, line.join, line.dash) == ("butt", "miter", ())
    angles = {contour.segments[0] for contour in line.path if len(contour.segments) == 2}
    distance = look(style).inset * PLACE.side
    corners = {p for loop in outlines(NINE, group) for p in inset(loop, distance, PLACE)}
    assert angles == corners


@given(groups())
def test_dashes_along_a_side_are_even(group):
    line = dashes_of(Cage("cage", group))
    for contour in line.path:
        lengths = [dist(a, b) for a, b in pairwise(points((contour,)))]
        dash = sum(lengths)
        assert 0.4 * look().dash * PLACE.side <= dash <= 2.1 * look().dash * PLACE.side


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("side", [4.4, 10.0, 20.0])
@pytest.mark.parametrize("label", ["3", "17", "45", "118"])
def test_a_label_stands_in_the_first_cell_s_corner_and_no_dash_touches_it(style, side, label):
    place = lattice(side=side)
    mark = Cage("cage", cells("r3c4 r3c5 r4c4"), label)
    left, top, right, bottom = ink_of(label_of(mark, style, place))
    x, y = place.corner(2, 3)
    corner = look(style).label_corner * side
    assert (left - x, top - y) == pytest.approx((corner, corner), abs=1e-6)
    assert right < x + side
    assert bottom < y + side * 0.36
    line = dashes_of(mark, style, place)
    half = line.width / 2
    for contour in line.path:
        for (x1, y1), (x2, y2) in pairwise(points((contour,))):
            apart = max(
                left - max(x1, x2), min(x1, x2) - right, top - max(y1, y2), min(y1, y2) - bottom
            )
            assert apart > half


def test_the_first_cell_is_the_upper_left_one():
    label = label_of(Cage("cage", cells("r4c4 r3c5 r3c4"), "9"))
    x, y = PLACE.corner(*NINE.place(cell("r3c4")))
    assert x < label.x < x + PLACE.side
    assert y < label.y < y + PLACE.side


@pytest.mark.parametrize("style", STYLES)
def test_two_cages_side_by_side_keep_a_clear_gap(style):
    for side in (6.0, 10.0, 20.0):
        place = lattice(side=side)
        one = dashes_of(Cage("cage", cells("r1c1 r2c1")), style, place)
        other = dashes_of(Cage("cage", cells("r1c2 r2c2")), style, place)
        gap = min(x for x, _ in points(other.path)) - max(x for x, _ in points(one.path))
        assert gap - one.width > 1.5 * one.width


def test_a_cage_without_a_label_is_whole():
    assert [type(item) for _, item in draw(Cage("cage", cells("r1c1")), look(), PLACE)] == [Stroke]
