"""The canonical form: one text for a puzzle and all its disguises, another for any other puzzle.

A puzzle with its answer is drawn as a graph with coloured nodes, in which the disguises that its
rules survive are exactly the ways of laying it on itself. The form is the smallest description of
that graph over the orders of nodes that a refinement of the colours leaves: nodes are told apart
by their neighbours for as long as that works, and where it does not, one node after another is
singled out (the scheme of B. D. McKay, "Practical graph isomorphism", 1981; from memory).

A puzzle that can be laid on itself in thousands of ways, such as a cyclic square with most of its
digits given, would be searched for hours. So the search is bounded by what it looks at, and what
takes more has a coarse form: the description as it stands before any node is singled out. What
is looked at does not depend on the order in which nodes are numbered, so of all disguises of a
puzzle either each has its own form, the same for all, or each has its coarse form, the same for
all. Two different puzzles may share a coarse one: they count as one puzzle, so that one of them
is refused rather than any printed twice.
"""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from hashlib import sha256
from itertools import pairwise
from typing import Final, TypeAlias, TypeVar

from verify.board import Cell
from verify.disguise.forms import LAID_ON_THEIR_SIDE, survived
from verify.move import Disguise
from verify.pencil import Grid
from verify.puzzle import Puzzle

Key = TypeVar("Key", int, tuple[str, ...], tuple[int, tuple[int, ...]])

Colours: TypeAlias = list[int]
"""A colour for each node; nodes with a smaller colour come first."""

Description: TypeAlias = tuple[tuple[tuple[int, tuple[int, ...]], tuple[str, ...]], ...]

MOST_LOOKED_AT: Final = 1_000_000
"""Nodes that a search looks at, each as often as it does: some three seconds.

A board of 9x9 whose cells are soon told apart takes some thousands."""

LINE: Final = "line"
"""What a row and a column are: a turn makes one the other."""


@dataclass(slots=True)
class Graph:
    """Nodes from 0, what each is, and its neighbours."""

    kinds: list[tuple[str, ...]] = field(default_factory=list)
    near: list[list[int]] = field(default_factory=list)

    def node(self, *kind: str) -> int:
        """A new node of a kind."""
        self.kinds.append(kind)
        self.near.append([])
        return len(self.kinds) - 1

    def join(self, one: int, others: Iterable[int]) -> None:
        """Edges from one node to others."""
        for other in others:
            self.near[one].append(other)
            self.near[other].append(one)


class _TooLong(Exception):  # noqa: N818 - not an error: the form is a coarse one
    """A search has looked at more nodes than it may."""


@dataclass(slots=True)
class _Purse:
    """How many nodes a search may still look at."""

    left: int

    def spend(self, nodes: int) -> None:
        """Takes some; raises _TooLong where there are not as many."""
        self.left -= nodes
        if self.left < 0:
            raise _TooLong


def canonical(puzzle: Puzzle, answer: Grid) -> str:
    """64 hexadecimal figures, the same for every disguise of a puzzle that its rules survive.

    Marks count by their rule and their cells; what stands on them follows from the answer.
    Another puzzle has others, unless both have a coarse form; see the head of this module.
    """
    graph = _graph(puzzle, answer)
    colours = _refined(graph, _ranks(graph.kinds))
    return sha256(repr(_form(graph, colours)).encode()).hexdigest()


def _form(graph: Graph, colours: Colours) -> object:
    """The smallest description, or the coarse one under a name that no other form has."""
    try:
        return _smallest(graph, colours, _Purse(MOST_LOOKED_AT))
    except _TooLong:
        return "coarse", _described(graph, colours)


def _graph(puzzle: Puzzle, answer: Grid) -> Graph:
    """Cells with their digits and marks, and as much of the board as disguises leave as it is."""
    graph, kinds, board = Graph(), survived(puzzle), puzzle.board
    alike = kinds & {Disguise.RELABEL, Disguise.REVERSE}
    digits = [graph.node("digit", "" if alike else str(d)) for d in range(1, board.digits + 1)]
    if Disguise.RELABEL not in kinds:
        for one, other in pairwise(digits):
            graph.join(one, [other])
    cells = {cell: graph.node("given" if puzzle.givens[cell] else "open") for cell in board.cells}
    for cell, node in cells.items():
        graph.join(node, [digits[answer[cell] - 1]])
    if Disguise.SHUFFLE not in kinds:
        _join_neighbours(graph, puzzle, cells)
    for (name, marked), count in sorted(_marks(puzzle).items()):
        graph.join(graph.node("mark", name, str(count)), [cells[cell] for cell in marked])
    return graph


def _marks(puzzle: Puzzle) -> Counter[tuple[str, tuple[Cell, ...]]]:
    """How often a rule marks the same cells: nothing tells such marks apart, so they are one."""
    return Counter(
        (LINE if use.rule.name in LAID_ON_THEIR_SIDE else use.rule.name, tuple(sorted(mark.cells)))
        for use in puzzle.uses
        for mark in use.constraints
    )


def _join_neighbours(graph: Graph, puzzle: Puzzle, cells: dict[int, int]) -> None:
    """An edge between cells that share one: what only a turn leaves as it is."""
    for cell, node in cells.items():
        after = (puzzle.board.step(cell, direction) for direction in ("e", "s"))
        graph.join(node, [cells[each] for each in after if each is not None])


def _ranks(keys: Sequence[Key]) -> Colours:
    """Equal keys get one colour; colours follow the order of the keys."""
    order = {key: rank for rank, key in enumerate(sorted(set(keys)))}
    return [order[key] for key in keys]


def _refined(graph: Graph, colours: Colours, allowance: _Purse | None = None) -> Colours:
    """Nodes told apart by the colours of their neighbours, until nothing more is told apart.

    Raises _TooLong where that takes more than is in the allowance.
    """
    while True:
        if allowance is not None:
            allowance.spend(len(colours))
        finer = _ranks(_surroundings(graph, colours))
        if max(finer) == max(colours):
            return colours
        colours = finer


def _surroundings(graph: Graph, colours: Colours) -> list[tuple[int, tuple[int, ...]]]:
    """For each node its colour and those of its neighbours."""
    return [
        (colours[node], tuple(sorted([colours[other] for other in near])))
        for node, near in enumerate(graph.near)
    ]


def _smallest(graph: Graph, colours: Colours, allowance: _Purse) -> Description:
    """The smallest description of the graph, over the nodes that may be singled out next.

    Raises _TooLong where that takes more than is in the allowance.
    """
    counted = Counter(colours)
    if len(counted) == len(colours):
        return _described(graph, colours)
    chosen = min((count, colour) for colour, count in counted.items() if count > 1)[1]
    alike = [node for node, colour in enumerate(colours) if colour == chosen]
    return min(
        _smallest(graph, each, allowance) for each in _followed(graph, colours, alike, allowance)
    )


def _followed(
    graph: Graph, colours: Colours, alike: Sequence[int], allowance: _Purse
) -> list[Colours]:
    """Nodes singled out, each by itself, and what that tells apart.

    Of nodes that share a colour only those are followed whose colours, once they are singled
    out, describe the graph as small as any: with all nodes told apart that is all of the graph.
    """
    best: Description | None = None
    kept: list[Colours] = []
    for node in alike:
        finer = _refined(graph, _singled_out(colours, node), allowance)
        described = _described(graph, finer)
        if best is None or described < best:
            best, kept = described, []
        if described == best:
            kept.append(finer)
    return kept


def _singled_out(colours: Colours, node: int) -> Colours:
    """A node put just before the others of its colour."""
    doubled = [2 * colour for colour in colours]
    doubled[node] -= 1
    return _ranks(doubled)


def _described(graph: Graph, colours: Colours) -> Description:
    """Every node, by what it is, its colour and its neighbours, in the order of the colours."""
    kinds = zip(_surroundings(graph, colours), graph.kinds, strict=True)
    return tuple(sorted(kinds))
