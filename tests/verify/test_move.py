"""Moves: turns make the symmetries of a square, and houses stay houses."""

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.support.boards import plain
from verify.board import Board, Outside
from verify.move import TURNS, Disguise, Move

NINE = Board(9, 9, 9, (3, 3))
WIDE = Board(2, 3, 6, (2, 3))


def turned(board, turn):
    return Move(
        board, tuple(range(board.rows)), tuple(range(board.columns)), turn, tuple(range(10))
    )


def shape(move):
    return tuple(map(move.cell, move.before.cells))


def test_eight_turns_are_the_eight_symmetries_of_the_square():
    # The dihedral group of the square has eight elements, closed under composition.
    turns = {shape(turned(NINE, turn)): turn for turn in TURNS}
    assert len(turns) == 8
    for one, other in product(turns, repeat=2):
        assert tuple(other[cell] for cell in one) in turns


@pytest.mark.parametrize("turn", TURNS)
def test_houses_stay_houses(turn):
    for puzzle in (plain(9, (3, 3)), plain(6, (2, 3))):
        move = turned(puzzle.board, turn)
        after = move.after
        moved = {frozenset(move.all(house)) for house in puzzle.houses()}
        lines = [*after.row_lines(), *after.column_lines(), *after.box_blocks()]
        assert moved == set(map(frozenset, lines))


@pytest.mark.parametrize("turn", TURNS)
def test_what_is_seen_from_outside_moves_with_the_place(turn):
    for board in (NINE, WIDE):
        move = turned(board, turn)
        places = [Outside(-1, column, "s") for column in range(board.columns)]
        places += [Outside(-1, column, "se") for column in range(board.columns - 1)]
        places += [Outside(row, board.columns, "w") for row in range(board.rows)]
        for place in places:
            assert move.after.sight(move.outside(place)) == move.all(board.sight(place))


@given(st.permutations(range(9)), st.permutations(range(1, 10)), st.sampled_from(TURNS))
def test_a_grid_moves_as_its_cells_do(rows, digits, turn):
    move = Move(NINE, tuple(rows), tuple(range(9)), turn, (0, *digits))
    grid = tuple(cell % 9 + 1 for cell in NINE.cells)
    moved = move.grid(grid)
    assert all(moved[move.cell(cell)] == move.digits[grid[cell]] for cell in NINE.cells)
    assert move.mask(0b1111111110) == 0b1111111110


def test_kinds_of_disguise_say_what_they_are():
    assert len({kind.value for kind in Disguise}) == len(Disguise) == 4
