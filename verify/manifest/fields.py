"""The fields of a manifest: their names, what they mean, and the bounds of their words."""

import unicodedata
from dataclasses import dataclass
from typing import Final

from verify.reading.node import Node, Place, Text, describe
from verify.reading.problems import Problems
from verify.reading.record import Schema

KINDS: Final[dict[str, tuple[str, ...]]] = {
    "sudoku": ("rows", "columns", "boxes"),
    "latin": ("rows", "columns"),
    "blank": (),
}
"""The rules that each kind of puzzle brings with it."""

DEFAULT_SYMBOLS: Final = "123456789ABCDEFGHIJKLMNOP"
"""What is printed for 1, 2, 3 ... where a manifest is silent."""

LONGEST_SYMBOL: Final = 3
"""Characters of one symbol."""

_JOINERS: Final = "\u00ad\u200c\u200d"
"""Format characters that spelling needs: the soft hyphen and the two joiners."""


@dataclass(frozen=True, slots=True)
class WordsField:
    """A field that holds words: at most `longest` characters, in one line or in several."""

    name: str
    meaning: str
    longest: int
    lines: bool = False

    def read(self, node: Node, problems: Problems) -> str | None:
        """The text with single spaces, or with its own lines; None where a problem was noted."""
        if not isinstance(node, Text):
            problems.expected(node.place, describe(node), f"the words of {self.name}")
            return None
        text = node.text.strip() if self.lines else " ".join(node.text.split())
        if len(text) > self.longest:
            found = f"{len(text)} characters in {self.name}"
            problems.expected(node.place, found, f"at most {self.longest}")
            return None
        return text if _is_clean(text, node.place, problems) else None

    def schema(self) -> Schema:
        """Any word: it is text to us, whatever YAML takes `12` or `no` for."""
        kinds = ["string", "number", "boolean", "null"]
        return {"description": self.meaning, "type": kinds, "maxLength": self.longest}


def _is_clean(text: str, place: Place, problems: Problems) -> bool:
    """Whether every character can be printed."""
    if text.isprintable():
        return True
    for character in text:
        if unicodedata.category(character)[0] == "C" and character not in _JOINERS + "\n\t":
            found = f"the control character U+{ord(character):04X}"
            problems.expected(place, found, "printable text")
            return False
    return True


_WORDS: Final = (
    WordsField("title", "printed above the puzzle", 200),
    WordsField("constructor", "who made it: the credit line, and the index", 200),
    WordsField("note", "for the editors; never printed", 4000, lines=True),
    WordsField("theme", "what the picture shows", 200),
    WordsField("date", "when it was made or first printed, in any form", 40),
    WordsField("id", "its own short name: letters, digits, - _ and .; else the file's name", 100),
    WordsField(
        "words",
        "the rule text to print instead of the one from the rules, with ((notes))",
        4000,
        lines=True,
    ),
)

WORDS_FIELDS: Final[dict[str, WordsField]] = {field.name: field for field in _WORDS}

OTHER_FIELDS: Final[dict[str, str]] = {
    "kind": "sudoku: rows, columns and boxes; latin: rows and columns; blank: only listed rules",
    "size": "rows = columns = number of digits",
    "boxes": "rows x columns of one box, where the usual boxes are not wanted",
    "grids": "the upper left cell of each grid, where several overlap: [r1c1, r7c7]",
    "holes": "cells that the board does not have; _ in the grid",
    "symbols": "what is printed for 1, 2, 3 ...: a text such as ABCDEF, or a list",
    "rules": "the rules beyond those of the kind, each with its marks",
    "givens": "the grid: one line a row, one symbol a cell, . for an open cell",
    "answer": "the constructor's own answer: the grid, complete",
}

REQUIRED: Final = ("kind", "size")

FIELDS: Final[tuple[str, ...]] = (*WORDS_FIELDS, *OTHER_FIELDS)
