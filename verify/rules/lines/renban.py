"""Renban lines: a set of consecutive digits, in any order."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

from verify.board import Cell
from verify.facets import Facets, Group
from verify.formula.formula import Formula
from verify.move import Disguise, Move
from verify.pencil import Grid, Mask, Pencil, Strike, digits_of, every_digit
from verify.reading.grammar import PATHS, Cells, Several
from verify.reading.reader import Reader
from verify.rule import Rule
from verify.rules.workings.lines import fitting_cells, trails, unkept
from verify.rules.workings.parts import one_sentence


@dataclass(frozen=True, slots=True)
class Renban:
    """The digits in the cells are different, and consecutive when sorted.

    So they fill a *window*: as many consecutive digits as there are cells.
    """

    cells: tuple[Cell, ...]

    def clauses(self, formula: Formula) -> None:
        """The cells differ, and their digits are those of one window of consecutive digits."""
        formula.distinct(self.cells)
        chosen = [(formula.fresh(), window) for window in _windows(len(self.cells), formula.digits)]
        formula.some(literal for literal, _ in chosen)
        for digit in digits_of(every_digit(formula.digits)):
            placed = [formula.literal(cell, digit) for cell in self.cells]
            with_it = [literal for literal, window in chosen if window >> digit & 1]
            for literal in with_it:
                formula.implies(literal, placed)
            for each in placed:
                formula.implies(each, with_it)
                for literal, window in chosen:
                    if not window >> digit & 1:
                        formula.not_all(each, literal)

    def holds(self, grid: Grid) -> bool:
        """Sorted, they count up from the least by ones."""
        line = sorted(grid[cell] for cell in self.cells)
        return line == list(range(line[0], line[0] + len(line)))

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Candidates that their cell has in no window which the cells can still fill."""
        kept, held = dict.fromkeys(self.cells, 0), [pencil[cell] for cell in self.cells]
        for window in _windows(len(self.cells), max(held).bit_length() - 1):
            filled = _filled([mask & window for mask in held], window)
            for cell, mask in zip(self.cells, filled, strict=False):
                kept[cell] |= mask
        return unkept(kept, pencil)

    def moved(self, move: Move) -> "Renban":
        """The cells moved."""
        return Renban(move.all(self.cells))

    def facets(self, digits: int) -> Facets:
        """All cells differ."""
        return Facets((Group("renban", self.cells),))


def _windows(length: int, digits: int) -> list[Mask]:
    """Every set of that many consecutive digits up to `digits`."""
    return [every_digit(length) << above for above in range(digits - length + 1)]


def _filled(kept: list[Mask], window: Mask) -> list[Mask]:
    """What cells keep where they hold the digits of a window, one each; nothing if they can't.

    Placed digits leave the other cells, and a digit with one place left takes it, until
    neither removes anything.
    """
    while True:
        once = twice = placed = 0
        for mask in kept:
            twice |= once & mask
            once |= mask
            if not mask & (mask - 1):
                # A placed digit, or none at all.
                if not mask or mask & placed:
                    return []
                placed |= mask
        if once != window:
            return []
        lone = once & ~twice
        after = [mask & lone or mask & ~placed if mask & (mask - 1) else mask for mask in kept]
        if after == kept:
            return kept
        kept = after


def make(paths: Several[Cells], reader: Reader) -> tuple[Renban, ...]:
    """Paths of two cells or more, none longer than there are digits."""
    return tuple(map(Renban, fitting_cells(paths, reader, most=reader.board.digits)))


RULE = Rule(
    name="renban",
    meaning="The digits on the line are consecutive, in any order, and none stands twice.",
    marks="a list of paths",
    grammar=PATHS,
    make=make,
    draw=partial(trails, "renban"),
    says=partial(one_sentence, "renban"),
    survives=frozenset({Disguise.TURN, Disguise.REVERSE}),
    example="""\
title: Reed beds
kind: sudoku
size: 6
rules:
  renban:
    - r2c1 ne e s
    - r5c1 n ne e
    - r2c6 s sw w
    - r5c6 sw w n
givens: |
  . 6 . | . 5 .
  . . . | . . .
  -------------
  . . 4 | 2 . .
  . . . | . . .
  -------------
  . . . | . . .
  . . . | . . 5
""",
)
