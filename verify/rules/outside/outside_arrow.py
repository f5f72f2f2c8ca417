"""Arrows outside: the first digits of a line, as many as a box is long, grow as one points."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import pairwise

from verify.board import Board, Cell, Outside
from verify.facets import Facets, rising
from verify.formula.formula import Formula
from verify.marks import Clue, Mark
from verify.move import Disguise, Move
from verify.pencil import Grid, Pencil, Strike
from verify.reading.grammar import Clues, Placed, Seen, Word
from verify.reading.reader import Reader
from verify.rule import Rule
from verify.rules.workings.climbing import climb_clauses, climb_strikes
from verify.rules.workings.outside_clues import first_box, has_boxes
from verify.rules.workings.parts import one_sentence


@dataclass(frozen=True, slots=True)
class OutsideArrow:
    """Along the cells, from the first, the digits strictly rise, or else strictly fall."""

    cells: tuple[Cell, ...]
    outside: Outside
    rises: bool

    def clauses(self, formula: Formula) -> None:
        """Each cell is larger than the one below it."""
        climb_clauses(formula, self._rising(), 1)

    def holds(self, grid: Grid) -> bool:
        """Each digit is larger than the one before it, or each is smaller."""
        steps = [grid[after] - grid[before] for before, after in pairwise(self.cells)]
        return all(step > 0 for step in steps) if self.rises else all(step < 0 for step in steps)

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Digits too small for the cells below, or too large for the cells above."""
        return climb_strikes(self._rising(), pencil, 1)

    def moved(self, move: Move) -> "OutsideArrow":
        """The cells moved; the other way where a disguise turns the order of digits about."""
        rises = self.rises != move.reverses
        return OutsideArrow(move.all(self.cells), move.outside(self.outside), rises)

    def facets(self, digits: int) -> Facets:
        """The cells rise the way the arrow points, and the mark says nothing else."""
        return rising(self._rising())

    def _rising(self) -> tuple[Cell, ...]:
        return self.cells if self.rises else self.cells[::-1]


def make(clues: Placed[Seen[str]], reader: Reader) -> tuple[OutsideArrow, ...]:
    """Arrows on a board with boxes, each along two cells of a box or more."""
    if not has_boxes(clues.place, reader, "arrows outside"):
        return ()
    arrows = []
    for line, way in clues.value:
        cells = first_box(line, reader.board)
        if len(cells) < 2:
            expected = "a line that sees two cells or more of a box"
            reader.problems.expected(way.place, f"{way.value} over one cell", expected)
            continue
        arrows.append(OutsideArrow(cells, line.outside, way.value == "rise"))
    return tuple(arrows)


def draw(board: Board, arrows: Sequence[OutsideArrow]) -> tuple[Mark, ...]:
    """An arrow outside that points the way in which the digits grow."""
    return tuple(
        Clue("outside", each.outside, arrow="in" if each.rises else "out") for each in arrows
    )


RULE = Rule(
    name="outside-arrow",
    meaning="The first digits, as many as a box is long, grow the way the arrow outside points.",
    marks="a mapping from places outside to `rise` or `fall`, as seen from there",
    grammar=Clues(Word(("rise", "fall"), "way")),
    make=make,
    draw=draw,
    says=partial(one_sentence, "outside-arrow"),
    survives=frozenset({Disguise.TURN, Disguise.REVERSE}),
    example="""\
title: Windward reeds
kind: sudoku
size: 6
rules:
  outside-arrow:
    left r2: rise
    left r6: rise
    right r2: rise
    right r3: rise
    right r5: fall
    right r6: fall
    top c1: fall
    top c2: rise
    top c3: fall
    top c4: rise
    top c5: rise
    top c6: fall
    bottom c1: fall
    bottom c2: rise
    bottom c3: fall
    bottom c4: rise
    bottom c5: rise
    bottom c6: rise
givens: |
  . . . | . . .
  . . . | . . .
  -------------
  . . . | . . .
  . . . | . . .
  -------------
  . . . | . . .
  . . . | . . .
""",
)
