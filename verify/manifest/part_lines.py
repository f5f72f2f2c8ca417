"""Where in its manifest a given or a mark is written: the file is read once more for it."""

import re
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from typing import Final

from verify.manifest.yaml_text import read_tree
from verify.puzzle import Puzzle
from verify.reading.grid import read_rows
from verify.reading.node import Fields, Items, Node, Text
from verify.reading.problems import Problems, Unreadable

_CELL: Final = re.compile("r[0-9]+c[0-9]+")
_WORD: Final = re.compile(r"[^\s,;.:]+")


class PartLines:
    """The lines of a manifest's parts, from 1; None where a line is not known."""

    def __init__(self, puzzle: Puzzle, root: Node | None) -> None:
        fields = root if isinstance(root, Fields) else None
        rules = fields.get("rules") if fields else None
        self._puzzle = puzzle
        self._givens = self._rows(fields.get("givens") if fields else None)
        self._rules = dict[str, tuple[Text, Node]]()
        self._written = dict[tuple[str, bool], list[tuple[int, list[str]]]]()
        if isinstance(rules, Fields):
            self._rules = {key.text: (key, node) for key, node in rules.entries}

    def _rows(self, node: Node | None) -> list[int]:
        """The line of each row of givens."""
        if node is None:
            return []
        single = all(len(symbol) == 1 for symbol in self._puzzle.symbols)
        rows, _ = read_rows(node, self._puzzle.board, single, "the givens", Problems())
        return [row.line.line for row in rows]

    def of_given(self, row: int) -> int | None:
        """The line of a row of givens, the first one 0."""
        if self._puzzle.line:
            return self._puzzle.line
        return self._givens[row] if row < len(self._givens) else None

    def of_rule(self, rule: str) -> int | None:
        """The line of a rule."""
        return self._rules[rule][0].place.line if rule in self._rules else None

    def of_marks(self, rule: str, at: str, cells: frozenset[str]) -> list[int]:
        """The lines of the marks of a rule that may be one that starts there, top down.

        `cells` are the names of its cells: a mark that names others is another.
        """
        words = at.lower().split()
        start = words[:1] if _CELL.fullmatch(words[0]) else words
        return sorted(
            line
            for line, said in self._marks(rule, together=len(cells) > 1)
            if said[: len(start)] == start
            and cells.issuperset(word for word in said if _CELL.fullmatch(word))
        )

    def _marks(self, rule: str, *, together: bool) -> list[tuple[int, list[str]]]:
        """What is written of a rule's marks, read once."""
        if (rule, together) not in self._written:
            marks = self._rules[rule][1]
            self._written[rule, together] = list(_written(marks, together=together))
        return self._written[rule, together]


def lines_of(puzzle: Puzzle, path: Path | None) -> PartLines:
    """The lines of a puzzle's parts; no manifest is read for one that stands in a bank."""
    root = None
    if path is not None:
        with suppress(Unreadable):  # it may have changed since the puzzle was read
            root = read_tree(path, puzzle.file, Problems())
    return PartLines(puzzle, root)


def _written(node: Node, *, together: bool) -> Iterator[tuple[int, list[str]]]:
    """Each text of a rule's marks, keys too: its line, and its words.

    A list of single cells is one mark where `together` is set, else one mark each.
    """
    waiting = [node]
    while waiting:
        each = waiting.pop()
        if isinstance(each, Items):
            cells = [item.text.lower() for item in each.items if isinstance(item, Text)]
            if together and len(cells) == len(each.items) and all(map(_CELL.fullmatch, cells)):
                yield each.place.line, cells
            else:
                waiting += each.items
        elif isinstance(each, Fields):
            waiting += (part for entry in each.entries for part in entry)
        else:
            for place, text in each.lines:
                yield place.line, _WORD.findall(text.lower())
