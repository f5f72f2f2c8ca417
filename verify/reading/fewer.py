"""What marks are with one thing less: a list without an item, a path without an end.

Nodes in, nodes out. What is left may be no mark at all, as a cage of no cells is none: whoever
asks reads it as any other and looks at the problems.
"""

from collections.abc import Callable, Container, Iterable, Iterator
from dataclasses import dataclass, replace
from typing import TypeAlias

from verify.reading.node import Fields, Items, Node, Place, Text
from verify.reading.problems import Problems
from verify.reading.reader import Reader


@dataclass(frozen=True, slots=True)
class Fewer:
    """A node with one thing less.

    `lacks` names it as the manifest does: a cell, the key of a field, an item's own text; nothing
    where a whole item is gone, or a word stands in another's place. `place` is where it stood.
    """

    node: Node
    lacks: str
    place: Place


Ways: TypeAlias = Callable[[Node], Iterator[Fewer]]
"""What a node inside another can lose."""


def none_fewer(reader: Reader, node: Node) -> Iterator[Fewer]:
    """Nothing: what is a single value is there or not."""
    return iter(())


def fewer_of_path(reader: Reader, node: Node) -> Iterator[Fewer]:
    """The path without its last cell, then without its first."""
    cells = Reader(reader.board, Problems()).path(node) or ()
    if len(cells) > 1:
        for lacks, rest in ((cells[-1], cells[:-1]), (cells[0], cells[1:])):
            yield Fewer(_cells(reader, node, rest), reader.board.name(lacks), node.place)


def fewer_of_group(reader: Reader, node: Node) -> Iterator[Fewer]:
    """The group without each of its cells."""
    cells = Reader(reader.board, Problems()).group(node) or ()
    if len(cells) > 1:
        for lacks in cells:
            rest = [cell for cell in cells if cell != lacks]
            yield Fewer(_cells(reader, node, rest), reader.board.name(lacks), node.place)


def _cells(reader: Reader, node: Node, cells: Iterable[int]) -> Items:
    """Cells as a list, where the node stood."""
    return Items(node.place, tuple(_word(node.place, reader.board.name(cell)) for cell in cells))


def _word(place: Place, text: str) -> Text:
    return Text(place, text, ((place, text),))


def other_words(node: Node, words: Iterable[str]) -> Iterator[Fewer]:
    """Each word but the one that stands there: one of them may say less."""
    for word in words:
        if isinstance(node, Text) and node.text != word:
            yield Fewer(_word(node.place, word), "", node.place)


def each_left_out(node: Node) -> Iterator[Fewer]:
    """A list without each of its items, where there are several."""
    if isinstance(node, Items) and len(node.items) > 1:
        for at, item in enumerate(node.items):
            rest = replace(node, items=(*node.items[:at], *node.items[at + 1 :]))
            yield Fewer(rest, item.text if isinstance(item, Text) else "", item.place)


def each_changed(node: Node, ways: Ways) -> Iterator[Fewer]:
    """A list in which one item has something less."""
    if isinstance(node, Items):
        for at, item in enumerate(node.items):
            for fewer in ways(item):
                items = (*node.items[:at], fewer.node, *node.items[at + 1 :])
                yield replace(fewer, node=replace(node, items=items))


def field_left_out(node: Node, names: Container[str]) -> Iterator[Fewer]:
    """A mapping without each of these fields, where another is left."""
    if isinstance(node, Fields) and len(node.entries) > 1:
        for key, _ in node.entries:
            if key.text in names:
                rest = tuple(entry for entry in node.entries if entry[0] != key)
                yield Fewer(replace(node, entries=rest), key.text, key.place)


def field_changed(node: Node, name: str, ways: Ways) -> Iterator[Fewer]:
    """A mapping in which one field has something less."""
    value = node.get(name) if isinstance(node, Fields) else None
    if isinstance(node, Fields) and value is not None:
        for fewer in ways(value):
            yield replace(fewer, node=with_field(node, name, fewer.node))


def with_field(fields: Fields, name: str, value: Node | None) -> Fields:
    """A mapping whose field has another value; without the field where that is None."""
    entries = ((key, value if key.text == name else old) for key, old in fields.entries)
    return replace(fields, entries=tuple((key, new) for key, new in entries if new is not None))
