"""A puzzle as the rest of the house sees it: whole, checked, immutable."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any, TypeAlias

from verify.board import Board, Cell
from verify.marks import Mark
from verify.pencil import Grid
from verify.reading.grid import NO_CELL
from verify.reading.node import Place
from verify.rule import Constraint, Use
from verify.rules.workings.distinct import Distinct

Rows: TypeAlias = list[str] | list[list[str]]
"""A grid by its rows: symbols joined where each is one character, else lists of them."""


@dataclass(frozen=True, slots=True)
class Credits:
    """Words about a puzzle that are not its rules; empty where the manifest is silent."""

    title: str = ""
    constructor: str = ""
    theme: str = ""
    date: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Puzzle:
    """Board, rules and givens.

    `givens` has a digit for every cell, 0 where it is open; `answer` is the constructor's
    own, or None; `symbols[d - 1]` is what is printed for digit d; `words` replaces the rule
    text where it is not empty; `file` is the manifest's name as the editor gave it, or that of a
    bank, of which `line` is the puzzle's line (0 in a manifest); `places` are those of the
    manifest's fields.
    """

    id: str
    file: str
    credits: Credits
    board: Board
    symbols: tuple[str, ...]
    uses: tuple[Use[Any], ...]
    givens: tuple[int, ...]
    answer: tuple[int, ...] | None = None
    words: str = ""
    line: int = field(default=0, compare=False)
    places: tuple[tuple[str, Place], ...] = field(default=(), compare=False)

    @property
    def title(self) -> str:
        """The title, or the id where there is none."""
        return self.credits.title or self.id

    @property
    def source(self) -> str:
        """The file, or the puzzle's place in it where the file is a bank."""
        return str(self.place_of("")) if self.line else self.file

    def place_of(self, name: str) -> Place:
        """Where a field stands, or where the puzzle begins if the field was left out."""
        return dict(self.places).get(name) or Place(self.file, self.line or 1, 1)

    def constraints(self) -> Iterator[Constraint]:
        """Every mark of every rule, in the order of the manifest."""
        for use in self.uses:
            yield from use.constraints

    def houses(self) -> tuple[tuple[Cell, ...], ...]:
        """The cells of each house, once: where every digit stands exactly once."""
        full = self.board.digits
        houses = (
            constraint.cells
            for constraint in self.constraints()
            if isinstance(constraint, Distinct) and len(constraint.cells) == full
        )
        return tuple(dict.fromkeys(houses))

    def marks(self) -> tuple[Mark, ...]:
        """Everything that the rules ask to have drawn."""
        return tuple(mark for use in self.uses for mark in use.marks(self.board))

    def symbol(self, digit: int) -> str:
        """What is printed for a digit; nothing for 0."""
        return self.symbols[digit - 1] if digit else ""

    def rows_of(self, grid: Grid) -> Rows:
        """A grid's rows as symbols: strings where each symbol is one character, else lists.

        `.` stands for an open cell and `_` where the board has none.
        """
        width = self.board.columns
        rows = [
            [self._token(cell, grid[cell]) for cell in range(start, start + width)]
            for start in range(0, len(grid), width)
        ]
        if all(len(symbol) == 1 for symbol in self.symbols):
            return ["".join(row) for row in rows]
        return rows

    def token_of(self, cell: Cell) -> str:
        """What a manifest's givens show in a cell."""
        return self._token(cell, self.givens[cell])

    def _token(self, cell: Cell, digit: int) -> str:
        return NO_CELL if cell in self.board.absent else self.symbol(digit) or "."
