"""Cells that share an edge: how the rules with marks on edges read and relate them."""

from collections.abc import Callable, Iterator, Sequence
from typing import Any, Final, TypeAlias

from verify.board import Board, Cell
from verify.move import Move
from verify.pencil import bit
from verify.reading.node import Fields, Node, describe
from verify.reading.reader import Reader
from verify.reading.schema import GROUP, Schema
from verify.rules.workings.pairs import Partners

Pair: TypeAlias = tuple[Cell, Cell]
"""Two cells that share an edge, the upper or left one first."""

PAIRS: Final[Schema] = {"type": "array", "items": GROUP, "minItems": 1}


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


def read_some(node: Node, reader: Reader, known: Sequence[str]) -> Fields | None:
    """A mapping with one or more of the known keys."""
    if isinstance(node, Fields) and node.entries:
        return reader.fields(node, (), known)
    *others, last = known
    expected = f"a mapping with {', '.join(others)} or {last}"
    reader.problems.expected(node.place, describe(node), expected)
    return None


def read_pairs(node: Node, reader: Reader, taken: set[Pair]) -> list[Pair]:
    """The pairs of a list, none of them taken before; each is taken then."""
    items = reader.each(node, "a list of pairs such as r1c1 r1c2")
    pairs = (_read_pair(item, reader, taken) for item in items)
    return [pair for pair in pairs if pair is not None]


def read_numbered(
    node: Node, reader: Reader, key: str, bounds: tuple[int, int], what: str
) -> dict[Pair, int]:
    """The number of each pair in a list of `{pair: r1c1 r1c2, KEY: N}`.

    `bounds` are the least and the largest number, and `what` names it: "the sum of two digits".
    """
    numbered: dict[Pair, int] = {}
    taken: set[Pair] = set()
    for item in reader.each(node, f"a list of marks such as {{pair: r1c1 r1c2, {key}: 5}}"):
        fields = reader.fields(item, ["pair", key])
        pair_node, number_node = (fields.get("pair"), fields.get(key)) if fields else (None, None)
        if pair_node is None or number_node is None:
            continue
        pair = _read_pair(pair_node, reader, taken)
        number = reader.whole(number_node, *bounds, what)
        if pair is not None and number is not None:
            numbered[pair] = number
    return numbered


def numbered_schema(key: str, least: int) -> dict[str, Any]:
    """The schema of what `read_numbered` reads."""
    return {
        "type": "array",
        "items": {
            "type": "object",
            "properties": {"pair": GROUP, key: {"type": "integer", "minimum": least}},
            "required": ["pair", key],
            "additionalProperties": False,
        },
        "minItems": 1,
    }


def _read_pair(node: Node, reader: Reader, taken: set[Pair]) -> Pair | None:
    cells = reader.group(node)
    if cells is None:
        return None
    board = reader.board
    names = " ".join(map(board.name, cells)) if len(cells) <= 2 else f"{len(cells)} cells"
    if len(cells) != 2 or not board.share_edge(*cells):
        expected = "two cells that share an edge, such as r1c1 r1c2"
        reader.problems.expected(node.place, names, expected)
        return None
    pair = (cells[0], cells[1])
    if pair in taken:
        reader.problems.expected(node.place, f"{names} a second time", "one mark between two cells")
        return None
    taken.add(pair)
    return pair
