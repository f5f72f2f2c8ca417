"""How the values of a worksheet's job file are read that no other job has."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Any, Final, Literal

from layout.jobs.book.book_job import MOST_GLOBS
from layout.jobs.common.values import ListOf, OneOf
from verify.compose.series.plan import MOST_SEED, Line, PlacedLine, placed_line
from verify.reading.node import Fields, Items, Node, Text, describe
from verify.reading.problems import Problems
from verify.reading.record import Number, Record, Word

RUNGS: Final = (1, 2, 3)

MOST_PUPILS: Final = 300

LONGEST_NAME: Final = 60

HOLES: Final = ("form", "rung")
"""What may stand in braces in the name of a form's file."""

_HOLE: Final = re.compile(r"\{([^{}]*)\}")


@dataclass(frozen=True, slots=True)
class Ladder:
    """In how many rungs one set of puzzles is made, and by what they differ.

    By givens, each rung has `step` more of them than the next; 0 is a tenth of the cells.
    """

    by: Annotated[Literal["grade", "givens"], "by what rungs differ: the grade, or givens"] = (
        "grade"
    )
    rungs: Annotated[int, OneOf(RUNGS), "how many sheets are made of one set"] = 3
    step: Annotated[
        int, Number(0, 400, whole=True), "givens that a rung has more; 0: a tenth of the cells"
    ] = 0


class LadderValue:
    """A number of rungs, by grade, or a mapping of what a `Ladder` has."""

    def read(self, node: Node, problems: Problems) -> Ladder | None:
        """The ladder."""
        if isinstance(node, Fields):
            found: Ladder | None = Record(Ladder).read(node, problems)
            return found
        rungs = OneOf(RUNGS).read(node, problems)
        return None if rungs is None else Ladder(rungs=rungs)

    def schema(self) -> Mapping[str, Any]:
        """One or the other."""
        return {"oneOf": [OneOf(RUNGS).schema(), Record(Ladder).schema()]}


@dataclass(frozen=True, slots=True)
class PupilNames:
    """The names of those who get sheets, or the `table` in which they stand."""

    names: tuple[str, ...] = ()
    table: str = ""


class PupilsValue:
    """A list of names, or a table of them: a .csv file."""

    _names: Final = ListOf(Word(LONGEST_NAME), "names", MOST_PUPILS)

    def read(self, node: Node, problems: Problems) -> PupilNames | None:
        """The names as they were written."""
        if isinstance(node, Items):
            names = self._names.read(node, problems)
            return None if names is None else PupilNames(names)
        text = node.text.strip() if isinstance(node, Text) else ""
        if text.lower().endswith(".csv") and len(text) <= 500 and text.isprintable():
            return PupilNames(table=text)
        problems.expected(
            node.place, describe(node), "a list of names, or a file that ends in .csv"
        )
        return None

    def schema(self) -> Mapping[str, Any]:
        """A list, or text that ends in .csv."""
        table = {"type": "string", "pattern": r"\.[cC][sS][vV]\s*$"}
        return {"oneOf": [self._names.schema(), table]}


@dataclass(frozen=True, slots=True)
class ComposedLine(Line):
    """What is composed for a sheet, and from which seed."""

    seed: Annotated[int, Number(0, MOST_SEED, whole=True), "where chance begins"] = 1


@dataclass(frozen=True, slots=True)
class Composition:
    """Puzzles that are composed when the job is made: a line as in the plan of a series."""

    seed: int
    placed: PlacedLine


class PuzzlesValue:
    """A list of files, or `compose` with what is to be composed."""

    _files: Final = ListOf(Word(300), "puzzles", MOST_GLOBS)

    def read(self, node: Node, problems: Problems) -> tuple[str, ...] | Composition | None:
        """The files as they were written, or the composition."""
        if not isinstance(node, Fields):
            return self._files.read(node, problems)
        found: _Composing | None = Record(_Composing).read(node, problems)
        inner = node.get("compose")
        if found is None or inner is None:
            return None
        noted = len(problems.found)
        placed = placed_line(found.compose, inner, problems)
        return Composition(found.compose.seed, placed) if len(problems.found) == noted else None

    def schema(self) -> Mapping[str, Any]:
        """An array, or an object."""
        return {"oneOf": [self._files.schema(), Record(_Composing).schema()]}


@dataclass(frozen=True, slots=True)
class _Composing:
    """The mapping that stands in place of files."""

    compose: Annotated[ComposedLine, "how many puzzles of which kind, size and grade"]


class FormsPath:
    """A path of PDFs, relative to the job's folder, with `{form}` or `{rung}` in it."""

    def read(self, node: Node, problems: Problems) -> str | None:
        """The path as it was written."""
        text = node.text.strip() if isinstance(node, Text) else ""
        holes = _HOLE.findall(text)
        if not holes or not text.lower().endswith(".pdf") or len(text) > 500:
            expected = "the name of files that ends in .pdf, with {form} or {rung} in it"
            problems.expected(node.place, describe(node), expected)
            return None
        strange = [hole for hole in holes if hole not in HOLES]
        for hole in strange:
            problems.unknown(node.place, "word in braces", hole, HOLES)
        return None if strange or not text.isprintable() else text

    def schema(self) -> Mapping[str, Any]:
        """Text with braces that ends in .pdf."""
        return {"type": "string", "pattern": r"\{(form|rung)\}.*\.[pP][dD][fF]\s*$"}
