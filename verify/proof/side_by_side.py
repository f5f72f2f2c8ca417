"""Many classic puzzles at once: candidates as bits in arrays, a column for each sheet.

Where a solver takes one puzzle after the other, here every operation looks at a thousand sheets
side by side. What pencil marks leave open is split: once with the lowest digit of a cell, once
without it, and both sheets go on as others do. A puzzle is settled when all its sheets came to an
end and just one of them is a full grid; what splits too often is left to the solver.

numpy takes a tenth of a second to import, so it is imported where arrays are made.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import reduce
from operator import or_
from typing import TYPE_CHECKING, Final, TypeAlias

if TYPE_CHECKING:
    import numpy
    from numpy.typing import NDArray

Bits: TypeAlias = "NDArray[numpy.uint16]"
"""Digits of a cell as bits, digit 1 the lowest; there are at most 16."""

Digits: TypeAlias = "NDArray[numpy.uint8]"
Flags: TypeAlias = "NDArray[numpy.bool_]"
Numbers: TypeAlias = "NDArray[numpy.intp]"

ABREAST: Final = 1024
"""Sheets that are looked at together: what they need fits into a processor's nearer memory."""

MOST_SPLITS: Final = 50
"""Splits of one puzzle; past that the solver is the quicker one."""


@dataclass(frozen=True, slots=True)
class Shape:
    """A square board of `size` digits with boxes of `high` rows and `wide` columns."""

    size: int
    high: int
    wide: int

    def split(self, sheets: Bits) -> Bits:
        """Sheets by band, row in the band, stack, column in the stack, and sheet."""
        bands, stacks = self.size // self.high, self.size // self.wide
        return sheets.reshape(bands, self.high, stacks, self.wide, -1)


def sole_answers(givens: Digits, shape: Shape) -> tuple[Digits, Flags]:
    """The answers of puzzles that have just one, and which puzzles are settled so.

    `givens` has a row of digits for each puzzle, 0 where nothing stands; the answers have the same
    form, and mean nothing where a puzzle is not settled.
    """
    search = _Search(givens, shape)
    search.run()
    return search.outcome()


@dataclass(slots=True)
class _Sheets:
    """Sheets, a column each, and the numbers of the puzzles whose they are."""

    bits: Bits
    owners: Numbers

    def __len__(self) -> int:
        return int(self.owners.size)

    def only(self, kept: Flags) -> "_Sheets":
        if kept.all():
            return self
        return _Sheets(self.bits[:, kept], self.owners[kept])

    def cut(self, most: int) -> tuple["_Sheets", "_Sheets"]:
        """All but the last ones, and the last ones."""
        first = max(0, len(self) - most)
        return (
            _Sheets(self.bits[:, :first], self.owners[:first]),
            _Sheets(self.bits[:, first:], self.owners[first:]),
        )


def _joined(parts: Sequence[_Sheets]) -> _Sheets:
    import numpy

    if len(parts) == 1:
        return parts[0]
    return _Sheets(
        numpy.concatenate([part.bits for part in parts], axis=1),
        numpy.concatenate([part.owners for part in parts]),
    )


class _Search:
    """Looks for all answers of all puzzles, and lets go of those that have two."""

    def __init__(self, givens: Digits, shape: Shape) -> None:
        import numpy

        puzzles = len(givens)
        self._shape = shape
        self._full = numpy.uint16((1 << shape.size) - 1)
        bits = [self._full, *(numpy.uint16(1 << digit) for digit in range(shape.size))]
        start = numpy.ascontiguousarray(numpy.array(bits, numpy.uint16)[givens].T)
        self._answers = numpy.zeros_like(start)
        self._found = numpy.zeros(puzzles, numpy.int64)
        self._splits = numpy.zeros(puzzles, numpy.int64)
        self._waiting = [_Sheets(start, numpy.arange(puzzles))]
        self._stuck: list[_Sheets] = []

    def outcome(self) -> tuple[Digits, Flags]:
        """What `sole_answers` gives."""
        import numpy

        digits = numpy.bitwise_count(self._answers - numpy.uint16(1)) + numpy.uint8(1)
        return digits.T, (self._found == 1) & (self._splits < MOST_SPLITS)

    def run(self) -> None:
        """Goes on until every sheet has come to an end."""
        block = self._filled([])
        while block is not None:
            after, dead = _swept(block.bits, self._shape, self._full)
            changed = (after != block.bits).any(axis=0)
            swept = _Sheets(after, block.owners)
            self._put_aside(swept.only(~changed & ~dead))
            block = self._filled([swept.only(changed & ~dead & self._open(block.owners))])

    def _filled(self, parts: list[_Sheets]) -> _Sheets | None:
        """As many sheets as are looked at together, if there are any more."""
        room = ABREAST - sum(map(len, parts))
        if not self._waiting or sum(map(len, self._stuck)) > ABREAST // 4:
            self._go_on_with_stuck()
        while room > 0 and self._waiting:
            rest, last = self._waiting.pop().cut(room)
            if len(rest):
                self._waiting.append(rest)
            parts.append(last)
            room -= len(last)
        parts = [part for part in parts if len(part)]
        return _joined(parts) if parts else None

    def _open(self, owners: Numbers) -> Flags:
        """Of which puzzles more must be known."""
        return (self._found[owners] < 2) & (self._splits[owners] < MOST_SPLITS)

    def _put_aside(self, sheets: _Sheets) -> None:
        """Notes the grids that are full; the other sheets are stuck."""
        import numpy

        if not len(sheets):
            return
        full = (numpy.bitwise_count(sheets.bits) == 1).all(axis=0)
        answers = sheets.only(full)
        self._answers[:, answers.owners] = answers.bits
        numpy.add.at(self._found, answers.owners, 1)
        if not full.all():
            self._stuck.append(sheets.only(~full))

    def _go_on_with_stuck(self) -> None:
        """Looks at lines and boxes together where nothing else helps, and splits what is left."""
        if not self._stuck:
            return
        sheets = _joined(self._stuck)
        self._stuck = []
        sheets = sheets.only(self._open(sheets.owners))
        after = _locked(sheets.bits, self._shape)
        changed = (after != sheets.bits).any(axis=0)
        moved = _Sheets(after, sheets.owners).only(changed)
        self._waiting += [
            each for each in (*self._split(sheets.only(~changed)), moved) if len(each)
        ]

    def _split(self, sheets: _Sheets) -> Iterator[_Sheets]:
        """Each sheet twice: without the lowest digit of its narrowest open cell, and with it."""
        import numpy

        counts = numpy.bitwise_count(sheets.bits)
        counts[counts == 1] = 255
        cells, columns = counts.argmin(axis=0), numpy.arange(len(sheets))
        digits = sheets.bits[cells, columns]
        lowest = digits & (~digits + numpy.uint16(1))
        for left in (digits ^ lowest, lowest):
            bits = sheets.bits.copy()
            bits[cells, columns] = left
            yield _Sheets(bits, sheets.owners)
        numpy.add.at(self._splits, sheets.owners, 1)


def _swept(sheets: Bits, shape: Shape, full: "numpy.uint16") -> tuple[Bits, Flags]:
    """Sheets after single digits have struck and been found in every house; which are dead.

    A sheet is dead where a house has no place for a digit, or a cell no digit.
    """
    import numpy

    single = shape.split(sheets * ((sheets & (sheets - numpy.uint16(1))) == 0))
    struck = reduce(or_, (_spread(kind, reduce(or_, _cells(kind, single))) for kind in KINDS))
    left = (shape.split(sheets) & ~struck) | single
    dead = numpy.zeros(sheets.shape[-1], numpy.bool_)
    hidden = numpy.zeros_like(left)
    for kind in KINDS:
        once, twice = _once_and_twice(_cells(kind, left))
        dead |= (once != full).any(axis=(0, 1))
        hidden |= _spread(kind, once & ~twice)
    hidden &= left
    after = numpy.where(hidden != 0, hidden, left).reshape(sheets.shape)
    return after, dead | (after == 0).any(axis=0)


KINDS: Final = ("row", "column", "box")


def _cells(kind: str, split: Bits) -> Iterator[Bits]:
    """The first cell of every house of a kind, the second, and so on; houses by two numbers."""
    _, high, _, wide, _ = split.shape
    bands, _, stacks, _, _ = split.shape
    if kind == "row":
        return (split[:, :, stack, column] for stack in range(stacks) for column in range(wide))
    if kind == "column":
        return (split[band, row] for band in range(bands) for row in range(high))
    return (split[:, row, :, column] for row in range(high) for column in range(wide))


def _spread(kind: str, houses: Bits) -> Bits:
    """What is said of houses, laid out for every cell of them."""
    if kind == "row":
        return houses[:, :, None, None]
    if kind == "column":
        return houses[None, None]
    return houses[:, None, :, None]


def _once_and_twice(cells: Iterable[Bits]) -> tuple[Bits, Bits]:
    """The digits that are in any of some cells, and those that are in two or more."""
    import numpy

    cells = iter(cells)
    once = next(cells).copy()
    twice, both = numpy.zeros_like(once), numpy.empty_like(once)
    for cell in cells:
        numpy.bitwise_and(once, cell, out=both)
        numpy.bitwise_or(twice, both, out=twice)
        numpy.bitwise_or(once, cell, out=once)
    return once, twice


def _locked(sheets: Bits, shape: Shape) -> Bits:
    """Sheets after locked candidates: digits that a box, or a line, has only where both meet."""
    left = shape.split(sheets).copy()
    _lock(left)
    _lock(left.transpose(2, 3, 0, 1, 4))
    return left.reshape(sheets.shape)


def _lock(split: Bits) -> None:
    """Strikes in place what rows and boxes say of each other."""
    _, high, stacks, wide, _ = split.shape
    pieces = [
        [
            reduce(or_, (split[:, row, stack, column] for column in range(wide)))
            for row in range(high)
        ]
        for stack in range(stacks)
    ]
    in_box = [[~other for other in _of_others(piece)] for piece in pieces]
    in_row = [[~other for other in _of_others(piece)] for piece in zip(*pieces, strict=True)]
    for row in range(high):
        only = [pieces[stack][row] & in_box[stack][row] for stack in range(stacks)]
        for stack, struck in enumerate(_of_others(only)):
            split[:, row, stack] &= ~struck[:, None]
    for stack in range(stacks):
        only = [pieces[stack][row] & in_row[row][stack] for row in range(high)]
        for row, struck in enumerate(_of_others(only)):
            split[:, row, stack] &= ~struck[:, None]


def _of_others(parts: Sequence[Bits]) -> list[Bits]:
    """For each part the digits of all others; two at least."""
    return [
        reduce(or_, (other for number, other in enumerate(parts) if number != own))
        for own in range(len(parts))
    ]
