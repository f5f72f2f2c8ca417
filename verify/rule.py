"""What a rule is to the rest of the house: its name, how it reads, means, says and draws.

Each rule is one file with one `RULE`. A *constraint* is one mark of a rule in one puzzle:
it says its meaning three times on purpose (clauses, holds, strikes), and the contract
tests hold the three against each other.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Any, Generic, Protocol, Self, TypeVar

from verify.board import Board, Cell
from verify.formula.formula import Formula
from verify.marks import Mark
from verify.move import Disguise, Move
from verify.pencil import Grid, Pencil, Strike
from verify.reading.grammar import Grammar, Placed
from verify.reading.node import Node
from verify.reading.reader import Reader


class Constraint(Protocol):
    """One mark: what it asks of the digits in its cells."""

    @property
    def cells(self) -> tuple[Cell, ...]:
        """The cells whose digits it speaks of."""
        ...

    def clauses(self, formula: Formula) -> None:
        """Adds what the formula must hold, compactly, over `formula.literal(cell, digit)`."""
        ...

    def holds(self, grid: Grid) -> bool:
        """Whether a complete grid keeps it: the plainest statement, to be checked by eye."""
        ...

    def strikes(self, pencil: Pencil) -> Iterable[Strike]:
        """The candidates that it removes by itself, each with its reason.

        Every strike follows from this constraint and the given marks alone, none from
        another strike of the same call. A cell may be left with no candidate at all.
        """
        ...

    def moved(self, move: Move) -> Self:
        """The same mark in a disguise that its rule survives."""
        ...


C = TypeVar("C", bound=Constraint)
M = TypeVar("M")
"""What the marks of a rule are read to."""


def always(constraint: Constraint, move: Move) -> bool:
    """That a mark stays readable in every disguise that its rule survives."""
    return True


@dataclass(frozen=True, slots=True)
class Saying:
    """A sentence to print: its key in the words file, how many marks it speaks of, and values.

    `digits` are digits that it names by their numbers; they are printed as the puzzle's symbols,
    in a list, where the sentence has `{chosen}`.

    `everywhere` where it speaks of cells without a mark, too: no mark in a grid shows then that
    it holds there, as one does for the sentence of a thermometer.
    """

    key: str
    count: int = 1
    values: tuple[tuple[str, str], ...] = ()
    digits: tuple[int, ...] = ()
    everywhere: bool = False


@dataclass(frozen=True, slots=True)
class Rule(Generic[M, C]):
    """A rule of the catalogue.

    `meaning` and `marks` say in a sentence what it asks for and how a manifest writes it.
    `grammar` reads its marks and has their JSON Schema; `make` turns what was read into
    constraints, and notes on the reader what it can't do with. `draw` gives the marks of all
    constraints of the rule in one puzzle. `says` gives the sentences for the rule text. `survives`
    names the disguises in which a grid keeps the rule just where it kept it before; `stays` says
    whether a mark also reads the same there, where the lie of its cells counts. `example` is a
    whole small manifest with one answer.
    """

    name: str
    meaning: str
    marks: str
    grammar: Grammar[M]
    make: Callable[[Placed[M], Reader], tuple[C, ...]]
    draw: Callable[[Board, Sequence[C]], tuple[Mark, ...]]
    says: Callable[[Sequence[C]], tuple[Saying, ...]]
    survives: frozenset[Disguise]
    example: str
    stays: Callable[[C, Move], bool] = always

    def read(self, node: Node, reader: Reader) -> tuple[C, ...]:
        """The constraints of its marks; every problem goes to the reader, with its place."""
        marks = self.grammar.read(node, reader)
        return () if marks is None else self.make(Placed(node.place, marks), reader)


@dataclass(frozen=True, slots=True)
class Use(Generic[C]):
    """A rule as one puzzle uses it."""

    rule: Rule[Any, C]
    constraints: tuple[C, ...]

    def marks(self, board: Board) -> tuple[Mark, ...]:
        """What is to be drawn for it."""
        return self.rule.draw(board, self.constraints)

    def sayings(self) -> tuple[Saying, ...]:
        """What is to be said of it."""
        return self.rule.says(self.constraints)
