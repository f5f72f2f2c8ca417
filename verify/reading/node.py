"""Nodes: what a manifest says, each part with the place where it stands."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final, TypeAlias


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """Where something stands: a file as the editor named it, line and column from 1."""

    file: str
    line: int
    column: int

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"

    def right(self, columns: int) -> "Place":
        """The place so many columns further along the line."""
        return Place(self.file, self.line, self.column + columns) if columns else self


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


LONGEST_SHOWN: Final = 40
"""Characters of a file's own text that a problem repeats."""


def shown(text: str) -> str:
    """A file's own text as a problem may repeat it: on one line, short, and printable."""
    text = " ".join(text[: 2 * LONGEST_SHOWN].split())
    text = text if len(text) <= LONGEST_SHOWN else text[: LONGEST_SHOWN - 1] + "…"
    return text if text.isprintable() else "".join(map(_printable, text))


def _printable(character: str) -> str:
    """The character, or its number where a terminal could take it for a command."""
    return character if character.isprintable() else f"<U+{ord(character):04X}>"


def describe(node: Node) -> str:
    """What a node is, in an editor's words: `"abc"`, a list, a mapping."""
    if isinstance(node, Items):
        return "a list" if node.items else "an empty list"
    if isinstance(node, Fields):
        return "a mapping" if node.entries else "an empty mapping"
    return f'"{shown(node.text)}"' if node.text.strip() else "nothing"
