"""Puzzles settled many at a time: no verdict of theirs is another than that of the proof."""

from collections.abc import Sequence
from random import Random

import numpy
import pytest

from tests.support.boards import NEEDS_A_SEARCH, classic, plain
from tests.support.published import CASES, needs_cases
from verify.board import DEFAULT_BOXES
from verify.proof import side_by_side
from verify.proof.full_grids import keep_all
from verify.proof.side_by_side import Shape, sole_answers
from verify.proof.verdict import prove
from verify.puzzle import Puzzle

SIZES = (4, 6, 9, 16)

HAS_SEVERAL = NEEDS_A_SEARCH.replace("7026", "7020")


def settled(puzzles: Sequence[Puzzle]) -> list[tuple[int, ...] | None]:
    """The answer of each puzzle that is settled."""
    size = puzzles[0].board.digits
    givens = numpy.array([puzzle.givens for puzzle in puzzles], numpy.uint8)
    answers, known = sole_answers(givens, Shape(size, *DEFAULT_BOXES[size]))
    pairs = zip(answers.tolist(), known, strict=True)
    return [tuple(answer) if is_known else None for answer, is_known in pairs]


def with_givens(size: int, givens: Sequence[int] = ()) -> Puzzle:
    return plain(size, DEFAULT_BOXES[size], givens)


def any_answer(size: int, random: Random) -> Sequence[int]:
    """A full grid: one in its plainest order, with digits and rows of a band exchanged."""
    high, wide = DEFAULT_BOXES[size]
    digits = random.sample(range(1, size + 1), size)
    order = [band * high + row for band in range(wide) for row in random.sample(range(high), high)]
    return [
        digits[((row % high) * wide + row // high + column) % size]
        for row in order
        for column in range(size)
    ]


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("seed", range(4))
def test_what_is_settled_is_what_the_proof_says(size: int, seed: int) -> None:
    random = Random(seed)
    puzzles = []
    for share in (0.1, 0.9, *random.choices([0.3, 0.45, 0.6], k=60 if size < 16 else 8)):
        givens = list(any_answer(size, random))
        for cell in range(len(givens)):
            if random.random() < share:
                givens[cell] = 0
            elif share > 0.1 and random.random() < 0.1 / size**2:
                givens[cell] = random.randint(1, size)
        puzzles.append(with_givens(size, givens))
    words = [prove(puzzle) for puzzle in puzzles]
    expected = [word.answers[0] if word.word == "one" else None for word in words]
    assert settled(puzzles) == expected
    assert any(expected)
    assert None in expected


def test_a_puzzle_that_pencil_marks_leave_open_is_split() -> None:
    puzzles = [classic(NEEDS_A_SEARCH), classic(HAS_SEVERAL)]
    assert settled(puzzles) == [prove(puzzles[0]).answers[0], None]


def test_more_puzzles_than_are_looked_at_together(monkeypatch: pytest.MonkeyPatch) -> None:
    puzzles = [classic(NEEDS_A_SEARCH), classic(HAS_SEVERAL), classic("." * 81)] * 9
    expected = settled(puzzles)
    monkeypatch.setattr(side_by_side, "ABREAST", 5)
    assert settled(puzzles) == expected
    assert expected[:3] == [prove(puzzles[0]).answers[0], None, None]


def test_what_splits_too_often_is_left_to_the_solver(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(side_by_side, "MOST_SPLITS", 1)
    assert settled([classic(NEEDS_A_SEARCH)]) == [None]


@pytest.mark.parametrize("size", SIZES)
def test_empty_boards_and_two_digits_in_a_house_are_not_settled(size: int) -> None:
    twice = [1, 1, *[0] * (size * size - 2)]
    assert settled([with_givens(size), with_givens(size, twice)]) == [None, None]


@pytest.mark.parametrize("size", SIZES)
def test_the_check_of_full_grids_is_that_of_the_rules(size: int) -> None:
    random = Random(size)
    puzzle = with_givens(size)
    grids = [list(any_answer(size, random)) for _ in range(40)]
    for grid in grids[10:]:
        cell, other = random.sample(range(size * size), 2)
        grid[cell], grid[other] = grid[other], grid[cell]
    array = numpy.array(grids, numpy.uint8)
    found = keep_all(array, numpy.zeros_like(array), puzzle.houses())
    assert found.tolist() == [
        all(constraint.holds(grid) for constraint in puzzle.constraints()) for grid in grids
    ]
    assert set(found.tolist()) == {True, False}


def test_the_check_of_full_grids_asks_for_the_givens() -> None:
    grid = numpy.array([any_answer(9, Random(1))], numpy.uint8)
    givens = grid.copy()
    givens[0, 1:] = 0
    houses = with_givens(9).houses()
    assert keep_all(grid, givens, houses).tolist() == [True]
    givens[0, 0] = givens[0, 0] % 9 + 1
    assert keep_all(grid, givens, houses).tolist() == [False]


@needs_cases
def test_published_classics() -> None:
    assert CASES is not None
    lines = [line.split()[0] for line in (CASES / "classic17.txt").read_text().splitlines()][:1500]
    puzzles = [classic(line) for line in lines]
    found = settled(puzzles)
    known = [pair for pair in zip(puzzles, found, strict=True) if pair[1] is not None]
    assert len(known) > 1400
    assert all(prove(puzzle).answers == (answer,) for puzzle, answer in known[::10])
