"""Whispers: neighbours on the line lie far apart."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import pairwise
from typing import Annotated, Final, TypeAlias

from verify.board import Cell
from verify.facets import Facets, every_pair
from verify.formula.formula import Formula
from verify.move import Disguise, Move
from verify.pencil import Grid, Pencil, Strike, at_most, highest, lowest
from verify.reading.grammar import (
    PATHS,
    Cells,
    Each,
    Either,
    Entry,
    Grammar,
    Part,
    Placed,
    whole_from,
)
from verify.reading.node import Node, Place
from verify.reading.reader import Reader
from verify.rule import Rule, Saying
from verify.rules.workings.far_apart import apart
from verify.rules.workings.lines import fitting_cells, trails
from verify.rules.workings.pairs import pair_clauses

USUAL_GAP: Final = 5


@dataclass(frozen=True, slots=True)
class Whisper:
    """Each two neighbours among the cells differ by `gap` or more."""

    cells: tuple[Cell, ...]
    gap: int

    def clauses(self, formula: Formula) -> None:
        """Neighbours differ by `gap` or more."""
        for one, other in pairwise(self.cells):
            pair_clauses(formula, one, other, apart(self.gap, formula.digits))

    def holds(self, grid: Grid) -> bool:
        """All differences between neighbours are `gap` or more."""
        return all(abs(grid[one] - grid[other]) >= self.gap for one, other in pairwise(self.cells))

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Candidates that no choice of digits reaches from the one end, then from the other."""
        yield from self._sweep(self.cells, pencil)
        yield from self._sweep(self.cells[::-1], pencil)

    def moved(self, move: Move) -> "Whisper":
        """The cells moved."""
        return Whisper(move.all(self.cells), self.gap)

    def facets(self, digits: int) -> Facets:
        """Neighbours differ; all cells an odd way apart where high and low must alternate."""
        alternate = 2 * self.gap >= digits
        return Facets(pairs=every_pair(self.cells, 2) if alternate else tuple(pairwise(self.cells)))

    def _sweep(self, cells: tuple[Cell, ...], pencil: Pencil) -> Iterator[Strike]:
        """Walks along the cells, keeping the digits that the last one can have."""
        mask = pencil[cells[0]]
        for index, cell in enumerate(cells[1:], start=1):
            if not mask:
                return
            near = at_most(lowest(mask) + self.gap - 1) & ~at_most(highest(mask) - self.gap)
            struck = pencil[cell] & near
            if struck:
                yield Strike(((cell, struck),), cells[:index])
            mask = pencil[cell] & ~near


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """Whispers as a manifest writes them where it tells the gap."""

    gap: Annotated[Placed[Node] | None, whole_from(1)] = None
    lines: Annotated[Part[Each[Cells]], PATHS]


Whispers: TypeAlias = Each[Cells] | Written

WHISPERS: Final[Grammar[Whispers]] = Either(PATHS, Entry(Written))


def make(whispers: Placed[Whispers], reader: Reader) -> tuple[Whisper, ...]:
    """Paths of two cells or more, all with the same gap."""
    place, written = whispers.place, whispers.value
    if isinstance(written, Written):
        gap = _gap(written.gap, place, reader)
        paths = Placed(written.lines.place, written.lines.value or ())
    else:
        gap, paths = _gap(None, place, reader), Placed(place, written)
    lines = fitting_cells(paths, reader)
    return () if gap is None else tuple(Whisper(line, gap) for line in lines)


def _gap(told: Placed[Node] | None, place: Place, reader: Reader) -> int | None:
    """The gap that is told, or the usual one; a problem where no two digits are so far apart."""
    largest = max(1, reader.board.digits - 1)
    if told is not None:
        return reader.whole(told.value, 1, largest, "the gap of whispers")
    if largest >= USUAL_GAP:
        return USUAL_GAP
    found = f"whispers with no gap told, which is a gap of {USUAL_GAP}"
    expected = f"a gap of {largest} at most: {{gap: {largest}, lines: [...]}}"
    reader.problems.expected(place, found, expected)
    return None


def says(whispers: Sequence[Whisper]) -> tuple[Saying, ...]:
    """One sentence for each gap."""
    gaps = Counter(line.gap for line in whispers)
    return tuple(
        Saying("whisper", count, (("gap", str(gap)),)) for gap, count in sorted(gaps.items())
    )


RULE = Rule(
    name="whisper",
    meaning="Neighbours on the line differ by the gap or more, which is 5 unless told.",
    marks="a list of paths, or `{gap: N, lines: [PATH, ...]}`",
    grammar=WHISPERS,
    make=make,
    draw=partial(trails, "whisper"),
    says=says,
    survives=frozenset({Disguise.TURN, Disguise.REVERSE}),
    example="""\
title: Ebb, flood
kind: sudoku
size: 6
rules:
  whisper:
    gap: 3
    lines:
      - r2c1 ne se e ne
      - r4c1 ne se
      - r3c6 sw nw
      - r5c6 sw nw w sw
givens: |
  . . . | . . .
  . . . | . . .
  -------------
  . . 1 | . . .
  . . . | . 2 .
  -------------
  . . . | . . .
  . . . | . . 4
""",
)
