"""Skyscrapers: how many of a line's digits are seen from outside, each a height.

A digit is seen where it is larger than all before it; so it is hidden by one of its own height.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache, partial

from verify.board import Board, Cell, Outside
from verify.formula.formula import Formula
from verify.formula.scan import Diagram, Scan, survivors, whole_diagram
from verify.marks import Clue, Mark
from verify.move import Disguise, Move
from verify.pencil import Grid, Pencil, Strike
from verify.reading.reader import Reader
from verify.rule import Rule
from verify.rules.workings.outside_clues import NUMBERS, Numbers, bounded, strikes_but
from verify.rules.workings.parts import one_sentence


@dataclass(frozen=True, slots=True)
class Skyscraper:
    """Along the cells, from the first, `seen` digits are larger than all before them."""

    cells: tuple[Cell, ...]
    outside: Outside
    seen: int

    def clauses(self, formula: Formula) -> None:
        """A scan with the highest digit so far, and how many were seen."""
        formula.ways(_ways(len(self.cells), formula.digits, self.seen), self.cells)

    def note(self, pencil: Pencil) -> Scan[tuple[int, int]]:
        """The same scan."""
        return _scan(self.cells, self.seen)

    def diagram(self, digits: int) -> Diagram:
        """All lines of digits of which that many are seen."""
        return _ways(len(self.cells), digits, self.seen)

    def holds(self, grid: Grid) -> bool:
        """As many digits as `seen` are larger than all before them."""
        line = [grid[cell] for cell in self.cells]
        seen = [digit for at, digit in enumerate(line) if all(digit > d for d in line[:at])]
        return len(seen) == self.seen

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Candidates in no line of digits of which that many are seen."""
        largest = max(pencil[cell].bit_length() for cell in self.cells) - 1
        ways = _ways(len(self.cells), max(largest, 1), self.seen)
        return strikes_but(survivors(ways, self.cells, pencil), self.cells, pencil)

    def moved(self, move: Move) -> "Skyscraper":
        """The line moved."""
        return Skyscraper(move.all(self.cells), move.outside(self.outside), self.seen)


def _scan(cells: tuple[Cell, ...], count: int) -> Scan[tuple[int, int]]:
    """The highest digit so far, and how many were seen."""

    def step(state: tuple[int, int], index: int, digit: int) -> tuple[int, int] | None:
        top, seen = state
        if digit <= top:
            return state
        return (digit, seen + 1) if seen < count else None

    return Scan(cells, (0, 0), step, lambda state: state[1] == count)


@lru_cache(maxsize=1024)
def _ways(length: int, digits: int, count: int) -> Diagram:
    """All ways to see so many along so many cells: the same for every line of a board."""
    return whole_diagram(_scan(tuple(range(length)), count), digits)


def make(clues: Numbers, reader: Reader) -> tuple[Skyscraper, ...]:
    """A mapping from places outside to counts: from 1 to as many as can differ on the line."""

    def bounds(cells: int) -> tuple[int, int]:
        return 1, min(cells, reader.board.digits)

    counts = bounded(clues, reader, bounds, "the count of a skyscraper clue")
    return tuple(Skyscraper(line.cells, line.outside, seen) for line, seen in counts)


def draw(board: Board, skyscrapers: Sequence[Skyscraper]) -> tuple[Mark, ...]:
    """Each count outside."""
    return tuple(Clue("outside", each.outside, str(each.seen)) for each in skyscrapers)


RULE = Rule(
    name="skyscraper",
    meaning="The number outside counts the digits seen from there; the higher hide the lower.",
    marks="a mapping from places outside to counts",
    grammar=NUMBERS,
    make=make,
    draw=draw,
    says=partial(one_sentence, "skyscraper"),
    survives=frozenset({Disguise.TURN}),
    example="""\
title: Harbour skyline
kind: sudoku
size: 6
rules:
  skyscraper:
    top c1: 2
    top c2: 2
    top c5: 5
    right r2: 2
    right r3: 1
    right r6: 2
    bottom c6: 4
    bottom c4: 2
    left r4: 2
    left r6: 5
givens: |
  . . . | . . .
  . . . | . . .
  -------------
  . . . | . . .
  1 . . | . . .
  -------------
  . . . | . . .
  . . . | . . .
""",
)
