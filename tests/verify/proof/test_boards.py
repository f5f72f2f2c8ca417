"""Verdicts on boards of every kind, beside CP-SAT on random puzzles of each."""

import random
from functools import lru_cache

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.support import maker
from tests.support.boards import plain
from tests.support.effort import effort
from tests.support.models import puzzle_answers
from verify.board import DEFAULT_BOXES
from verify.manifest.read import puzzle_from_text
from verify.proof.verdict import prove
from verify.rules import BY_NAME

BOARDS = {
    "latin": "kind: latin\nsize: 5\n",
    "blank": "kind: blank\nsize: 4\nrules:\n  thermometer: [r1c1 e e, r2c1 s]\n  rows: true\n",
    "blank with houses of its own": "kind: blank\nsize: 5\nrules:\n  extra-region:\n"
    "    - [r1c1, r1c2, r2c1, r2c2, r3c1]\n    - [r3c3..r3c5, r4c5, r5c5]\n",
    "boxes that lie down": "kind: sudoku\nsize: 6\nboxes: 2x3\n",
    "boxes that stand": "kind: sudoku\nsize: 6\nboxes: 3x2\n",
    "two grids": "kind: sudoku\nsize: 4\ngrids: [r1c1, r3c3]\n",
    "two grids of latin squares": "kind: latin\nsize: 4\ngrids: [r1c1, r2c4]\n",
    "three grids and a thermometer": "kind: sudoku\nsize: 4\ngrids: [r1c1, r1c7, r3c4]\n"
    "rules:\n  thermometer: [r1c1 s s, r3c5 s]\n",
    "holes": "kind: latin\nsize: 5\nholes: [r1c1, r2c4, r5c2]\n",
    "holes and a cage": "kind: latin\nsize: 5\nholes: [r2c2..r3c3, r5c4]\n"
    "rules:\n  cage: [{cells: r1c1 e, sum: 7}]\n",
    "letters": "kind: sudoku\nsize: 4\nsymbols: TIDE\nrules:\n  diagonals: rising\n",
    "symbols": "kind: latin\nsize: 4\nsymbols: [H2, O, Na, Cl]\n"
    "rules:\n  thermometer: [r1c1 e se]\n",
}


@lru_cache
def sketched(name):
    return puzzle_from_text(BOARDS[name], "board.yaml")


def agree(puzzle):
    """Whether the verdict on a puzzle is that of CP-SAT."""
    verdict, found = prove(puzzle), puzzle_answers(puzzle)
    assert verdict.word == ("none", "one", "many")[len(found)]
    if len(found) == 1:
        assert list(verdict.answers) == found
    return verdict.word


def loosened(puzzle, answer, dice):
    """The puzzle with some of an answer given, and perhaps one digit of it changed."""
    givens = [digit if dice.random() < 0.5 else 0 for digit in answer]
    given_cells = [cell for cell, digit in enumerate(givens) if digit]
    if given_cells and dice.random() < 0.3:
        cell = dice.choice(given_cells)
        givens[cell] = givens[cell] % puzzle.board.digits + 1
    return maker.with_givens(puzzle, givens)


@pytest.mark.parametrize("name", BOARDS)
@effort(0.16)
@given(seed=st.integers(0, 10**6))
def test_verdicts_on_every_kind_of_board(name, seed):
    dice = random.Random(seed)
    puzzle = sketched(name)
    made = maker.make(puzzle, seed)
    assert agree(made) == "one"
    agree(loosened(puzzle, prove(made).answers[0], dice))


@pytest.mark.parametrize("seed", range(3))
def test_verdicts_on_regions_of_any_shape(seed):
    puzzle = puzzle_from_text(BY_NAME["regions"].example, "regions.yaml")
    made = maker.make(puzzle, seed)
    assert agree(made) == "one"
    agree(loosened(puzzle, prove(made).answers[0], random.Random(seed)))


def shuffled(size, dice):
    """A full grid of any size: a pattern of boxes, its bands, stacks and digits shuffled."""
    high, wide = DEFAULT_BOXES.get(size, (1, size))
    digits = dice.sample(range(1, size + 1), size)

    def lines(together):
        bands = dice.sample(range(size // together), size // together)
        return [together * b + i for b in bands for i in dice.sample(range(together), together)]

    rows, columns = lines(high), lines(wide)
    return [
        digits[(wide * (row % high) + row // high + column) % size]
        for row in rows
        for column in columns
    ]


@pytest.mark.parametrize("size", range(4, 26))
def test_verdicts_on_boards_of_every_size(size):
    dice = random.Random(size)
    answer = shuffled(size, dice)
    board = plain(size, DEFAULT_BOXES.get(size))
    assert all(each.holds(answer) for each in board.constraints())
    words = set()
    for share in (0.15, 0.5):
        givens = [0 if dice.random() < share else digit for digit in answer]
        words.add(agree(maker.with_givens(board, givens)))
    line = [*answer[:size]]
    line[0] = line[1]
    words.add(agree(maker.with_givens(board, [*line, *answer[size:]])))
    assert "none" in words
    assert words & {"one", "many"}
