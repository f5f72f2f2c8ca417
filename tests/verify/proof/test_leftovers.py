"""Laws of leftovers hold in every grid that has every digit in every house."""

import random

from hypothesis import given
from hypothesis import strategies as st

from tests.support.boards import plain
from verify.board import DEFAULT_BOXES
from verify.manifest.read import puzzle_from_text
from verify.proof.leftovers import MOST_LEFT, laws_of_leftovers
from verify.proof.verdict import prove
from verify.rules.houses import regions


def test_one_cell_on_either_side_is_the_same_digit() -> None:
    rows = [(0, 1, 2), (3, 4, 5), (6, 7, 8)]
    bent = [(0, 1, 5), (2, 3, 4), (6, 7, 8)]
    assert laws_of_leftovers([*rows, *bent]) == (((2,), (5,)),)


def test_houses_that_have_little_or_nothing_in_common_leave_none() -> None:
    chain = [tuple(range(start, start + 9)) for start in (0, 8, 16)]
    assert laws_of_leftovers(chain) == laws_of_leftovers(chain[:1]) == laws_of_leftovers([]) == ()


@given(seed=st.integers(0, 10**6), swaps=st.integers(0, 12), size=st.integers(4, 9))
def test_both_sides_hold_the_same_digits_as_often(seed: int, swaps: int, size: int) -> None:
    dice = random.Random(seed)
    grid = [(row + column) % size for row in range(size) for column in range(size)]
    rows = [list(range(row * size, (row + 1) * size)) for row in range(size)]
    bent = [list(row) for row in rows]
    for _ in range(swaps):  # a digit's cell goes to another house, and that house's to this one
        one, other = dice.sample(bent, 2)
        digit = dice.randrange(size)
        here, there = (next(c for c in house if grid[c] == digit) for house in (one, other))
        one[one.index(here)], other[other.index(there)] = there, here
    laws = laws_of_leftovers([*rows, *bent])
    for one_side, other_side in laws:
        assert sorted(grid[cell] for cell in one_side) == sorted(grid[cell] for cell in other_side)
        assert 0 < len(one_side) <= MOST_LEFT
        assert not {*one_side} & {*other_side}
    assert bool(laws) or swaps != 1


def test_irregular_boards_have_some_and_plain_boxes_none() -> None:
    puzzle = puzzle_from_text(regions.RULE.example)
    (answer,) = prove(puzzle).answers
    laws = laws_of_leftovers(puzzle.houses())
    assert laws
    for one, other in laws:
        assert sorted(answer[cell] for cell in one) == sorted(answer[cell] for cell in other)
    assert laws_of_leftovers(plain(9, DEFAULT_BOXES[9]).houses()) == ()
