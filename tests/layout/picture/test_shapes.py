"""Plain shapes: circles, capsules, and paths moved."""

from itertools import pairwise
from math import hypot

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layout.picture.items import Contour
from layout.picture.shapes import capsule, disc, left_of, moved, polyline, rectangle, unit


def flattened(contour, steps=24):
    """Points along a contour, curves included."""
    at = contour.start
    for segment in (*contour.segments, contour.start):
        if len(segment) == 2:
            yield from (
                (at[0] + (segment[0] - at[0]) * t / steps, at[1] + (segment[1] - at[1]) * t / steps)
                for t in range(steps)
            )
        else:
            for step in range(steps):
                yield bezier(at, segment, step / steps)
        at = segment[-2:]


def bezier(start, segment, t):
    ax, ay, bx, by, x, y = segment
    weights = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
    return tuple(
        sum(weight * value for weight, value in zip(weights, values, strict=True))
        for values in ((start[0], ax, bx, x), (start[1], ay, by, y))
    )


def distance(point, line):
    if len(line) == 1:
        return hypot(point[0] - line[0][0], point[1] - line[0][1])
    return min(step_distance(point, a, b) for a, b in pairwise(line))


def step_distance(point, start, end):
    x, y = end[0] - start[0], end[1] - start[1]
    share = ((point[0] - start[0]) * x + (point[1] - start[1]) * y) / (x * x + y * y)
    share = min(1, max(0, share))
    return hypot(point[0] - start[0] - share * x, point[1] - start[1] - share * y)


def test_a_disc_is_round_to_three_hundredths_of_a_percent():
    for point in flattened(disc((3, 4), 2)):
        assert hypot(point[0] - 3, point[1] - 4) == pytest.approx(2, rel=0.0003)


STEPS = [(1, 0), (1, 1), (0, 1), (-1, 1), (-1, 0), (-1, -1), (0, -1), (1, -1)]


@given(st.integers(0, 7), st.lists(st.integers(-3, 3), max_size=1), st.floats(0.2, 0.4))
def test_a_capsule_keeps_its_radius_all_round(first, turns, radius):
    direction = first
    line = [(0.0, 0.0), STEPS[first]]
    for turn in turns:
        direction = (direction + turn) % 8
        step = STEPS[direction]
        line.append((line[-1][0] + step[0], line[-1][1] + step[1]))
    outline = capsule(line, radius)
    assert outline.closed
    # Inside a bend the corner is sharp, and lies on both flanks: no nearer than the radius.
    distances = [distance(point, line) for point in flattened(outline)]
    assert min(distances) == pytest.approx(radius, rel=0.001)
    assert max(distances) <= radius * 2.7


def test_a_straight_capsule_is_two_half_circles_and_two_lines():
    outline = capsule([(0, 0), (5, 0)], 1)
    xs, ys = zip(*flattened(outline), strict=True)
    assert (min(xs), max(xs)) == pytest.approx((-1, 6), abs=0.001)
    assert (min(ys), max(ys)) == pytest.approx((-1, 1), abs=0.001)
    for point in flattened(outline):
        assert distance(point, [(0, 0), (5, 0)]) == pytest.approx(1, rel=0.001)


def test_left_is_up_for_one_who_walks_right():
    assert left_of((1, 0)) == (0, -1)
    assert unit((1, 1), (1, 5)) == (0, 1)


def test_moved_scales_and_then_moves():
    path = (rectangle(0, 0, 2, 1), Contour((0, 0), ((1, 0, 2, 1, 2, 2),)))
    assert moved(path, 10, 20, 3) == (
        polyline([(10, 20), (16, 20), (16, 23), (10, 23)], closed=True),
        Contour((10, 20), ((13, 20, 16, 23, 16, 26),)),
    )
