"""Dots between neighbours: white for consecutive digits, black for a digit and its double.

Between 1 and 2 either dot may stand. Where all dots are shown, neighbours without one hold
digits that are neither consecutive nor one the double of the other.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Annotated, Final, Literal, TypeAlias

from verify.board import Board
from verify.facets import NOTHING, Facets
from verify.formula.formula import Formula
from verify.marks import Badge, Mark
from verify.move import Disguise, Move
from verify.pencil import Grid, Pencil, Strike
from verify.reading.grammar import FLAG, Cells, Each, Entry, Part, Placed
from verify.reading.reader import Reader
from verify.rule import Rule, Saying
from verify.rules.workings.neighbours import (
    PAIRS,
    Pair,
    moved_pair,
    neighbours,
    new_pair,
    partners,
)
from verify.rules.workings.pairs import Partners, pair_clauses, pair_strikes

Relation: TypeAlias = Literal["consecutive", "ratio", "neither"]

DOTS: Final[tuple[Relation, ...]] = ("consecutive", "ratio")


@dataclass(frozen=True, slots=True)
class Dotted:
    """Two neighbours with a dot between them, or with none where all dots are shown."""

    cells: Pair
    relation: Relation
    digits: int

    def clauses(self, formula: Formula) -> None:
        """A digit in one cell leaves those in the other that stand in the relation."""
        pair_clauses(formula, *self.cells, _partners(self.digits, self.relation))

    def holds(self, grid: Grid) -> bool:
        """Consecutive, or one twice the other, or neither, as the relation says."""
        low, high = sorted(grid[cell] for cell in self.cells)
        consecutive, double = high == low + 1, high == 2 * low
        if self.relation == "neither":
            return not consecutive and not double
        return consecutive if self.relation == "consecutive" else double

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Candidates that fit no candidate of the other cell."""
        return pair_strikes(*self.cells, _partners(self.digits, self.relation), pencil)

    def moved(self, move: Move) -> "Dotted":
        """The cells moved."""
        return Dotted(moved_pair(self.cells, move), self.relation, self.digits)

    def facets(self, digits: int) -> Facets:
        """Digits with a dot between them differ."""
        return Facets(pairs=(self.cells,)) if self.relation != "neither" else NOTHING


@lru_cache(maxsize=128)
def _partners(digits: int, relation: Relation) -> Partners:
    def dots(one: int, other: int) -> Iterator[Relation]:
        """The dots that could stand between two digits."""
        if one == other + 1 or other == one + 1:
            yield "consecutive"
        if one == other * 2 or other == one * 2:
            yield "ratio"

    if relation == "neither":
        return partners(digits, lambda one, other: not any(dots(one, other)))
    return partners(digits, lambda one, other: relation in dots(one, other))


@dataclass(frozen=True, slots=True)
class Written:
    """Dots as a manifest writes them: pairs for each kind, and whether all dots are shown."""

    consecutive: Annotated[Part[Each[Cells]] | None, PAIRS] = None
    ratio: Annotated[Part[Each[Cells]] | None, PAIRS] = None
    all_shown: Annotated[Part[bool] | None, FLAG] = None


def make(written: Placed[Written], reader: Reader) -> tuple[Dotted, ...]:
    """Each pair with its dot, no pair twice; with all dots shown every other pair, too."""
    digits, pairs, taken = reader.board.digits, list[Dotted](), set[Pair]()
    for dot, listed in zip(DOTS, (written.value.consecutive, written.value.ratio), strict=True):
        for cells in (listed and listed.value) or ():
            pair = new_pair(cells, taken, reader)
            pairs += [] if pair is None else [Dotted(pair, dot, digits)]
    if written.value.all_shown and written.value.all_shown.value:
        unmarked = (pair for pair in neighbours(reader.board) if pair not in taken)
        pairs += [Dotted(pair, "neither", digits) for pair in unmarked]
    return tuple(pairs)


def draw(board: Board, pairs: Sequence[Dotted]) -> tuple[Mark, ...]:
    """A badge for each dot."""
    return tuple(Badge(pair.relation, pair.cells) for pair in pairs if pair.relation != "neither")


def says(pairs: Sequence[Dotted]) -> tuple[Saying, ...]:
    """One sentence for each kind of dot, and one where neighbours have none."""
    relations = [pair.relation for pair in pairs]
    dots = tuple(Saying(f"dots-{dot}", relations.count(dot)) for dot in DOTS if dot in relations)
    return (*dots, Saying("dots-all-shown", everywhere=True)) if "neither" in relations else dots


RULE = Rule(
    name="dots",
    meaning=(
        "A white dot stands between consecutive digits, a black dot between a digit and its double."
    ),
    marks=(
        "`{consecutive: [r1c1 r1c2], ratio: [r1c2 r2c2], all-shown: true}`, or only some of these;"
        " with `all-shown` neighbours without a dot are neither"
    ),
    grammar=Entry(Written),
    make=make,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN}),
    example="""\
title: Terns, coots
kind: sudoku
size: 6
rules:
  dots:
    consecutive:
      - r1c1 r2c1
      - r1c3 r1c4
      - r1c3 r2c3
      - r3c1 r4c1
      - r3c2 r4c2
      - r3c3 r3c4
      - r4c1 r5c1
      - r5c1 r5c2
      - r5c2 r6c2
      - r5c3 r6c3
      - r6c4 r6c5
    ratio:
      - r1c5 r2c5
      - r2c2 r2c3
      - r2c3 r3c3
      - r3c4 r4c4
      - r4c5 r4c6
      - r4c5 r5c5
      - r5c4 r5c5
      - r5c6 r6c6
      - r6c1 r6c2
    all-shown: true
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
