"""Reads mappings of a file into frozen dataclasses, guided by the types of their fields.

A field `inner_margin` stands in the file as `inner-margin`; a trailing underscore only keeps
clear of Python's own words (`from_` is `from`). A field with a default may be left out.
Understood as they are: str, int, float, bool, Literal, other dataclasses, `tuple[X, ...]`
(a list) and `Mapping[str, X]` (a table of any names). Everything else says how it is read by
a `Readable` in its annotation: `Annotated[int, Number(1, 9, whole=True)]`. A text there says
what the key does, for those who write such files: `Annotated[bool, "whether rules are printed"]`.

Job files and style sheets are read so, and each mark of a rule that is a mapping: see
`grammar.py`, whose readables know a board, too.
"""

import copyreg
import re
import types
from collections.abc import Mapping
from dataclasses import MISSING, Field, dataclass, fields, is_dataclass
from functools import cache
from typing import (
    Annotated,
    Any,
    Final,
    Literal,
    Protocol,
    TypeAlias,
    TypeVar,
    Union,
    get_args,
    get_origin,
    get_type_hints,
    runtime_checkable,
)

from verify.reading.node import Fields, Items, Node, Text, describe
from verify.reading.problems import Problems

T = TypeVar("T")
T_co = TypeVar("T_co", covariant=True)
R_contra = TypeVar("R_contra", contravariant=True)

Schema: TypeAlias = Mapping[str, Any]
"""A JSON Schema, or a part of one."""

NUMBER: Final = re.compile(r"[+-]?(\d+(\.\d*)?|\.\d+)")
"""A number as it stands in a file, with or without a fraction."""


def frozen(entries: Mapping[str, Any]) -> types.MappingProxyType[str, Any]:
    """A table that can't be changed."""
    return types.MappingProxyType(dict(entries))


# Records with tables travel between processes.
copyreg.pickle(types.MappingProxyType, lambda table: (frozen, (dict(table),)))


@runtime_checkable
class Readable(Protocol[R_contra, T_co]):
    """How a value is read from a file, and what an editor's program is told about it.

    It is handed what it notes its problems on: `Problems`, or a `Reader` of marks on a board.
    """

    def read(self, node: Node, reader: R_contra, /) -> T_co | None:
        """The value, or None where a problem was noted."""
        ...

    def schema(self) -> Schema:
        """Its JSON Schema."""
        ...


Value: TypeAlias = Readable[Problems, Any]
"""A value that asks for nothing but a place for its problems."""


def read_record(node: Node, kind: type[T], problems: Problems) -> T | None:
    """One dataclass of that kind, or None where problems were noted."""
    found: T | None = Record(kind).read(node, problems)
    return found


def schema_of(kind: type) -> Schema:
    """The JSON Schema of a dataclass as it stands in a file."""
    return Record(kind).schema()


def key_of(field: "Field[Any]") -> str:
    """How a field is called in a file."""
    return field.name.rstrip("_").replace("_", "-")


@dataclass(frozen=True, slots=True)
class Word:
    """Any text that is not empty; none longer than `longest` characters."""

    longest: int = 500

    def read(self, node: Node, problems: Problems) -> str | None:
        """The text without space around it."""
        if not isinstance(node, Text) or not node.text.strip():
            _expected(node, "text", problems)
        elif len(node.text) > self.longest:
            _expected(node, f"at most {self.longest} characters", problems)
        else:
            return node.text.strip()
        return None

    def schema(self) -> Schema:
        """A string."""
        return {"type": ["string", "number"], "maxLength": self.longest}


@dataclass(frozen=True, slots=True)
class Number:
    """A number between two bounds, both allowed; `whole` wants no fraction."""

    low: float
    high: float
    whole: bool = False

    def read(self, node: Node, problems: Problems) -> float | None:
        """The number."""
        text = node.text.strip() if isinstance(node, Text) else ""
        wanted = r"[+-]?\d{1,9}" if self.whole else NUMBER.pattern
        if re.fullmatch(wanted, text) and self.low <= float(text) <= self.high:
            return int(text) if self.whole else float(text)
        kind = "a whole number" if self.whole else "a number"
        _expected(node, f"{kind} from {self.low:g} to {self.high:g}", problems)
        return None

    def schema(self) -> Schema:
        """A number with its bounds."""
        kind = "integer" if self.whole else "number"
        return {"type": kind, "minimum": self.low, "maximum": self.high}


@dataclass(frozen=True, slots=True)
class Flag:
    """`true` or `false`."""

    def read(self, node: Node, problems: Problems) -> bool | None:
        """The truth of it."""
        if isinstance(node, Text) and not node.quoted and node.text in ("true", "false"):
            return node.text == "true"
        _expected(node, "true or false", problems)
        return None

    def schema(self) -> Schema:
        """A boolean."""
        return {"type": "boolean"}


@dataclass(frozen=True, slots=True)
class Choice:
    """One of some words; `what` names them in a problem."""

    words: tuple[str, ...]
    what: str = "choice"

    def read(self, node: Node, problems: Problems) -> str | None:
        """The word."""
        if not isinstance(node, Text) or not node.text:
            _expected(node, " or ".join(self.words), problems)
        elif node.text not in self.words:
            problems.unknown(node.place, self.what, node.text, self.words)
        else:
            return node.text
        return None

    def schema(self) -> Schema:
        """An enumeration."""
        return {"enum": list(self.words)}


@dataclass(frozen=True, slots=True)
class Every:
    """A list, each item of it read alike."""

    item: Value

    def read(self, node: Node, problems: Problems) -> tuple[Any, ...] | None:
        """The items that could be read."""
        if not isinstance(node, Items):
            _expected(node, "a list", problems)
            return None
        values = (self.item.read(item, problems) for item in node.items)
        return tuple(value for value in values if value is not None)

    def schema(self) -> Schema:
        """An array."""
        return {"type": "array", "items": self.item.schema()}


@dataclass(frozen=True, slots=True)
class Table:
    """A mapping from any names, each value read alike."""

    value: Value

    def read(self, node: Node, problems: Problems) -> Mapping[str, Any] | None:
        """The entries that could be read, in the order of the file."""
        if not isinstance(node, Fields):
            _expected(node, "a mapping", problems)
            return None
        values = {key.text: self.value.read(value, problems) for key, value in node.entries}
        return frozen({k: v for k, v in values.items() if v is not None})

    def schema(self) -> Schema:
        """An object of any keys."""
        return {"type": "object", "additionalProperties": self.value.schema()}


@dataclass(frozen=True, slots=True)
class Record:
    """A mapping with the keys of a dataclass."""

    kind: type

    def read(self, node: Node, problems: Problems) -> Any:
        """The dataclass, or None where a key is missing or anything in it can't be read."""
        if not isinstance(node, Fields):
            _expected(node, "a mapping", problems)
            return None
        known = keys_of(self.kind)
        for own, _ in node.entries:
            if own.text not in known:
                problems.unknown(own.place, "key", own.text, known)
        values = {}
        for name, key in known.items():
            found = node.get(name)
            if found is not None:
                values[key.field.name] = key.value.read(found, problems)
            elif key.required:
                problems.add(node.place, f'the key "{name}" is missing')
                values[key.field.name] = None
        if any(value is None for value in values.values()):
            return None
        return self.kind(**values)

    def schema(self) -> Schema:
        """An object of these keys and no others."""
        return object_schema(self.kind)


@dataclass(frozen=True, slots=True)
class Brief:
    """A mapping, or text alone, which stands for the mapping with that at one of its keys."""

    kind: type
    key: str

    def read(self, node: Node, problems: Problems) -> Any:
        """The dataclass, or None where it can't be read."""
        if isinstance(node, Text):
            key = Text(node.place, self.key, ((node.place, self.key),))
            node = Fields(node.place, ((key, node),))
        return Record(self.kind).read(node, problems)

    def schema(self) -> Schema:
        """One of the two."""
        alone = keys_of(self.kind)[self.key].schema()
        return {"oneOf": [alone, object_schema(self.kind)]}


def _expected(node: Node, expected: str, problems: Problems) -> None:
    """Notes what was found instead."""
    problems.expected(node.place, describe(node), expected)


@dataclass(frozen=True, slots=True)
class Key:
    """A field of a dataclass as a key of a file: how it is read, and what is said of it."""

    field: "Field[Any]"
    value: Readable[Any, Any]
    words: str

    @property
    def required(self) -> bool:
        """Whether a file must have it."""
        return self.field.default is MISSING and self.field.default_factory is MISSING

    def schema(self) -> Schema:
        """What its value may be; described by what it does, then by what it is.

        A default is told where it stands in a file as it stands here, and is not nothing.
        """
        schema = dict(self.value.schema())
        if described := "; ".join(filter(None, (self.words, schema.get("description", "")))):
            schema["description"] = described
        default = self.field.default
        if isinstance(default, bool) or (isinstance(default, str | int) and default):
            schema["default"] = default
        return schema


def keys_of(kind: type) -> Mapping[str, Key]:
    """What a mapping for a dataclass may hold, by what it is called there."""
    return _keys(kind)


@cache
def _keys(kind: type) -> Mapping[str, Key]:
    hints = get_type_hints(kind, include_extras=True)
    return {
        key_of(field): Key(field, value_of(hints[field.name]), _words_of(hints[field.name]))
        for field in fields(kind)
    }


def _words_of(annotation: Any) -> str:
    """What an annotation says in words; nothing where it has none."""
    texts = get_args(annotation)[1:] if get_origin(annotation) is Annotated else ()
    return next((each for each in texts if isinstance(each, str)), "")


def object_schema(kind: type) -> Schema:
    """The JSON Schema of a mapping with the keys of a dataclass and no others."""
    known = keys_of(kind)
    return {
        "type": "object",
        "properties": {name: key.schema() for name, key in known.items()},
        "required": [name for name, key in known.items() if key.required],
        "additionalProperties": False,
    }


def value_of(annotation: Any) -> Readable[Any, Any]:
    """How a value of that type is read. Raises TypeError for a type that says nothing."""
    if get_origin(annotation) is Annotated:
        plain, *others = get_args(annotation)
        told = next((each for each in others if isinstance(each, Readable)), None)
        return told or value_of(plain)
    arguments = get_args(annotation)
    origin = get_origin(annotation)
    if origin in (Union, types.UnionType):
        return value_of(next(each for each in arguments if each is not type(None)))
    if origin is Literal:
        return Choice(arguments)
    if origin is tuple:
        return Every(value_of(arguments[0]))
    if origin is Mapping:
        return Table(value_of(arguments[1]))
    if is_dataclass(annotation) and isinstance(annotation, type):
        return Record(annotation)
    if annotation in PLAIN:
        return PLAIN[annotation]
    raise TypeError(f"no way to read {annotation!r} from a file")


PLAIN: Final[Mapping[Any, Value]] = {
    str: Word(),
    bool: Flag(),
    int: Number(-999_999_999, 999_999_999, whole=True),
    float: Number(-1e9, 1e9),
}
