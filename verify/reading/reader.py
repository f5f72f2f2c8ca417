"""Turns nodes into cells, paths, groups and numbers, and notes what can't be read."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from verify.board import Board, Cell
from verify.reading.node import Fields, Node, Place, Text
from verify.reading.problems import Problems


@dataclass(frozen=True, slots=True)
class Reader:
    """Reads the marks of rules on one board; every problem goes to `problems`.

    Each reader returns None (or leaves the item out) where it has noted a problem.
    """

    board: Board
    problems: Problems

    def flag(self, node: Node) -> bool:
        """`true`, for a rule that takes no marks."""
        raise NotImplementedError

    def each(self, node: Node, expected: str) -> Sequence[Node]:
        """The items of a list; `expected` names the list in a problem: "a list of paths"."""
        raise NotImplementedError

    def fields(
        self, node: Node, required: Iterable[str], optional: Iterable[str] = ()
    ) -> Fields | None:
        """A mapping that has every required key and no unknown one."""
        raise NotImplementedError

    def cell(self, node: Node) -> Cell | None:
        """One cell: `r4c7`."""
        raise NotImplementedError

    def cell_at(self, place: Place, word: str) -> Cell | None:
        """The cell that a word names, where the word stands inside a longer text."""
        raise NotImplementedError

    def path(self, node: Node) -> tuple[Cell, ...] | None:
        """Cells in order, each touching the one before, none twice: a list or a trail."""
        raise NotImplementedError

    def group(self, node: Node) -> tuple[Cell, ...] | None:
        """Cells in no order, sorted, none twice: a list, a trail, or rectangles."""
        raise NotImplementedError

    def whole(self, node: Node, low: int, high: int, what: str) -> int | None:
        """A whole number from `low` to `high`; `what` names it: "the sum of a cage"."""
        raise NotImplementedError

    def choice(self, node: Node, choices: Iterable[str], what: str) -> str | None:
        """One of some words."""
        raise NotImplementedError

    def word_places(self, text: Text) -> tuple[tuple[Place, str], ...]:
        """The words of a text, each with its own place."""
        raise NotImplementedError
