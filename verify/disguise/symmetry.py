"""How a pattern lies on its board: the turns and reflections that lay it on itself."""

from collections.abc import Callable, Iterable
from enum import Enum
from typing import Any, Final

from verify.board import Board
from verify.move import Move
from verify.puzzle import Puzzle
from verify.rules import GROUND


class Symmetry(Enum):
    """A turn, or a reflection; the value is its name."""

    HALF_TURN = "half turn"
    QUARTER_TURN = "quarter turn"
    LEFT_RIGHT = "left to right"
    TOP_BOTTOM = "top to bottom"
    FALLING = "falling diagonal"
    RISING = "rising diagonal"


TURN_OF: Final = {
    Symmetry.HALF_TURN: 3,
    Symmetry.QUARTER_TURN: 5,
    Symmetry.LEFT_RIGHT: 2,
    Symmetry.TOP_BOTTOM: 1,
    Symmetry.FALLING: 4,
    Symmetry.RISING: 7,
}
"""Each as one of `verify.move.TURNS`. A quarter turn to one side holds where the other does."""


def symmetries_of_givens(puzzle: Puzzle) -> tuple[Symmetry, ...] | None:
    """What lays the cells with a given on themselves; None where there is none."""
    cells = {cell for cell, digit in enumerate(puzzle.givens) if digit}
    return _kept(puzzle.board, lambda move: set(move.all(cells)) == cells) if cells else None


def symmetries_of_marks(puzzle: Puzzle) -> tuple[Symmetry, ...] | None:
    """What lays each mark that is drawn on a mark of the same rule; None where there is none.

    Only where marks stand counts: not their numbers, and not which of their cells is the first.
    The lines of the grid itself are no marks.
    """
    marks = [
        (use.rule.name, constraint)
        for use in puzzle.uses
        if use.rule.name not in GROUND
        for constraint in use.constraints
        if use.rule.draw(puzzle.board, [constraint])
    ]
    if not marks:
        return None
    stay = _layout(marks, _turn(puzzle.board, 0))
    return _kept(puzzle.board, lambda move: _layout(marks, move) == stay)


def _layout(marks: Iterable[tuple[str, Any]], move: Move) -> list[Any]:
    """Where marks stand after a move: their cells and, for a clue outside, its own place."""
    places = []
    where = move.all(move.before.places)
    for rule, constraint in marks:
        outside = getattr(constraint, "outside", None)
        beside = move.outside(outside) if outside else None
        at = (beside.row, beside.column, beside.direction) if beside else ()
        places.append((rule, sorted([where[cell] for cell in constraint.cells]), at))
    return sorted(places)


def _kept(board: Board, lies_the_same: Callable[[Move], bool]) -> tuple[Symmetry, ...]:
    """The symmetries of a board under which a pattern lies the same."""
    moves = ((symmetry, _turn(board, turn)) for symmetry, turn in TURN_OF.items())
    return tuple(
        symmetry
        for symmetry, move in moves
        if (board.rows == board.columns or not move.turn & 4)
        and set(move.all(board.absent)) == board.absent
        and lies_the_same(move)
    )


def _turn(board: Board, turn: int) -> Move:
    """A turn and nothing else."""
    every = tuple(range(board.digits + 1))
    return Move(board, tuple(range(board.rows)), tuple(range(board.columns)), turn, every)
