"""Zippers: cells equally far from the middle sum to the middle digit."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial, reduce
from operator import and_

from verify.board import Cell
from verify.facets import Facets, Form, equal_sides
from verify.formula.formula import Formula
from verify.move import Disguise, Move
from verify.pencil import Grid, Mask, Pencil, Strike
from verify.reading.grammar import PATHS, Cells, Several
from verify.reading.reader import Reader
from verify.rule import Rule
from verify.rules.workings.lines import count_of, fitting, trails, unkept
from verify.rules.workings.parts import one_sentence
from verify.rules.workings.sums import sum_survivors, sums_of
from verify.rules.workings.totals import total_clauses


@dataclass(frozen=True, slots=True)
class Zipper:
    """The two digits at each distance from the middle cell sum to its digit."""

    cells: tuple[Cell, ...]

    def clauses(self, formula: Formula) -> None:
        """The sum of each pair, less the middle digit, is 0."""
        middle, pairs = self._middle_and_pairs()
        for one, other in pairs:
            total_clauses(formula, {one: 1, other: 1, middle: -1}, 0)

    def holds(self, grid: Grid) -> bool:
        """The two digits equally far from the middle sum to the middle digit."""
        line = [grid[cell] for cell in self.cells]
        half = len(line) // 2
        return all(
            line[half - away] + line[half + away] == line[half] for away in range(1, half + 1)
        )

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Middle digits that some pair can't sum to, and digits that are in no such sum.

        That is all that a zipper removes.
        """
        middle, pairs = self._middle_and_pairs()
        terms = [[(one, 1), (other, 1)] for one, other in pairs]
        sums = reduce(and_, (sums_of(pair, pencil) for pair in terms), pencil[middle])
        kept: dict[Cell, Mask] = {middle: sums}
        for pair in terms:
            kept.update(sum_survivors(pair, pencil, sums))
        return unkept(kept, pencil)

    def moved(self, move: Move) -> "Zipper":
        """The cells moved."""
        return Zipper(move.all(self.cells))

    def facets(self, digits: int) -> Facets:
        """Each pair sums to the middle cell, which so is larger than all others."""
        middle, pairs = self._middle_and_pairs()
        sums = (
            said
            for one, other in reversed(pairs)
            for said in equal_sides([(one, 1), (other, 1)], [(middle, 1)])
        )
        rises = tuple((cell, middle) for cell in self.cells if cell != middle)
        return Facets(sums=tuple(sums), rises=rises, all_by=Form.SUMS)

    def _middle_and_pairs(self) -> tuple[Cell, list[tuple[Cell, Cell]]]:
        """The middle cell, and the pairs of cells about it."""
        half = len(self.cells) // 2
        ends = zip(self.cells[:half], reversed(self.cells), strict=False)
        return self.cells[half], list(ends)


def make(paths: Several[Cells], reader: Reader) -> tuple[Zipper, ...]:
    """Paths of three cells or more that have a middle cell."""
    zippers = []
    for path in fitting(paths, reader, least=3):
        if len(path.value) % 2:
            zippers.append(Zipper(path.value))
        else:
            found = f"a path of {count_of(len(path.value))}, which has no middle cell"
            reader.problems.expected(path.place, found, "an odd number of cells")
    return tuple(zippers)


RULE = Rule(
    name="zipper",
    meaning="Digits equally far from the middle of the line sum to the digit in the middle.",
    marks="a list of paths of an odd number of cells",
    grammar=PATHS,
    make=make,
    draw=partial(trails, "zipper"),
    says=partial(one_sentence, "zipper"),
    survives=frozenset({Disguise.TURN}),
    example="""\
title: Oilskin coat
kind: sudoku
size: 6
rules:
  zipper:
    - r5c1 n ne nw n
    - r6c5 nw w sw w
    - r1c4 2e
    - r4c4 2e
givens: |
  . . . | . . .
  . . . | . . .
  -------------
  . . . | . . 2
  . . . | . . .
  -------------
  . . . | 4 . .
  . . . | . . .
""",
)
