"""Layouts from motifs: symmetric, apart, uncrossed, and each another."""

from itertools import combinations, islice, pairwise

import pytest

from verify.board import Board
from verify.compose.motifs.drawing import MOTIFS, layouts
from verify.compose.motifs.strokes import is_tidy
from verify.compose.series.kinds import trail
from verify.reading.node import Place, Text
from verify.reading.problems import Problems
from verify.reading.reader import Reader


def side(a, b, c):
    """On which side of the way from `a` to `b` a spot lies."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def cross(one, other):
    """Whether two steps cross between their ends."""
    (a, b), (c, d) = one, other
    return side(a, b, c) * side(a, b, d) < 0 and side(c, d, a) * side(c, d, b) < 0


@pytest.mark.parametrize("size", [6, 8, 9, 12, 16])
@pytest.mark.parametrize("name", list(MOTIFS))
def test_layouts_are_tidy(name, size):
    drawn = list(islice(layouts(name, size, 3, 7, "sluice"), 30))
    assert len(set(map(frozenset, drawn))) == len(drawn)
    for strokes in drawn:
        spots = [spot for stroke in strokes for spot in stroke]
        assert len(set(spots)) == len(spots)
        assert all(0 <= row < size and 0 <= column < size for row, column in spots)
        assert all(3 <= len(stroke) <= 7 for stroke in strokes)
        half = {tuple((size - 1 - r, size - 1 - c) for r, c in stroke) for stroke in strokes}
        assert half == set(strokes)
        steps = [step for stroke in strokes for step in pairwise(stroke)]
        assert not any(cross(*pair) for pair in combinations(steps, 2))
        straight = {frozenset(step) for step in steps}
        touching = [
            {a, b}
            for a, b in combinations(spots, 2)
            if abs(a[0] - b[0]) + abs(a[1] - b[1]) == 1 and frozenset((a, b)) not in straight
        ]
        assert len(touching) <= len(strokes)
    assert drawn == list(islice(layouts(name, size, 3, 7, "sluice"), 30))


def test_every_motif_has_layouts_of_the_usual_board():
    assert all(any(True for _ in layouts(name, 9, 3, 7, "1")) for name in MOTIFS)


@pytest.mark.parametrize(
    "strokes",
    [
        [((0, 0), (1, 1), (2, 2)), ((0, 1), (1, 0), (2, 0))],
        [((0, 0), (0, 1), (1, 1), (1, 0)), ((4, 4), (4, 3), (4, 2))],
        [((0, 0), (0, 1), (0, 2)), ((1, 0), (1, 1), (1, 2))],
        [((0, 0), (0, 1), (0, 2)), ((0, 2), (1, 2), (2, 2))],
        [((0, 3), (0, 4), (0, 5)), ((3, 0), (3, 1), (3, 2))],
        [((0, 0), (0, 1), (0, 2), (0, 3), (0, 4))],
    ],
    ids=["crossed", "beside itself", "side by side", "shared", "off the board", "alone"],
)
def test_what_is_not_tidy(strokes):
    assert not is_tidy(strokes, 5)
    assert is_tidy([((0, 0), (0, 1), (0, 2)), ((2, 0), (2, 1), (2, 2))], 5)


def test_trails_read_as_their_strokes():
    board, problems = Board(9, 9, 9, (3, 3)), Problems()
    for name in MOTIFS:
        for strokes in islice(layouts(name, 9, 3, 7, "2"), 5):
            for stroke in strokes:
                text = Text(Place("x", 1, 1), trail(stroke), ((Place("x", 1, 1), trail(stroke)),))
                path = Reader(board, problems).path(text)
                assert path == tuple(board.cell(*spot) for spot in stroke)
    assert problems.found == []
