"""How the values of a worksheet's job file are read that no other job has."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Any, Final, Literal

from layout.jobs.common.values import ListOf, OneOf
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
