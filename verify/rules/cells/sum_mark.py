"""Numbers between neighbours that tell what their digits sum to.

Where all are shown, neighbours without a number have none of the sums that are shown: 5 and 10,
as is the custom, or where a puzzle shows other sums, those that it shows.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Annotated, Final, TypeAlias

from verify.board import Board
from verify.facets import Facets, summing
from verify.formula.formula import Formula
from verify.marks import Badge, Mark
from verify.move import Disguise, Move
from verify.pencil import Grid, Pencil, Strike
from verify.reading.grammar import (
    FLAG,
    GROUP,
    Cells,
    Each,
    Either,
    Entry,
    Grammar,
    Listed,
    Part,
    Placed,
    whole_from,
)
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.rule import Rule, Saying
from verify.rules.workings.neighbours import (
    Pair,
    moved_pair,
    neighbours,
    numbered_pairs,
    partners,
)
from verify.rules.workings.pairs import Partners, pair_clauses, pair_strikes

CUSTOMARY: Final = frozenset({5, 10})
"""The sums that puzzles with all numbers shown speak of."""


@dataclass(frozen=True, slots=True)
class Marked:
    """The digits of two neighbours sum to `total`."""

    cells: Pair
    total: int
    digits: int

    def clauses(self, formula: Formula) -> None:
        """A digit in one cell leaves the digit in the other that makes up the sum."""
        pair_clauses(formula, *self.cells, _with_sum(self.digits, self.total))

    def holds(self, grid: Grid) -> bool:
        """The two digits sum to `total`."""
        return sum(grid[cell] for cell in self.cells) == self.total

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Candidates that fit no candidate of the other cell."""
        return pair_strikes(*self.cells, _with_sum(self.digits, self.total), pencil)

    def moved(self, move: Move) -> "Marked":
        """The cells moved, and the sum of what the digits become."""
        (total,) = _moved_sums((self.total,), move)
        return Marked(moved_pair(self.cells, move), total, self.digits)

    def facets(self, digits: int) -> Facets:
        """The sum; with no half of it as a digit the two differ."""
        said = summing(self.cells, self.total)
        half, odd = divmod(self.total, 2)
        return replace(said, pairs=(self.cells,)) if odd or half > digits else said


@dataclass(frozen=True, slots=True)
class Unmarked:
    """The digits of two neighbours have none of these sums, as no number says that they do."""

    cells: Pair
    sums: tuple[int, ...]
    digits: int

    def clauses(self, formula: Formula) -> None:
        """A digit in one cell leaves those in the other that make none of the sums."""
        pair_clauses(formula, *self.cells, _without_sums(self.digits, self.sums))

    def holds(self, grid: Grid) -> bool:
        """The two digits sum to none of `sums`."""
        return sum(grid[cell] for cell in self.cells) not in self.sums

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Candidates that fit no candidate of the other cell."""
        return pair_strikes(*self.cells, _without_sums(self.digits, self.sums), pencil)

    def moved(self, move: Move) -> "Unmarked":
        """The cells moved, and the sums of what the digits become."""
        return Unmarked(moved_pair(self.cells, move), _moved_sums(self.sums, move), self.digits)


SumMark: TypeAlias = Marked | Unmarked


@lru_cache(maxsize=128)
def _with_sum(digits: int, total: int) -> Partners:
    return partners(digits, lambda one, other: one + other == total)


@lru_cache(maxsize=128)
def _without_sums(digits: int, sums: tuple[int, ...]) -> Partners:
    return partners(digits, lambda one, other: one + other not in sums)


def _moved_sums(sums: tuple[int, ...], move: Move) -> tuple[int, ...]:
    """What sums of two digits become, rising as they did before."""
    if not move.reverses:
        return sums
    return tuple(2 * (move.before.digits + 1) - total for total in reversed(sums))


@dataclass(frozen=True, slots=True)
class Written:
    """A sum as a manifest writes it."""

    pair: Annotated[Part[Cells], GROUP]
    sum: Annotated[Placed[Node], whole_from(2)]


SUMS: Final = Listed(Entry(Written), "a list of marks such as {pair: r1c1 r1c2, sum: 5}")


@dataclass(frozen=True, slots=True)
class WrittenAll:
    """The same list, and whether all sums are shown."""

    marks: Annotated[Part[Each[Written]] | None, SUMS] = None
    all_shown: Annotated[Part[bool] | None, FLAG] = None


Marks: TypeAlias = Each[Written] | WrittenAll

GRAMMAR: Final[Grammar[Marks]] = Either(SUMS, Entry(WrittenAll))


def make(written: Placed[Marks], reader: Reader) -> tuple[SumMark, ...]:
    """The sums that are shown; where that is all of them, every other pair, too."""
    if not isinstance(written.value, WrittenAll):
        return _marked(written.value, reader)
    marks, shown = written.value.marks, written.value.all_shown
    marked = _marked((marks and marks.value) or (), reader)
    return (*marked, *(_unmarked(reader.board, marked) if shown and shown.value else ()))


def _marked(marks: Sequence[Placed[Written]], reader: Reader) -> tuple[Marked, ...]:
    digits = reader.board.digits
    what = f"the sum of two digits up to {digits}"
    written = ((mark.value.pair, mark.value.sum) for mark in marks)
    totals = numbered_pairs(written, reader, (2, 2 * digits), what)
    return tuple(Marked(pair, total, digits) for pair, total in totals.items())


def _unmarked(board: Board, marked: Sequence[Marked]) -> Iterator[Unmarked]:
    """Every other pair of neighbours, with the sums that a number would have told."""
    taken, shown = {mark.cells for mark in marked}, {mark.total for mark in marked}
    told = shown if shown - CUSTOMARY else CUSTOMARY
    sums = tuple(sorted(total for total in told if total <= 2 * board.digits))
    for pair in neighbours(board):
        if pair not in taken:
            yield Unmarked(pair, sums, board.digits)


def draw(board: Board, pairs: Sequence[SumMark]) -> tuple[Mark, ...]:
    """A badge with the number where there is one."""
    marked = (pair for pair in pairs if isinstance(pair, Marked))
    return tuple(Badge("sum-mark", mark.cells, str(mark.total)) for mark in marked)


def says(pairs: Sequence[SumMark]) -> tuple[Saying, ...]:
    """One sentence for the numbers, and one for each sum that neighbours without one don't have."""
    marks = sum(isinstance(pair, Marked) for pair in pairs)
    excluded = next((pair.sums for pair in pairs if isinstance(pair, Unmarked)), ())
    return (
        *((Saying("sum-mark", marks),) if marks else ()),
        *(
            Saying("sum-mark-all-shown", values=(("sum", str(total)),), everywhere=True)
            for total in excluded
        ),
    )


RULE = Rule(
    name="sum-mark",
    meaning="A number between two cells is the sum of their digits.",
    marks=(
        "a list of `{pair: r1c1 r1c2, sum: N}`, or `{marks: LIST, all-shown: true}`;"
        " with `all-shown` neighbours without a number sum to neither 5 nor 10, or, where other"
        " sums are shown, to none of those"
    ),
    grammar=GRAMMAR,
    make=make,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN, Disguise.REVERSE}),
    example="""\
title: Weighed eels
kind: sudoku
size: 6
rules:
  sum-mark:
    marks:
      - {pair: r1c3 r1c4, sum: 5}
      - {pair: r2c5 r2c6, sum: 10}
      - {pair: r3c2 r3c3, sum: 5}
      - {pair: r3c6 r4c6, sum: 5}
      - {pair: r4c4 r4c5, sum: 5}
      - {pair: r5c4 r5c5, sum: 10}
      - {pair: r5c6 r6c6, sum: 5}
      - {pair: r6c2 r6c3, sum: 10}
    all-shown: true
givens: |
  . 2 . | . . .
  . . . | . . .
  -------------
  . . . | . . .
  . . . | . . .
  -------------
  . . . | . . .
  . . . | . . .
""",
)
