"""Cells that share an edge: how the rules with marks on edges read and relate them."""

from collections.abc import Callable, Iterable, Iterator
from typing import Final, TypeAlias

from verify.board import Board, Cell
from verify.move import Move
from verify.pencil import bit
from verify.reading.grammar import GROUP, Cells, Listed, Part, Placed
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.rules.workings.pairs import Partners

Pair: TypeAlias = tuple[Cell, Cell]
"""Two cells that share an edge, the upper or left one first."""

PAIRS: Final = Listed(GROUP, "a list of pairs such as r1c1 r1c2")


def neighbours(board: Board) -> Iterator[Pair]:
    """Every two cells of the board that share an edge."""
    for cell in board.cells:
        for direction in ("e", "s"):
            beside = board.step(cell, direction)
            if beside is not None:
                yield cell, beside


def partners(digits: int, related: Callable[[int, int], bool]) -> Partners:
    """A relation as a table: for each digit up to `digits`, those that stand in it."""
    every = range(1, digits + 1)
    return (0, *(sum(bit(other) for other in every if related(one, other)) for one in every))


def moved_pair(pair: Pair, move: Move) -> Pair:
    """The pair in a disguise."""
    one, other = sorted(move.all(pair))
    return one, other


def new_pair(cells: Part[Cells], taken: set[Pair], reader: Reader) -> Pair | None:
    """Two neighbours that are not taken yet; they are taken then."""
    if cells.value is None:
        return None
    board = reader.board
    count = len(cells.value)
    names = " ".join(map(board.name, cells.value)) if count <= 2 else f"{count} cells"
    if count != 2 or not board.share_edge(*cells.value):
        expected = "two cells that share an edge, such as r1c1 r1c2"
        reader.problems.expected(cells.place, names, expected)
        return None
    pair = (cells.value[0], cells.value[1])
    if pair in taken:
        found = f"{names} a second time"
        reader.problems.expected(cells.place, found, "one mark between two cells")
        return None
    taken.add(pair)
    return pair


def numbered_pairs(
    marks: Iterable[tuple[Part[Cells], Placed[Node]]],
    reader: Reader,
    bounds: tuple[int, int],
    what: str,
) -> dict[Pair, int]:
    """The number of each pair, from the cells and the number of each mark.

    `bounds` are the least and the largest number, and `what` names it: "the sum of two digits".
    """
    numbered: dict[Pair, int] = {}
    taken: set[Pair] = set()
    for cells, node in marks:
        pair = new_pair(cells, taken, reader)
        number = reader.whole(node.value, *bounds, what)
        if pair is not None and number is not None:
            numbered[pair] = number
    return numbered
