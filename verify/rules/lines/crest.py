"""Crests: digits rise from the one end of a line, and fall from somewhere on it to the other."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache, partial
from itertools import pairwise

from verify.board import Cell
from verify.facets import Facets, Form
from verify.formula.formula import Formula
from verify.move import Disguise, Move
from verify.pencil import Grid, Mask, Pencil, Strike, at_most, every_digit, highest, lowest
from verify.reading.grammar import PATHS, Cells, Several
from verify.reading.reader import Reader
from verify.rule import Rule
from verify.rules.workings.lines import count_of, fitting, trails, unkept
from verify.rules.workings.pairs import Partners, pair_clauses
from verify.rules.workings.parts import one_sentence


@dataclass(frozen=True, slots=True)
class Crest:
    """Digits strictly rise along the cells up to one between the ends, then strictly fall."""

    cells: tuple[Cell, ...]

    def clauses(self, formula: Formula) -> None:
        """A literal for each step between the first and the last: that it rises."""
        inner = [formula.fresh() for _ in self.cells[3:]]
        rising = (formula.true, *inner, -formula.true)
        larger = _larger(formula.digits)
        for before, after in pairwise(rising):
            formula.implies(after, [before])
        for (one, other), rises in zip(pairwise(self.cells), rising, strict=True):
            pair_clauses(formula, one, other, larger, rises)
            pair_clauses(formula, other, one, larger, -rises)

    def holds(self, grid: Grid) -> bool:
        """Some digit between the ends has nothing but rises before it and falls behind it."""
        line = [grid[cell] for cell in self.cells]
        return any(
            all(a < b for a, b in pairwise(line[: top + 1]))
            and all(a > b for a, b in pairwise(line[top:]))
            for top in range(1, len(line) - 1)
        )

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Candidates that fit no place of the top."""
        masks = [pencil[cell] for cell in self.cells]
        kept = dict.fromkeys(self.cells, 0)
        for top in range(1, len(masks) - 1):
            for cell, mask in zip(self.cells, _fitting_top(masks, top), strict=False):
                kept[cell] |= mask
        return unkept(kept, pencil)

    def moved(self, move: Move) -> "Crest":
        """The cells moved."""
        return Crest(move.all(self.cells))

    def facets(self, digits: int) -> Facets:
        """Rises up to the first place of the top, falls from the last, and neighbours differ.

        Where there is one place only, that is all.
        """
        count, steps = len(self.cells), list(pairwise(self.cells))
        first, last = max(1, count - digits), min(count - 2, digits - 1)
        falls = ((low, high) for high, low in steps[last:])
        return Facets(
            pairs=tuple(steps[first:last]),
            rises=(*steps[:first], *falls),
            all_by=Form.ORDER if first >= last else Form.MORE,
        )


@lru_cache(maxsize=32)
def _larger(digits: int) -> Partners:
    """For each digit, those that are larger."""
    return tuple(every_digit(digits) & ~at_most(digit) for digit in range(digits + 1))


def _fitting_top(masks: Sequence[Mask], top: int) -> list[Mask]:
    """What is left of each cell where the top is in that one; nothing at all where it can't be."""
    left = list(masks)
    slopes = range(top + 1), range(len(left) - 1, top - 1, -1)
    for slope in slopes:
        for low, high in pairwise(slope):
            left[high] &= ~at_most(lowest(left[low]))
            if not left[high]:
                return []
    for slope in slopes:
        for high, low in pairwise(reversed(slope)):
            left[low] &= at_most(highest(left[high]) - 1)
    return left


def make(paths: Several[Cells], reader: Reader) -> tuple[Crest, ...]:
    """Paths of three cells or more, none longer than all digits up and all but one down."""
    most = 2 * reader.board.digits - 1
    crests = []
    for path in fitting(paths, reader, least=3):
        if len(path.value) <= most:
            crests.append(Crest(path.value))
        else:
            found = f"a path of {count_of(len(path.value))}"
            expected = f"at most {most}, which rise and fall through every digit"
            reader.problems.expected(path.place, found, expected)
    return tuple(crests)


RULE = Rule(
    name="crest",
    meaning="Digits rise along the line up to one between its ends, and fall from there on.",
    marks="a list of paths of three cells or more",
    grammar=PATHS,
    make=make,
    draw=partial(trails, "crest"),
    says=partial(one_sentence, "crest"),
    survives=frozenset({Disguise.TURN}),
    example="""\
title: Creek banks
kind: sudoku
size: 6
rules:
  crest:
    - r2c1 n 2e se
    - r2c2 2se 2ne
    - r3c1 se s e
    - r6c6 2n w
    - r6c2 e ne
givens: |
  . . . | . . .
  . . . | . . .
  -------------
  . . . | . . .
  . . 6 | . . .
  -------------
  . . . | . . .
  . . . | 5 . .
""",
)
