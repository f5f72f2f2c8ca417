"""Turns nodes into cells, paths, groups and numbers, and notes what can't be read."""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from verify.board import Board, Cell, Outside
from verify.reading.grid import NO_CELL, read_rows
from verify.reading.node import Fields, Items, Node, Place, Text, describe, shown
from verify.reading.outside import Line, line_named
from verify.reading.problems import Problems
from verify.reading.trail import Trail, cell_named

_WORD: Final = re.compile(r"\S+")
_WHOLE: Final = re.compile(r"[+-]?[0-9]{1,9}")
_A_PATH: Final = "a path such as r9c2 3n ne"
_A_GROUP: Final = "cells such as r1c1 r1c2 or r1c1..r2c3"


@dataclass(frozen=True, slots=True)
class Reader:
    """Reads the marks of rules on one board; every problem goes to `problems`.

    Each reader returns None (or leaves the item out) where it has noted a problem.
    """

    board: Board
    problems: Problems

    def flag(self, node: Node) -> bool:
        """`true`, for a rule that takes no marks."""
        word = node.text.lower() if isinstance(node, Text) and not node.quoted else ""
        if word == "true":
            return True
        without = "; leave the rule out where it is not wanted" if word == "false" else ""
        self.problems.expected(node.place, describe(node), f"true{without}")
        return False

    def each(self, node: Node, expected: str) -> Sequence[Node]:
        """The items of a list; `expected` names the list in a problem: "a list of paths"."""
        if isinstance(node, Items) and node.items:
            return node.items
        self.problems.expected(node.place, describe(node), expected)
        return ()

    def fields(
        self, node: Node, required: Iterable[str], optional: Iterable[str] = ()
    ) -> Fields | None:
        """A mapping that has every required key; unknown keys are noted and left out."""
        required = tuple(required)
        known = (*required, *optional)
        if not isinstance(node, Fields):
            expected = f"a mapping with {' and '.join(required or known)}"
            self.problems.expected(node.place, describe(node), expected)
            return None
        missing = [name for name in required if node.get(name) is None]
        for name in missing:
            self.problems.add(node.place, f'missing field "{name}"')
        for key, _ in node.entries:
            if key.text not in known:
                self.problems.unknown(key.place, "field", key.text, known)
        entries = tuple(entry for entry in node.entries if entry[0].text in known)
        return None if missing else Fields(node.place, entries)

    def cell(self, node: Node) -> Cell | None:
        """One cell: `r4c7`."""
        words = self.word_places(node) if isinstance(node, Text) else ()
        if len(words) == 1:
            return self.cell_at(*words[0])
        self.problems.expected(node.place, describe(node), "a cell such as r4c7")
        return None

    def cell_at(self, place: Place, word: str) -> Cell | None:
        """The cell that a word names, where the word stands inside a longer text."""
        return cell_named(place, word, self.board, self.problems)

    def path(self, node: Node) -> tuple[Cell, ...] | None:
        """Cells in order, each touching the one before, none twice: a list or a trail."""
        cells: dict[Cell, None] = {}
        sound = True
        for place, word, added in self._path_parts(node):
            if added is None:
                sound = False
            elif sound:
                sound = self._joins(place, word, cells, added)
            if self.problems.full:
                return None
        return tuple(cells) if sound and cells else None

    def group(self, node: Node) -> tuple[Cell, ...] | None:
        """Cells in no order, sorted, none twice: a list, a trail, or rectangles."""
        cells: set[Cell] = set()
        sound = True
        for place, word, added in self._group_parts(node):
            if added is None:
                sound = False
            elif cells.issuperset(added):
                found = f'"{shown(word)}" with no new cell'
                self.problems.expected(place, found, "each cell once")
                sound = False
            else:
                cells.update(added)
            if self.problems.full:
                return None
        return tuple(sorted(cells)) if sound and cells else None

    def letter_map(self, node: Node) -> tuple[str, ...] | None:
        """One letter or digit a cell, row by row, as `regions` are drawn; `_` for no cell."""
        rows, sound = read_rows(node, self.board, True, "a letter map", self.problems)
        for number, row in enumerate(rows):
            for column, token in enumerate(row.tokens):
                absent = self.board.cell(number, column) in self.board.absent
                if absent and token == NO_CELL:
                    continue
                if len(token) > 1 or not token.isalnum():
                    found = f'"{shown(token)}"'
                    self.problems.expected(row.place_of(column), found, "one letter a cell")
                    sound = False
        return tuple(token for row in rows for token in row.tokens) if sound else None

    def whole(self, node: Node, low: int, high: int, what: str) -> int | None:
        """A whole number from `low` to `high`; `what` names it: "the sum of a cage"."""
        text = node.text if isinstance(node, Text) else ""
        number = int(text) if _WHOLE.fullmatch(text) else None
        if number is not None and low <= number <= high:
            return number
        bounds = f"a whole number from {low} to {high}" if low < high else str(low)
        self.problems.expected(node.place, describe(node), f"{bounds} as {what}")
        return None

    def line(self, text: Text, *, diagonal: bool = False) -> Line | None:
        """A place outside the board and what is seen from there: `top c3`, `top c3 se`."""
        return line_named(text, self.board, self.problems, diagonal=diagonal)

    def clues(self, node: Node, *, diagonal: bool = False) -> Iterator[tuple[Line, Node]]:
        """The lines of a mapping from places outside to clues, each with its clue's node.

        Two clues in one place are a problem, and so is anything but a mapping.
        """
        if not isinstance(node, Fields) or not node.entries:
            example = "top c3 se" if diagonal else "top c3"
            expected = f"a mapping from places outside to clues, such as {example}: 12"
            self.problems.expected(node.place, describe(node), expected)
            return
        taken: set[Outside] = set()
        for key, value in node.entries:
            line = self.line(key, diagonal=diagonal)
            if line is None:
                continue
            if line.outside in taken:
                self.problems.expected(key.place, f'"{shown(key.text)}" again', "one clue a place")
                continue
            taken.add(line.outside)
            yield line, value

    def choice(self, node: Node, choices: Iterable[str], what: str) -> str | None:
        """One of some words; `what` names them: "kind"."""
        choices = tuple(choices)
        if not isinstance(node, Text) or not node.text.strip():
            self.problems.expected(node.place, describe(node), "one of " + ", ".join(choices))
        elif node.text in choices:
            return node.text
        else:
            self.problems.unknown(node.place, what, node.text, choices)
        return None

    def word_places(
        self, text: Text, word: re.Pattern[str] = _WORD
    ) -> tuple[tuple[Place, str], ...]:
        """The words of a text, each with its own place; `word` matches one."""
        return tuple(
            (place.right(match.start()), match[0])
            for place, line in text.lines
            for match in word.finditer(line)
        )

    def _path_parts(self, node: Node) -> Iterator[tuple[Place, str, tuple[Cell, ...] | None]]:
        """Each word of a path with the cells that it adds."""
        if isinstance(node, Text) and node.text.strip():
            trail = Trail(self.board, self.problems)
            for place, word in self.word_places(node):
                yield place, word, trail.follow(place, word)
        elif isinstance(node, Items) and node.items:
            for item in node.items:
                cell = self.cell(item)
                word = item.text if isinstance(item, Text) else ""
                yield item.place, word, None if cell is None else (cell,)
        else:
            self.problems.expected(node.place, describe(node), _A_PATH)

    def _group_parts(self, node: Node) -> Iterator[tuple[Place, str, tuple[Cell, ...] | None]]:
        """Each word of a group with the cells that it adds; each item is a trail of its own."""
        items = node.items if isinstance(node, Items) and node.items else (node,)
        for item in items:
            if not isinstance(item, Text) or not item.text.strip():
                self.problems.expected(item.place, describe(item), _A_GROUP)
                yield item.place, describe(item), None
                continue
            trail = Trail(self.board, self.problems)
            for place, word in self.word_places(item):
                lead = trail.rectangle if ".." in word else trail.follow
                yield place, word, lead(place, word)

    def _joins(
        self, place: Place, word: str, cells: dict[Cell, None], added: tuple[Cell, ...]
    ) -> bool:
        """Adds cells to a path; False with a problem where they don't join on or come back."""
        last = next(reversed(cells), None)
        for cell in added:
            if cell in cells:
                name = self.board.name(cell)
                way = "" if len(added) == 1 and word.lower() == name else f' by "{shown(word)}"'
                self.problems.expected(place, f"{name} a second time{way}", "each cell once")
                return False
            if last is not None and not self.board.touch(last, cell):
                expected = f"a cell that touches {self.board.name(last)}"
                self.problems.expected(place, self.board.name(cell), expected)
                return False
            cells[cell], last = None, cell
        return True
