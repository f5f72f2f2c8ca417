"""Lines through cells: what the rules whose marks are paths have in common."""

from collections.abc import Iterator, Mapping
from typing import Final

from verify.board import Cell
from verify.pencil import Mask, Pencil, Strike
from verify.reading.node import Node
from verify.reading.reader import Reader

_COUNTS: Final = {1: "one cell", 2: "two cells", 3: "three cells"}


def read_lines(
    node: Node, reader: Reader, least: int = 2, most: int | None = None
) -> list[tuple[Cell, ...]]:
    """The paths of a list, each of `least` cells or more.

    `most` is set where no more cells than that, the number of digits, can keep the rule.
    """
    return [line for _, line in each_line(node, reader, least, most)]


def each_line(
    node: Node, reader: Reader, least: int = 2, most: int | None = None
) -> Iterator[tuple[Node, tuple[Cell, ...]]]:
    """The same paths, each with its node, for a rule that asks more of them."""
    for item in reader.each(node, "a list of paths"):
        path = reader.path(item)
        if path is None:
            continue
        found = f"a path of {count_of(len(path))}"
        if len(path) < least:
            reader.problems.expected(item.place, found, f"{count_of(least)} or more")
        elif most is not None and len(path) > most:
            expected = f"at most {most}, as many as there are digits"
            reader.problems.expected(item.place, found, expected)
        else:
            yield item, path


def count_of(cells: int) -> str:
    """How many cells, for a sentence to an editor."""
    return _COUNTS.get(cells, f"{cells} cells")


def unkept(kept: Mapping[Cell, Mask], pencil: Pencil) -> Iterator[Strike]:
    """Strikes all candidates but those kept; the reason is all of these cells together."""
    because = tuple(kept)
    for cell, mask in kept.items():
        struck = pencil[cell] & ~mask
        if struck:
            yield Strike(((cell, struck),), because)
