"""The board: cells, their names, their neighbours, and how they lie in boxes.

A cell is an index, row by row from the upper left, 0-based. Rows and columns are counted
from 0 inside the program and from 1 in every name that an editor reads (`r1c1`).
"""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from typing import Final, TypeAlias

Cell: TypeAlias = int

LARGEST_SIZE: Final = 25

DEFAULT_BOXES: Final[dict[int, tuple[int, int]]] = {
    4: (2, 2),
    6: (2, 3),
    8: (2, 4),
    9: (3, 3),
    10: (2, 5),
    12: (3, 4),
    15: (3, 5),
    16: (4, 4),
    18: (3, 6),
    20: (4, 5),
    24: (4, 6),
    25: (5, 5),
}
"""Rows and columns of one box, by the size of the board (common practice, no source)."""

COMPASS: Final[dict[str, tuple[int, int]]] = {
    "n": (-1, 0),
    "ne": (-1, 1),
    "e": (0, 1),
    "se": (1, 1),
    "s": (1, 0),
    "sw": (1, -1),
    "w": (0, -1),
    "nw": (-1, -1),
}
"""Rows down and columns right that one compass step goes."""


SIDES: Final[dict[str, str]] = {"top": "s", "bottom": "n", "left": "e", "right": "w"}
"""The sides of a board, and the compass step that looks straight onto it from there."""


@dataclass(frozen=True, slots=True)
class Outside:
    """A place just outside the board, and the compass step in which it looks onto it.

    `row` and `column` count from 0, and one of them lies one step off the board.
    """

    row: int
    column: int
    direction: str


@dataclass(frozen=True, slots=True)
class Board:
    """A rectangle of cells that each take a digit from 1 to `digits`.

    `boxes` gives rows and columns of one box, or None where the board has none. `grids` holds
    row and column of the upper left cell of each grid where several lie on the board, square,
    with as many rows as digits; cells of the rectangle that are in none of them, and holes,
    are `absent`: they have an index and take no digit.
    """

    rows: int
    columns: int
    digits: int
    boxes: tuple[int, int] | None = None
    grids: tuple[tuple[int, int], ...] = ()
    absent: frozenset[Cell] = frozenset()

    @property
    def places(self) -> range:
        """The index of every place of the rectangle, row by row, absent or not."""
        return range(self.rows * self.columns)

    @property
    def cells(self) -> Sequence[Cell]:
        """Every cell, row by row."""
        if not self.absent:
            return self.places
        return tuple(cell for cell in self.places if cell not in self.absent)

    @property
    def frames(self) -> tuple[tuple[int, int, int, int], ...]:
        """Top row, left column, rows and columns of each grid."""
        size = self.digits
        if self.grids:
            return tuple((top, left, size, size) for top, left in self.grids)
        return ((0, 0, self.rows, self.columns),)

    def cell(self, row: int, column: int) -> Cell:
        """The cell at a row and a column, both from 0."""
        return row * self.columns + column

    def place(self, cell: Cell) -> tuple[int, int]:
        """Row and column of a cell, both from 0."""
        return divmod(cell, self.columns)

    def holds(self, row: int, column: int) -> bool:
        """Whether that row and column, both from 0, are a cell of the board."""
        if not (0 <= row < self.rows and 0 <= column < self.columns):
            return False
        return not self.absent or self.cell(row, column) not in self.absent

    def name(self, cell: Cell) -> str:
        """The cell's name as an editor writes it: `r4c7`."""
        row, column = self.place(cell)
        return f"r{row + 1}c{column + 1}"

    def step(self, cell: Cell, direction: str, count: int = 1) -> Cell | None:
        """The cell `count` compass steps away, or None where that leaves the board."""
        row, column = self.place(cell)
        down, right = COMPASS[direction]
        row, column = row + down * count, column + right * count
        return self.cell(row, column) if self.holds(row, column) else None

    def sight(self, outside: Outside) -> tuple[Cell, ...]:
        """The cells that are seen from outside, the nearest first; none where it looks past."""
        down, right = COMPASS[outside.direction]
        row, column = outside.row + down, outside.column + right
        seen = []
        while self.holds(row, column):
            seen.append(self.cell(row, column))
            row, column = row + down, column + right
        return tuple(seen)

    def touch(self, one: Cell, other: Cell) -> bool:
        """Whether two different cells share an edge or a corner."""
        (r1, c1), (r2, c2) = self.place(one), self.place(other)
        return one != other and abs(r1 - r2) <= 1 and abs(c1 - c2) <= 1

    def share_edge(self, one: Cell, other: Cell) -> bool:
        """Whether two cells share an edge."""
        (r1, c1), (r2, c2) = self.place(one), self.place(other)
        return abs(r1 - r2) + abs(c1 - c2) == 1

    def hang_together(self, cells: Collection[Cell]) -> bool:
        """Whether one can walk between all the cells by shared edges, never leaving them."""
        left = set(cells)
        edge = [left.pop()] if left else []
        while edge:
            here = edge.pop()
            near = [cell for cell in left if self.share_edge(here, cell)]
            left.difference_update(near)
            edge.extend(near)
        return not left

    def row_lines(self) -> Iterator[tuple[Cell, ...]]:
        """The cells of each row of each grid, from the top."""
        return self._blocks(1, None)

    def column_lines(self) -> Iterator[tuple[Cell, ...]]:
        """The cells of each column of each grid, from the left."""
        return self._blocks(None, 1)

    def box_blocks(self) -> Iterator[tuple[Cell, ...]]:
        """The cells of each box, grid by grid, in reading order; nothing without boxes.

        A box that two grids share comes once.
        """
        return self._blocks(*self.boxes) if self.boxes else iter(())

    def _blocks(self, height: int | None, width: int | None) -> Iterator[tuple[Cell, ...]]:
        """The blocks that tile each grid, each once; None is the whole height or width."""
        seen: set[tuple[Cell, ...]] = set()
        for top, left, rows, columns in self.frames:
            for down in range(0, rows, height or rows):
                for right in range(0, columns, width or columns):
                    block = self._block(top + down, left + right, height or rows, width or columns)
                    if block and block not in seen:
                        seen.add(block)
                        yield block

    def _block(self, top: int, left: int, height: int, width: int) -> tuple[Cell, ...]:
        """The cells of a rectangle."""
        return tuple(
            self.cell(row, column)
            for row in range(top, top + height)
            for column in range(left, left + width)
            if self.holds(row, column)
        )
