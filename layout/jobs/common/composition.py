"""The puzzles of a job: files, or what is composed when the job is made."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Any, Final

from layout.jobs.common.values import ListOf
from verify.compose.series.plan import MOST_LINES, MOST_SEED, Line, PlacedLine, placed_line
from verify.reading.node import Fields, Items, Node
from verify.reading.problems import Problems
from verify.reading.record import Number, Record, Word

MOST_GLOBS: Final = 500
"""File names or patterns of one list."""


@dataclass(frozen=True, slots=True)
class ComposedLine(Line):
    """What is composed for a job, and from which seed."""

    seed: Annotated[int, Number(0, MOST_SEED, whole=True), "where chance begins"] = 1


@dataclass(frozen=True, slots=True)
class Composition:
    """Puzzles that are composed when the job is made: lines as in the plan of a series.

    Each has the seed that stands before it.
    """

    lines: tuple[tuple[int, PlacedLine], ...]


class ComposedLines:
    """One line of a series, or a list of them."""

    _line: Final = Record(ComposedLine)
    _lines: Final = ListOf(Record(ComposedLine), "lines", MOST_LINES)

    def read(self, node: Node, problems: Problems) -> Composition | None:
        """The lines; None where a problem was noted."""
        nodes, noted = node.items if isinstance(node, Items) else (node,), len(problems.found)
        if isinstance(node, Items):
            lines = self._lines.read(node, problems)
        else:
            line = self._line.read(node, problems)
            lines = None if line is None else (line,)
        if lines is None or len(problems.found) > noted:
            return None
        placed = tuple(
            (line.seed, placed_line(line, each, problems))
            for line, each in zip(lines, nodes, strict=True)
        )
        return Composition(placed) if len(problems.found) == noted else None

    def schema(self) -> Mapping[str, Any]:
        """An object, or an array of them."""
        return {"oneOf": [self._line.schema(), self._lines.schema()]}


@dataclass(frozen=True, slots=True)
class _Composing:
    """The mapping that stands in place of files."""

    compose: Annotated[
        Composition, ComposedLines(), "how many puzzles of which kind, size and grade"
    ]


class PuzzlesValue:
    """A list of files, or `compose` with what is to be composed."""

    _files: Final = ListOf(Word(300), "puzzles", MOST_GLOBS)

    def read(self, node: Node, problems: Problems) -> tuple[str, ...] | Composition | None:
        """The files as they were written, or the composition."""
        if not isinstance(node, Fields):
            return self._files.read(node, problems)
        found: _Composing | None = Record(_Composing).read(node, problems)
        return None if found is None else found.compose

    def schema(self) -> Mapping[str, Any]:
        """An array, or an object."""
        return {"oneOf": [self._files.schema(), Record(_Composing).schema()]}
