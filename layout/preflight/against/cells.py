"""What is written in a grid: the digits in the middles of cells, and all smaller things."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Final
from unicodedata import normalize

from layout.preflight.reading.geometry import Point, around_all
from layout.preflight.reading.grids import Grid
from layout.preflight.reading.marks import Letter

OFF_CENTRE: Final = 0.12
"""Cells by which the middle of a digit may be off that of its cell."""

LOWEST: Final = 0.2
"""Cells that a digit is high at the least."""

LARGE: Final = 0.3
"""Cells from which on what is written can't be a sum or a sign."""

GAP: Final = 0.3
"""Ems of white within a token at the most."""

ONE_LINE: Final = 0.5
"""Points by which letters of one token may rise or sink."""


@dataclass(frozen=True, slots=True)
class Token:
    """Letters that stand together in a cell: their text, their middle in cells, their height."""

    text: str
    middle: Point
    height: float
    letters: tuple[Letter, ...]

    @property
    def cell(self) -> tuple[int, int]:
        """Row and column of the cell that it lies in."""
        return int(self.middle[1]), int(self.middle[0])

    @property
    def off(self) -> Point:
        """How far right and down its middle is off that of its cell."""
        row, column = self.cell
        return self.middle[0] - column - 0.5, self.middle[1] - row - 0.5

    @property
    def is_centred(self) -> bool:
        """Whether it stands in the middle of its cell."""
        return max(map(abs, self.off)) <= OFF_CENTRE


@dataclass(frozen=True, slots=True)
class Written:
    """What stands in a grid: digits by row and column, and all else."""

    digits: Mapping[tuple[int, int], str]
    others: tuple[Token, ...]

    def symbol(self, place: tuple[int, int], wanted: str) -> str:
        """What stands in a cell for a digit; a low or lopsided symbol only where it is `wanted`."""
        if place in self.digits:
            return self.digits[place]
        low = (token for token in self.others if token.cell == place and token.text == wanted)
        return wanted if any(abs(token.off[0]) <= OFF_CENTRE for token in low) else ""

    def astray(self) -> Iterator[Token]:
        """What is as large as a digit and in the middle of no cell, or beside another."""
        return (token for token in self.others if token.height >= LARGE)


def written_in(grid: Grid, lowest: float = LOWEST) -> Written:
    """All that is written in a grid; what is lower than `lowest` cells is no digit."""
    digits: dict[tuple[int, int], str] = {}
    others = []
    for token in tokens_in(grid):
        if token.height >= lowest and token.is_centred and token.cell not in digits:
            digits[token.cell] = token.text
        else:
            others.append(token)
    return Written(digits, tuple(others))


def tokens_in(grid: Grid) -> list[Token]:
    """The tokens in a grid."""
    letters = [
        each
        for each in grid.leaf.marks.letters
        if each.box is not None and grid.box.has(each.box.centre) and not each.ink.is_white
    ]
    return [token_of(part, grid) for part in put_together(letters)]


def put_together(letters: Iterable[Letter]) -> Iterator[list[Letter]]:
    """Letters of one size on one line without a gap: what is read as one number or word."""
    parts: dict[tuple[int, int], list[Letter]] = {}
    for letter in letters:
        line = round(letter.origin[1] / ONE_LINE), round(10 * letter.size)
        parts.setdefault(line, []).append(letter)
    for part in parts.values():
        token: list[Letter] = []
        for letter in sorted(part, key=lambda each: each.origin[0]):
            if token and letter.origin[0] - token[-1].end[0] > GAP * letter.size:
                yield token
                token = []
            token.append(letter)
        yield token


def token_of(letters: Iterable[Letter], grid: Grid) -> Token:
    """Letters as one token."""
    line = sorted(letters, key=lambda each: each.origin[0])
    box = around_all(each.box for each in line if each.box is not None)
    text = normalize("NFKC", "".join(each.text for each in line))
    return Token(text, grid.place(box.centre), box.height / grid.side, tuple(line))
