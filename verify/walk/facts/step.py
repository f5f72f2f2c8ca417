"""A step of a walk: what it places and strikes, by which technique, and the reasons."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum
from typing import Final

from verify.board import Cell
from verify.pencil import Mask
from verify.rule import Constraint


class Technique(Enum):
    """What a solver does, by the names of the textbooks; the value is that name."""

    LAST_CELL = "last cell"
    HIDDEN_SINGLE = "hidden single"
    NAKED_SINGLE = "naked single"
    MARK = "mark alone"
    LOCKED = "locked candidates"
    NAKED_PAIR = "naked pair"
    HIDDEN_PAIR = "hidden pair"
    ARRANGEMENTS = "arrangements"
    ORDER = "order within a house"
    NAKED_TRIPLE = "naked triple"
    HIDDEN_TRIPLE = "hidden triple"
    HOUSE_SUM = "house sum"
    TWO_LINE_FISH = "two-line fish"
    NAKED_QUAD = "naked quad"
    HIDDEN_QUAD = "hidden quad"
    WING = "wing"
    COLOUR_CHAIN = "colour chain"
    THREE_LINE_FISH = "three-line fish"
    SHORT_IF = "short if"
    FOUR_LINE_FISH = "four-line fish"
    LONG_IF = "long if"
    EITHER_WAY = "either way"
    DEEP_IF = "deep if"


class Kind(Enum):
    """What a step is to a listener; the value is the word for it."""

    PLACEMENT = "placement"
    PUSH = "push"
    SUM = "sum"
    PLACES = "places"
    SETS = "sets"
    PATTERN = "pattern"
    SUPPOSITION = "supposition"


_KINDS: Final = {
    "single": Kind.PLACEMENT,
    "cell": Kind.PLACEMENT,
    "candidates": Kind.PLACES,
    "pair": Kind.SETS,
    "triple": Kind.SETS,
    "quad": Kind.SETS,
    "sum": Kind.SUM,
    "fish": Kind.PATTERN,
    "wing": Kind.PATTERN,
    "chain": Kind.PATTERN,
    "if": Kind.SUPPOSITION,
    "way": Kind.SUPPOSITION,
}
"""By the last word of a technique; all others push."""


def kind_of(technique: Technique) -> Kind:
    """What the steps of a technique are."""
    return _KINDS.get(technique.value.rpartition(" ")[2], Kind.PUSH)


PLAIN_SINGLES: Final = frozenset(
    {Technique.LAST_CELL, Technique.HIDDEN_SINGLE, Technique.NAKED_SINGLE}
)
"""What places a digit by looking."""


@dataclass(frozen=True, slots=True)
class House:
    """Cells of which no two hold the same digit; `full` where every digit stands in them."""

    kind: str
    cells: tuple[Cell, ...]
    full: bool


@dataclass(frozen=True, slots=True)
class Link:
    """A mark of a rule, with the rule's name."""

    rule: str
    constraint: Constraint


@dataclass(frozen=True, slots=True)
class Because:
    """All that a step rests on: the marks of these cells, these houses, these marks of rules.

    `cells` are the cells whose pencil marks count, in reading order; `digits` are the digits
    that the step is about.
    """

    cells: tuple[Cell, ...] = ()
    digits: Mask = 0
    houses: tuple[House, ...] = ()
    links: tuple[Link, ...] = ()


@dataclass(frozen=True, slots=True)
class Consequence:
    """In an "if": a digit that must then stand in a cell.

    It is the only place in `house`, or all that is left there: then `links` are the marks that
    took the last digits which were there before. What is supposed has neither.
    """

    cell: Cell
    digit: int
    house: House | None = None
    links: tuple[Link, ...] = ()


@dataclass(frozen=True, slots=True)
class DeadEnd:
    """Where an "if" ends: a cell without a digit, or with a digit that it must and can't take.

    With a house it is the digit that has no cell left there, and `cell` is None.
    """

    cell: Cell | None = None
    digit: int = 0
    house: House | None = None

    @property
    def place(self) -> tuple[Cell | None, int]:
        """The cell, and the digit that it must and can't take."""
        return self.cell, self.digit


@dataclass(frozen=True, slots=True)
class Aside:
    """In a deep "if": what is supposed in turn, where it leads, and so is not so either.

    `after` is how many digits of the outer chain stand by then, the supposed one among them.
    """

    after: int
    chain: tuple[Consequence, ...]
    dead_end: DeadEnd


@dataclass(frozen=True, slots=True)
class Step:
    """One step: digits placed, candidates struck, and why.

    `rule` names the rule whose mark is at work, or is empty. For an "if", `chain` holds what
    is supposed and what follows from it, one after the other, and `dead_end` the contradiction;
    `asides` are the shorter ones made on its way.
    For "either way", `ways` holds such a chain for each way, of which one must be right.
    Of what is supposed, `counts` are the digits that must be missing from cells for it to lead so.
    `depth` is how many rounds of consequences are followed.
    For a house sum, `summed` holds the houses whose sum is used; the other ones only say which
    cells differ.
    """

    technique: Technique
    because: Because
    places: tuple[tuple[Cell, int], ...] = ()
    removes: tuple[tuple[Cell, Mask], ...] = ()
    rule: str = ""
    chain: tuple[Consequence, ...] = ()
    dead_end: DeadEnd | None = None
    asides: tuple[Aside, ...] = ()
    ways: tuple[tuple[Consequence, ...], ...] = ()
    summed: tuple[House, ...] = ()
    counts: tuple[tuple[Cell, Mask], ...] = ()
    depth: int = 0


def unexplained(technique: Technique, cell: Cell, mask: Mask, depth: int) -> Step:
    """A step without its reasons, for those who only count it."""
    return Step(technique, Because(), removes=((cell, mask),), depth=depth)


def cells_touched(steps: Iterable[Step]) -> frozenset[Cell]:
    """The cells that take a digit or lose candidates."""
    return frozenset(cell for step in steps for cell, _ in (*step.places, *step.removes))
