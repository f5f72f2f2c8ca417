"""Cells of one parity: the workings that `even` and `odd` share."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from typing import Literal

from verify.board import Cell
from verify.formula.formula import Formula
from verify.move import Disguise, Move
from verify.pencil import Grid, Mask, Pencil, Strike, digits_of, every_digit
from verify.reading.grammar import GROUP, Cells, Placed
from verify.reading.reader import Reader
from verify.rule import Rule
from verify.rules.workings.parts import one_sentence, tinted


@dataclass(frozen=True, slots=True)
class Parity:
    """The digit of one cell leaves this remainder when divided by 2: 0 for even, 1 for odd."""

    cells: tuple[Cell, ...]
    remainder: int

    def clauses(self, formula: Formula) -> None:
        """None of the digits of the other parity."""
        (cell,) = self.cells
        for digit in digits_of(self._struck(formula.pencil)):
            formula.not_all(formula.literal(cell, digit))

    def holds(self, grid: Grid) -> bool:
        """The digit has the parity."""
        return all(grid[cell] % 2 == self.remainder for cell in self.cells)

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Every digit of the other parity."""
        struck = self._struck(pencil)
        if struck:
            yield Strike(((self.cells[0], struck),), self.cells)

    def moved(self, move: Move) -> "Parity":
        """The cell moved."""
        return Parity(move.all(self.cells), self.remainder)

    def _struck(self, pencil: Pencil) -> Mask:
        mask = pencil[self.cells[0]]
        return mask & ~of_parity(mask.bit_length(), self.remainder)


def of_parity(digits: int, remainder: int) -> Mask:
    """The digits from 1 to `digits` with that remainder when divided by 2."""
    return sum(1 << digit for digit in digits_of(every_digit(digits)) if digit % 2 == remainder)


def parity_rule(
    *, name: str, meaning: str, remainder: int, shape: Literal["disc", "square"], example: str
) -> Rule[Cells, Parity]:
    """A rule whose marked cells hold digits of one parity, with a shape behind each."""
    return Rule(
        name=name,
        meaning=meaning,
        marks="a group of cells",
        grammar=GROUP,
        make=partial(_each_cell, remainder),
        draw=partial(tinted, name, shape),
        says=partial(one_sentence, name),
        survives=frozenset({Disguise.TURN, Disguise.SHUFFLE}),
        example=example,
    )


def _each_cell(remainder: int, cells: Placed[Cells], reader: Reader) -> tuple[Parity, ...]:
    """A constraint for each cell."""
    return tuple(Parity((cell,), remainder) for cell in cells.value)
