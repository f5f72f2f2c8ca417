"""How marks are written: of each way one value, which reads it on a board and has its JSON Schema.

A rule names the grammar of its marks once. What its marks are then reads as it is written:
`Listed(GROUP, "a list of groups")`. Values keep their places, so that a rule which asks more
of them can say where it was let down.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial
from typing import Any, Final, Generic, Protocol, TypeAlias, TypeVar

from verify.board import Cell
from verify.reading.fewer import (
    Fewer,
    each_changed,
    each_left_out,
    fewer_of_group,
    fewer_of_path,
    field_changed,
    field_left_out,
    none_fewer,
    other_words,
)
from verify.reading.node import Fields, Items, Node, Place, describe
from verify.reading.outside import Line
from verify.reading.reader import Reader
from verify.reading.record import Readable, Schema, keys_of, object_schema

T = TypeVar("T")
T_co = TypeVar("T_co", covariant=True)
S = TypeVar("S")


class Grammar(Readable[Reader, T_co], Protocol[T_co]):
    """How marks that are read to a `T` are written."""

    def fewer(self, node: Node, reader: Reader) -> Iterator[Fewer]:
        """The node with one thing less, each in its turn.

        A list lacks an item, a mapping a field that may be missing, a path an end, a group a cell.
        Whether that can be read, and what it means, is not asked here.
        """
        ...


_CELL: Final = "[rR][0-9]+[cC][0-9]+"
_STEP: Final = "[0-9]*([nNsS][eEwW]?|[eEwW])"
_TRAIL: Final = rf"^\s*{_CELL}(\s+({_CELL}|{_STEP}))*\s*$"
_CELLS: Final = rf"{_CELL}(\.\.{_CELL})?"
_GROUP: Final = rf"^\s*{_CELLS}(\s+({_CELLS}|{_STEP}))*\s*$"


@dataclass(frozen=True, slots=True)
class Placed(Generic[T_co]):
    """A value, and where it stands in the file."""

    place: Place
    value: T_co


Cells: TypeAlias = tuple[Cell, ...]

Each: TypeAlias = tuple[Placed[T], ...]
"""The values of a list, each with its place."""

Several: TypeAlias = Placed[Each[T]]
"""The same, and the place of the list."""

Part: TypeAlias = Placed[T | None]
"""A part of a mark; None where it could not be read."""

Seen: TypeAlias = tuple[tuple[Line, Placed[T]], ...]
"""What is seen from each place outside, and the clue there."""


@dataclass(frozen=True, slots=True)
class Leaf(Generic[T]):
    """What has no parts: the method of a reader that reads it, and its JSON Schema."""

    read_by: Callable[[Reader, Node], T | None]
    json_schema: Schema
    fewer_by: Callable[[Reader, Node], Iterator[Fewer]] = none_fewer

    def read(self, node: Node, reader: Reader) -> T | None:
        """The value, or None where a problem was noted."""
        return self.read_by(reader, node)

    def fewer(self, node: Node, reader: Reader) -> Iterator[Fewer]:
        """What its kind can lose."""
        return self.fewer_by(reader, node)

    def schema(self) -> Schema:
        """Its JSON Schema."""
        return self.json_schema


def _itself(reader: Reader, node: Node) -> Node:
    """The node as it stands."""
    return node


def as_written(schema: Schema) -> Leaf[Node]:
    """What a rule reads itself: its bounds hang on the board, or on the rest of its mark."""
    return Leaf(_itself, schema)


def whole_from(least: int, most: int | None = None) -> Leaf[Node]:
    """A whole number, which a rule reads with `Reader.whole` once it knows the bounds."""
    bounds = {"minimum": least} if most is None else {"minimum": least, "maximum": most}
    return as_written({"type": "integer", **bounds})


def _flag(reader: Reader, node: Node) -> bool | None:
    """True, or None where it says anything else."""
    return reader.flag(node) or None


FLAG: Final[Leaf[bool]] = Leaf(_flag, {"const": True})
"""`true`, for a rule without marks."""

CELL: Final[Leaf[Cell]] = Leaf(Reader.cell, {"type": "string", "pattern": f"^{_CELL}$"})

PATH: Final[Leaf[Cells]] = Leaf(
    Reader.path,
    {
        "description": "cells in order: a list, or a trail such as r9c2 3n ne",
        "oneOf": [
            {"type": "string", "pattern": _TRAIL},
            {"type": "array", "items": CELL.schema(), "minItems": 1},
        ],
    },
    fewer_of_path,
)

GROUP: Final[Leaf[Cells]] = Leaf(
    Reader.group,
    {
        "description": "cells in no order: a list, a trail, or rectangles such as r1c1..r2c3",
        "oneOf": [
            {"type": "string", "pattern": _GROUP},
            {"type": "array", "items": {"type": "string", "pattern": _GROUP}, "minItems": 1},
        ],
    },
    fewer_of_group,
)


@dataclass(frozen=True, slots=True)
class Word:
    """One of some words; `what` names them in a problem: "which diagonals"."""

    words: tuple[str, ...]
    what: str

    def read(self, node: Node, reader: Reader) -> str | None:
        """The word."""
        return reader.choice(node, self.words, self.what)

    def fewer(self, node: Node, reader: Reader) -> Iterator[Fewer]:
        """Each of the other words."""
        return other_words(node, self.words)

    def schema(self) -> Schema:
        """An enumeration."""
        return {"enum": list(self.words)}


@dataclass(frozen=True, slots=True)
class Listed(Generic[T]):
    """A list, each item of it read alike; `what` names it in a problem: "a list of paths".

    `most` is only told to an editor's program: a rule says better why it wants no more.
    """

    item: Grammar[T]
    what: str
    most: int | None = None

    def read(self, node: Node, reader: Reader) -> Each[T] | None:
        """The items that could be read."""
        values = [
            (each.place, self.item.read(each, reader)) for each in reader.each(node, self.what)
        ]
        return tuple(Placed(place, value) for place, value in values if value is not None)

    def fewer(self, node: Node, reader: Reader) -> Iterator[Fewer]:
        """An item less, or something less in an item."""
        yield from each_left_out(node)
        yield from each_changed(node, lambda item: self.item.fewer(item, reader))

    def schema(self) -> Schema:
        """An array that is not empty."""
        most = {} if self.most is None else {"maxItems": self.most}
        return {"type": "array", "items": self.item.schema(), "minItems": 1, **most}


@dataclass(frozen=True, slots=True)
class Together(Generic[T]):
    """A list of two items or more that belong together: none of them is left out.

    `what` names the list in a problem; what to say of a single item is left to the rule.
    """

    item: Grammar[T]
    what: str

    def read(self, node: Node, reader: Reader) -> tuple[Part[T], ...] | None:
        """Every item; the value of one that could not be read is None."""
        items = reader.each(node, self.what)
        return tuple(Placed(each.place, self.item.read(each, reader)) for each in items) or None

    def fewer(self, node: Node, reader: Reader) -> Iterator[Fewer]:
        """An item less, or something less in an item."""
        yield from each_left_out(node)
        yield from each_changed(node, lambda item: self.item.fewer(item, reader))

    def schema(self) -> Schema:
        """An array of two items or more."""
        return {"type": "array", "items": self.item.schema(), "minItems": 2}


@dataclass(frozen=True, slots=True)
class Entry(Generic[T]):
    """A mapping with the keys of a dataclass, whose fields are `Part`s.

    A field with a default may be left out; of a mapping without required fields one must be there.
    """

    kind: type[T]

    def read(self, node: Node, reader: Reader) -> T | None:
        """The dataclass, or None where a required key is missing.

        The value of a part that could not be read is None.
        """
        known = keys_of(self.kind)
        fields = self._fields(node, reader)
        if fields is None:
            return None
        parts = {
            known[key.text].field.name: Placed(
                value.place, known[key.text].value.read(value, reader)
            )
            for key, value in fields.entries
        }
        return self.kind(**parts)

    def fewer(self, node: Node, reader: Reader) -> Iterator[Fewer]:
        """A field less that may be missing, or something less in a field."""
        known = keys_of(self.kind)
        yield from field_left_out(node, [name for name, key in known.items() if not key.required])
        for name, key in known.items():
            value: Any = key.value
            yield from field_changed(node, name, partial(value.fewer, reader=reader))

    def schema(self) -> Schema:
        """An object of these keys and no others."""
        schema = object_schema(self.kind)
        if schema["required"]:
            return schema
        return {
            **{key: schema[key] for key in ("type", "properties")},
            "minProperties": 1,
            "additionalProperties": False,
        }

    def _fields(self, node: Node, reader: Reader) -> Fields | None:
        """The mapping, where it has the keys that it must have."""
        known = keys_of(self.kind)
        required = [name for name, key in known.items() if key.required]
        if required or (isinstance(node, Fields) and node.entries):
            return reader.fields(node, required, [key for key in known if key not in required])
        *others, last = known
        expected = f"a mapping with {', '.join(others)} or {last}"
        reader.problems.expected(node.place, describe(node), expected)
        return None


@dataclass(frozen=True, slots=True)
class Either(Generic[T, S]):
    """The one where a mapping stands, the other where anything else does."""

    plain: Grammar[T]
    mapping: Grammar[S]

    def read(self, node: Node, reader: Reader) -> T | S | None:
        """The value of the one or the other."""
        return self._for(node).read(node, reader)

    def fewer(self, node: Node, reader: Reader) -> Iterator[Fewer]:
        """What the one or the other can lose."""
        return self._for(node).fewer(node, reader)

    def _for(self, node: Node) -> Grammar[T] | Grammar[S]:
        return self.mapping if isinstance(node, Fields) else self.plain

    def schema(self) -> Schema:
        """Both."""
        return {"anyOf": [self.plain.schema(), self.mapping.schema()]}


@dataclass(frozen=True, slots=True)
class OneOrMore:
    """An item, or a list of such items; a rule reads each of them itself.

    `what` names both in a problem, for an empty list; without it that is read as an item, which
    it can't be.
    """

    item: Leaf[Node]
    what: str = ""

    def read(self, node: Node, reader: Reader) -> tuple[Node, ...] | None:
        """The items."""
        if self.what and isinstance(node, Items):
            return tuple(reader.each(node, self.what)) or None
        return node.items if isinstance(node, Items) and node.items else (node,)

    def fewer(self, node: Node, reader: Reader) -> Iterator[Fewer]:
        """An item less."""
        return each_left_out(node)

    def schema(self) -> Schema:
        """The item, or an array that is not empty."""
        item = self.item.schema()
        return {"anyOf": [item, {"type": "array", "items": item, "minItems": 1}]}


@dataclass(frozen=True, slots=True)
class Clues(Generic[T]):
    """A mapping from places outside the board to clues."""

    clue: Grammar[T]
    diagonal: bool = False

    def read(self, node: Node, reader: Reader) -> Seen[T] | None:
        """Each place whose clue could be read."""
        found = []
        for line, clue in reader.clues(node, diagonal=self.diagonal):
            value = self.clue.read(clue, reader)
            if value is not None:
                found.append((line, Placed(clue.place, value)))
        return tuple(found)

    def fewer(self, node: Node, reader: Reader) -> Iterator[Fewer]:
        """A clue less, or something less in a clue."""
        places = [key.text for key, _ in node.entries] if isinstance(node, Fields) else []
        yield from field_left_out(node, places)
        for place in places:
            yield from field_changed(node, place, lambda clue: self.clue.fewer(clue, reader))

    def schema(self) -> Schema:
        """An object whose keys are places outside."""
        side = "([tT][oO][pP]|[bB][oO][tT][tT][oO][mM])" + r"\s+[cC][0-9]+"
        other = "([lL][eE][fF][tT]|[rR][iI][gG][hH][tT])" + r"\s+[rR][0-9]+"
        ahead = r"\s+[nNsS][eEwW]" if self.diagonal else ""
        return {
            "type": "object",
            "minProperties": 1,
            "patternProperties": {rf"^\s*({side}|{other}){ahead}\s*$": self.clue.schema()},
            "additionalProperties": False,
        }


GROUPS: Final = Listed(GROUP, "a list of groups")
PATHS: Final = Listed(PATH, "a list of paths")
