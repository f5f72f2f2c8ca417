"""Nodes: what a manifest says, each part with the place where it stands."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TypeAlias


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """Where something stands: a file as the editor named it, line and column from 1."""

    file: str
    line: int
    column: int

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"


@dataclass(frozen=True, slots=True)
class Text:
    """A word, a number or a block of text.

    `lines` pairs each line of the text with its place, so that a reader of a block can
    point at a token in it. `quoted` is set where the text can only be meant as text.
    """

    place: Place
    text: str
    lines: tuple[tuple[Place, str], ...]
    quoted: bool = False


@dataclass(frozen=True, slots=True)
class Items:
    """A list."""

    place: Place
    items: tuple["Node", ...]


@dataclass(frozen=True, slots=True)
class Fields:
    """A mapping, in the order of the file; no key stands twice."""

    place: Place
    entries: tuple[tuple[Text, "Node"], ...]

    def get(self, name: str) -> "Node | None":
        """The value of a key, or None."""
        return next((value for key, value in self.entries if key.text == name), None)

    def keys(self) -> Iterator[Text]:
        """The keys, each with its place."""
        return (key for key, _ in self.entries)


Node: TypeAlias = Text | Items | Fields


def describe(node: Node) -> str:
    """What a node is, in an editor's words: `"abc"`, a list, a mapping."""
    if isinstance(node, Items):
        return "a list" if node.items else "an empty list"
    if isinstance(node, Fields):
        return "a mapping"
    if not node.text:
        return "nothing"
    shown = node.text if len(node.text) <= 40 else node.text[:39] + "…"
    return '"' + shown.replace("\n", " ").strip() + '"'
