"""Boards of several grids, and boards with holes: how they are read, and what they mean."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.support import maker
from tests.support.models import puzzle_answers
from verify.manifest.read import puzzle_from_text
from verify.move import TURNS, Move
from verify.proof.verdict import prove
from verify.reading.problems import Unreadable

CROSS = "kind: sudoku\nsize: 4\ngrids: [r1c1, r1c7, r4c4, r7c1, r7c7]\n"
"""Five grids in a cross, at a smaller size: 4x4 grids that share a corner cell each."""

FIVE = "kind: sudoku\nsize: 9\ngrids: [r1c1, r1c13, r7c7, r13c1, r13c13]\n"

RING = "kind: latin\nsize: 5\nholes: r2c2..r4c4\n"


def problems_of(text):
    with pytest.raises(Unreadable) as refused:
        puzzle_from_text(text, "g.yaml")
    return [str(problem) for problem in refused.value.problems]


def test_the_five_grid_cross_has_as_many_cells_and_houses_as_it_must():
    # Five grids of 81 cells share four boxes of 9: 369 cells; 5 x 27 houses less 4 shared boxes.
    # Combinatorics, by hand.
    puzzle = puzzle_from_text(FIVE)
    assert (puzzle.board.rows, puzzle.board.columns) == (21, 21)
    assert len(puzzle.board.cells) == 369
    assert len(puzzle.houses()) == 131
    assert not puzzle.board.holds(0, 9)
    assert puzzle.board.holds(8, 9)


@pytest.mark.parametrize("text", [CROSS, RING, FIVE])
def test_verdicts_agree_with_the_model(text):
    made = maker.make(puzzle_from_text(text), 4)
    verdict = prove(made)
    assert verdict.word == "one"
    assert puzzle_answers(made) == [verdict.answers[0]]
    given_cell = next(cell for cell, digit in enumerate(made.givens) if digit)
    fewer = list(made.givens)
    fewer[given_cell] = 0
    many = prove(maker.with_givens(made, fewer))
    assert many.word == "many"
    assert given_cell in many.differs
    assert not set(many.differs) & made.board.absent


def test_what_is_written_is_what_is_read():
    made = maker.make(puzzle_from_text(RING), 2)
    again = puzzle_from_text(RING + maker.givens_text(made))
    assert again.givens == made.givens
    assert again.rows_of(again.givens)[1][1:4] == "___"


@given(st.sampled_from([CROSS, RING]), st.sampled_from(TURNS), st.data())
def test_a_turned_board_keeps_its_outline(text, turn, data):
    puzzle = puzzle_from_text(text)
    board, size = puzzle.board, puzzle.board.rows
    straight = tuple(range(size))
    move = Move(board, straight, straight, turn, tuple(range(board.digits + 1)))
    cell = data.draw(st.sampled_from(board.cells))
    assert move.cell(cell) in move.after.cells
    houses = {frozenset(move.all(house)) for house in puzzle.houses()}
    lines = [*move.after.row_lines(), *move.after.column_lines(), *move.after.box_blocks()]
    assert houses == {frozenset(line) for line in lines if len(line) == board.digits}


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("kind: sudoku\nsize: 4\ngrids: [r1c1]\n", "g.yaml:3:8: found 1 grids"),
        ("kind: sudoku\nsize: 4\ngrids: [r1c1, r1c1]\n", 'g.yaml:3:15: found "r1c1" again'),
        ("kind: sudoku\nsize: 4\ngrids: [r2c1, r3c3]\n", "g.yaml:3:8: found no grid at the upper"),
        ("kind: sudoku\nsize: 4\ngrids: [r1c1, r90c3]\n", 'g.yaml:3:15: found "r90c3"'),
        ("kind: latin\nsize: 2\nholes: r1c1..r2c2\n", "g.yaml:3:8: found holes everywhere"),
        ("kind: latin\nsize: 2\nholes: r1c4\n", "g.yaml:3:8: found r1c4"),
        ("kind: latin\nsize: 2\nholes: r1c1\ngivens: |\n  . 1\n  1 .\n", 'g.yaml:5:3: found "."'),
        ("kind: latin\nsize: 2\nholes: r1c1\ngivens: |\n  _ 1\n  _ .\n", 'g.yaml:6:3: found "_"'),
        ("kind: latin\nsize: 3\nholes: r1c1\nrules: {even: r1c1}\n", "g.yaml:4:15: found r1c1"),
    ],
)
def test_what_cannot_be_is_told_in_its_place(text, place):
    assert any(problem.startswith(place) for problem in problems_of(text))
