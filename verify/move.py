"""Disguises: what leaves a puzzle the same puzzle to its solver, and another one to the eye."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum
from typing import Final

from verify.board import COMPASS, Board, Cell, Outside
from verify.pencil import Mask, bit, digits_of


class Disguise(Enum):
    """The kinds of disguise; each rule says which of them it survives."""

    TURN = "turned or reflected"
    SHUFFLE = "bands and stacks shuffled, and the rows and columns within them"
    RELABEL = "every digit exchanged for another"
    REVERSE = "each digit d exchanged for the largest digit + 1 - d"


EVERY_DISGUISE: Final = frozenset(Disguise)

TURNS: Final = range(8)
"""Ways of laying a square on itself: 1 turns it upside down, 2 left to right, 4 about its
falling diagonal first; sums do all that they are made of."""


@dataclass(frozen=True, slots=True)
class Move:
    """Where each cell and each digit goes.

    `rows[r]` and `columns[c]` say where a row and a column go; after that the board is turned
    by `turn`, one of `TURNS`. `digits[d]` is what digit d becomes; `digits[0]` is 0.
    """

    before: Board
    rows: tuple[int, ...]
    columns: tuple[int, ...]
    turn: int
    digits: tuple[int, ...]

    @property
    def after(self) -> Board:
        """The board as it lies afterwards."""
        board = self.before
        across = bool(self.turn & 4)
        return Board(
            board.columns if across else board.rows,
            board.rows if across else board.columns,
            board.digits,
            board.boxes[::-1] if across and board.boxes else board.boxes,
            tuple(map(self._corner, board.grids)),
            frozenset(map(self.cell, board.absent)),
        )

    @property
    def reverses(self) -> bool:
        """Whether the order of the digits is turned about."""
        return self.digits[1] > self.digits[-1]

    def cell(self, cell: Cell) -> Cell:
        """Where a cell goes."""
        row, column = self.before.place(cell)
        down, right = self._turned(self.rows[row], self.columns[column])
        return down * (self.before.rows if self.turn & 4 else self.before.columns) + right

    def all(self, cells: Iterable[Cell]) -> tuple[Cell, ...]:
        """Where cells go, in the same order."""
        return tuple(map(self.cell, cells))

    def mask(self, digits: Mask) -> Mask:
        """What a set of digits becomes."""
        return sum(bit(self.digits[digit]) for digit in digits_of(digits))

    def outside(self, outside: Outside) -> Outside:
        """Where a place outside goes; only a turn leaves it a sense."""
        down, right = COMPASS[outside.direction]
        row, column = self._turned(outside.row, outside.column)
        ahead_row, ahead_column = self._turned(outside.row + down, outside.column + right)
        ahead = (ahead_row - row, ahead_column - column)
        (direction,) = (name for name, step in COMPASS.items() if step == ahead)
        return Outside(row, column, direction)

    def grid(self, grid: Iterable[int]) -> tuple[int, ...]:
        """A grid of digits as it lies afterwards; 0 stays 0."""
        moved = {self.cell(cell): self.digits[digit] for cell, digit in enumerate(grid)}
        return tuple(moved[place] for place in range(len(moved)))

    def _corner(self, corner: tuple[int, int]) -> tuple[int, int]:
        """Where the upper left cell of a grid lies after a turn."""
        (top, left), last = corner, self.before.digits - 1
        (r1, c1), (r2, c2) = self._turned(top, left), self._turned(top + last, left + last)
        return min(r1, r2), min(c1, c2)

    def _turned(self, row: int, column: int) -> tuple[int, int]:
        """A row and column by the turn alone."""
        rows, columns = self.before.rows, self.before.columns
        if self.turn & 4:
            row, column, rows, columns = column, row, columns, rows
        return (
            rows - 1 - row if self.turn & 1 else row,
            columns - 1 - column if self.turn & 2 else column,
        )
