"""Words that name cells: cells, compass steps and rectangles, one after the other."""

import re
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Final

from verify.board import COMPASS, Board, Cell
from verify.reading.node import Place, shown
from verify.reading.problems import Problems

LONG_COMPASS: Final[dict[str, str]] = {
    "north": "n",
    "northeast": "ne",
    "east": "e",
    "southeast": "se",
    "south": "s",
    "southwest": "sw",
    "west": "w",
    "northwest": "nw",
    "up": "n",
    "right": "e",
    "down": "s",
    "left": "w",
}
"""What an editor may write for a direction, and is told the short name of."""

_CELL: Final = re.compile(r"[rR]([0-9]{1,9})[cC]([0-9]{1,9})")
_SWAPPED: Final = re.compile(r"[cC]([0-9]{1,9})[rR]([0-9]{1,9})")
_STEP: Final = re.compile(r"([0-9]{0,9})([a-zA-Z]+)")


def cell_named(place: Place, word: str, board: Board, problems: Problems) -> Cell | None:
    """The cell that a word names; None with a problem where it names none on the board."""
    match = _CELL.fullmatch(word)
    if match is None:
        swapped = _SWAPPED.fullmatch(word)
        wanted = f"r{swapped[2]}c{swapped[1]}" if swapped else "a cell such as r4c7"
        problems.expected(place, f'"{shown(word)}"', wanted)
        return None
    row, column = int(match[1]) - 1, int(match[2]) - 1
    if board.holds(row, column):
        return board.cell(row, column)
    last = board.name(board.places[-1])
    inside = row < board.rows and column < board.columns and min(row, column) >= 0
    wanted = "a cell of a grid" if inside else f"a cell from r1c1 to {last}"
    problems.expected(place, shown(word), wanted)
    return None


@dataclass(slots=True)
class Trail:
    """Follows words over the board.

    `at` is where the last word led to. A trail is `lost` from a word that could not be
    followed until the next cell: the steps between are checked, but lead nowhere.
    """

    board: Board
    problems: Problems
    at: Cell | None = None
    lost: bool = False

    def follow(self, place: Place, word: str) -> tuple[Cell, ...] | None:
        """The cells that a cell or a step adds; None where it leads nowhere."""
        if _CELL.fullmatch(word):
            cell = cell_named(place, word, self.board, self.problems)
            return self._arrive(None if cell is None else (cell,))
        step = _STEP.fullmatch(word)
        if step is None:
            expected = "a cell such as r4c7 or a step such as 3ne"
            self.problems.expected(place, f'"{shown(word)}"', expected)
            return self._arrive(None)
        direction = self._direction(place, word, step[2])
        if direction is None or self.lost:
            return self._arrive(None)
        return self._arrive(self._go(place, word, direction, int(step[1] or 1)))

    def rectangle(self, place: Place, word: str) -> tuple[Cell, ...] | None:
        """The cells of `r1c1..r2c3`, between any two opposite corners; the trail ends."""
        first, _, second = word.partition("..")
        one = cell_named(place, first, self.board, self.problems)
        other = cell_named(place.right(len(first) + 2), second, self.board, self.problems)
        self.at, self.lost = None, one is None or other is None
        if one is None or other is None:
            return None
        rows, columns = zip(self.board.place(one), self.board.place(other), strict=True)
        return tuple(
            self.board.cell(row, column)
            for row in range(min(rows), max(rows) + 1)
            for column in range(min(columns), max(columns) + 1)
            if self.board.holds(row, column)
        )

    def _arrive(self, cells: tuple[Cell, ...] | None) -> tuple[Cell, ...] | None:
        """Keeps where the trail is now."""
        self.at, self.lost = (None, True) if cells is None else (cells[-1], False)
        return cells

    def _go(self, place: Place, word: str, direction: str, count: int) -> tuple[Cell, ...] | None:
        """The cells of `count` steps."""
        if self.at is None:
            self.problems.expected(place, f'"{word}"', "a cell to start from, such as r4c7")
            return None
        if count == 0:
            self.problems.expected(place, f'"{word}"', "a count of 1 or more")
            return None
        cells: list[Cell] = []
        for taken in range(1, count + 1):
            before = cells[-1] if cells else self.at
            after = self.board.step(before, direction)
            if after is None:
                self._off(place, word, taken, count, before)
                return None
            cells.append(after)
        return tuple(cells)

    def _off(self, place: Place, word: str, taken: int, count: int, before: Cell) -> None:
        """Notes a step that leaves the board."""
        which = f'step {taken} of "{word}"' if count > 1 else f'step "{word}"'
        last = self.board.name(self.board.places[-1])
        within = "on its cells" if self.board.absent else f"between r1c1 and {last}"
        self.problems.add(
            place,
            f"{which} leaves the board from {self.board.name(before)}; expected to stay {within}",
        )

    def _direction(self, place: Place, word: str, name: str) -> str | None:
        """The compass direction of a step."""
        direction = name.lower()
        if direction in COMPASS:
            return direction
        near = LONG_COMPASS.get(direction) or _near(direction)
        hint = f'did you mean "{near}"?' if near else "known: " + " ".join(COMPASS)
        self.problems.add(place, f'unknown direction in "{shown(word)}"; {hint}')
        return None


def _near(direction: str) -> str | None:
    """The compass direction that a short slip was meant to be."""
    near = get_close_matches(direction[:12], COMPASS, n=1, cutoff=0.6)
    return near[0] if near else None
