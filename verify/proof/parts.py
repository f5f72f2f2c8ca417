"""The parts of a manifest that could be left out: givens, and marks of its rules."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, TypeAlias

from verify.board import Board, Cell
from verify.puzzle import Puzzle
from verify.rule import Constraint, Use
from verify.rules import GROUND


@dataclass(frozen=True, slots=True)
class GivenPart:
    """A given: a cell and its digit."""

    cell: Cell
    digit: int

    @property
    def cells(self) -> tuple[Cell, ...]:
        """The one cell."""
        return (self.cell,)


@dataclass(frozen=True, slots=True)
class MarkPart:
    """One mark of a rule, or all that a rule says of places where nothing is drawn.

    `drawn` is the constraint that the mark stands for, None where there is no mark.
    """

    rule: str
    constraints: tuple[Constraint, ...]
    drawn: Constraint | None = None

    @property
    def cells(self) -> tuple[Cell, ...]:
        """The cells that it speaks of, each once."""
        every = (cell for constraint in self.constraints for cell in constraint.cells)
        return tuple(dict.fromkeys(every))


Part: TypeAlias = GivenPart | MarkPart


def parts_of(puzzle: Puzzle) -> tuple[Part, ...]:
    """Every given in reading order, then every mark in the order of the manifest.

    The rules that make the grid itself are no parts: they always hold.
    """
    givens = (GivenPart(cell, digit) for cell, digit in enumerate(puzzle.givens) if digit)
    marks = (part for use in puzzle.uses for part in marks_of(use, puzzle.board))
    return (*givens, *marks)


def ground_of(puzzle: Puzzle) -> tuple[Constraint, ...]:
    """What makes the grid: rows, columns, boxes or regions."""
    return tuple(each for use in puzzle.uses if _is_ground(use) for each in use.constraints)


def _is_ground(use: Use[Any]) -> bool:
    return use.rule.name in GROUND


def marks_of(use: Use[Any], board: Board) -> Iterator[MarkPart]:
    """A part for each constraint that is drawn, and one for all the others; none of the grid's."""
    if _is_ground(use):
        return
    silent: list[Constraint] = []
    for constraint in dict.fromkeys(use.constraints):
        if use.rule.draw(board, [constraint]):
            yield MarkPart(use.rule.name, (constraint,), constraint)
        else:
            silent.append(constraint)
    if silent:
        yield MarkPart(use.rule.name, tuple(silent))
