"""The fields of a manifest: their names, what they mean, and the bounds of their words."""

from dataclasses import dataclass
from typing import Final

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


@dataclass(frozen=True, slots=True)
class WordsField:
    """A field that holds words: at most `longest` characters, in one line or in several."""

    meaning: str
    longest: int
    lines: bool = False


WORDS_FIELDS: Final[dict[str, WordsField]] = {
    "title": WordsField("printed above the puzzle", 200),
    "constructor": WordsField("who made it: the credit line, and the index", 200),
    "note": WordsField("for the editors; never printed", 4000, lines=True),
    "theme": WordsField("what the picture shows", 200),
    "date": WordsField("when it was made or first printed, in any form", 40),
    "id": WordsField("its own short name: letters, digits, - _ and .; else the file's name", 100),
    "words": WordsField("the rule text to print instead of the one from the rules", 4000, True),
}

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
