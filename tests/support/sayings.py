"""Every sentence that a rule can ask for, by its key."""

from collections.abc import Iterator
from textwrap import indent
from typing import Any

from tests.support.rules import support
from verify.manifest.read import puzzle_from_text
from verify.puzzle import Puzzle
from verify.rule import Rule
from verify.rules import RULES


def puzzles(rule: Rule[Any, Any]) -> Iterator[Puzzle]:
    """The example of a rule, and small boards with what its tests know it can be `WRITTEN` as."""
    yield puzzle_from_text(rule.example)
    for marks in getattr(support(rule.name), "WRITTEN", ()):
        grid = "\n".join(". . . ." for _ in range(4))
        text = f"kind: sudoku\nsize: 4\nrules: {{{rule.name}: {marks}}}\ngivens: |\n"
        yield puzzle_from_text(text + indent(grid, "  "))


def said_keys() -> list[str]:
    """The keys, in order; that of the houses is told of in a way of its own."""
    said = (use.sayings() for rule in RULES for puzzle in puzzles(rule) for use in puzzle.uses)
    return sorted({saying.key for sayings in said for saying in sayings} - {"houses"})
