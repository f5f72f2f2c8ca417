"""How the values of a column's job file are read that no other job has."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, Final

from layout.jobs.column.holidays import ENDINGS
from layout.jobs.column.ledger import is_plain_name
from layout.jobs.column.schedule import (
    WEEK,
    WEEKDAYS,
    DaySpan,
    interval_of,
    span_of,
    weekdays_of,
)
from layout.jobs.common.choice_values import GRADES, Grades
from verify.reading.node import Fields, Items, Node, Text, describe, shown
from verify.reading.problems import Problems
from verify.reading.record import Choice, Record

EVERY_DAY: Final = frozenset(range(WEEK))

HOLES: Final = ("date", "week", "day", "number", "id", "grade", "edition")
"""What may stand in braces in the name of a day's files."""

LONGEST_NAME: Final = 100

MOST_EDITIONS: Final = 40

_EDITION: Final = re.compile(r"^[A-Za-z0-9][A-Za-z0-9-]{0,29}$")
_HOLE: Final = re.compile(r"\{([^{}]*)\}")
_DAYS: Final = f"({'|'.join(WEEKDAYS)})"


class DayOrWeek:
    """A day as `2027-01-04` or `2027-W01-1`, or a whole week as `2027-W01`."""

    def read(self, node: Node, problems: Problems) -> DaySpan | None:
        """Its first and last day."""
        span = span_of(node.text.strip()) if isinstance(node, Text) else None
        if span is None:
            expected = "a day such as 2027-01-04, or a week such as 2027-W01"
            problems.expected(node.place, describe(node), expected)
        return span

    def schema(self) -> Mapping[str, Any]:
        """A pattern of both."""
        return {"type": "string", "pattern": r"^\d{4}-(\d{2}-\d{2}|W\d{2}(-[1-7])?)$"}


class DaysWithout:
    """A day, a week, an interval as `2027-12-24/2028-01-01`, or a file of such days."""

    def read(self, node: Node, problems: Problems) -> DaySpan | str | None:
        """The days, or the name of the file."""
        text = node.text.strip() if isinstance(node, Text) else ""
        if text.lower().endswith(ENDINGS) and len(text) <= 500 and text.isprintable():
            return text
        span = interval_of(text)
        if span is None:
            expected = (
                "a day such as 2027-01-04, a week such as 2027-W01, 2027-12-24/2028-01-01, or a "
                f"file that ends in {' or '.join(ENDINGS)}"
            )
            problems.expected(node.place, describe(node), expected)
        return span

    def schema(self) -> Mapping[str, Any]:
        """A pattern of all of them."""
        day = r"\d{4}-(\d{2}-\d{2}|W\d{2}(-[1-7])?)"
        return {"type": "string", "pattern": rf"^{day}(/{day})?$|\.(ics|txt|ICS|TXT)$"}


class Weekdays:
    """Days of the week: `mon-sat`, `sun`, or a list of these."""

    def read(self, node: Node, problems: Problems) -> frozenset[int] | None:
        """Their numbers."""
        nodes = node.items if isinstance(node, Items) else (node,)
        days: set[int] = set()
        for each in nodes:
            some = _weekdays(each, problems)
            if some is None:
                return None
            days |= some
        if not days:
            problems.expected(node.place, describe(node), "days of the week, such as mon-sat")
            return None
        return frozenset(days)

    def schema(self) -> Mapping[str, Any]:
        """A pattern, or a list of such."""
        some = {"type": "string", "pattern": f"^{_DAYS}(-{_DAYS})?$"}
        return {"oneOf": [some, {"type": "array", "items": some, "minItems": 1}]}


class GradeByDay:
    """Grades for some days of the week: `{mon-wed: calm, sat: [stiff, steep]}`."""

    def read(self, node: Node, problems: Problems) -> Mapping[int, frozenset[str]] | None:
        """The grades that will do on each weekday that has some."""
        if not isinstance(node, Fields):
            expected = "grades by days of the week, such as mon: calm"
            problems.expected(node.place, describe(node), expected)
            return None
        grades: dict[int, frozenset[str]] = {}
        for key, value in node.entries:
            days = _weekdays(key, problems)
            read = Grades().read(value, problems)
            for day in sorted(days or ()):
                wish = frozenset(read or ())
                if read is not None and grades.setdefault(day, wish) != wish:
                    known = " or ".join(each for each in GRADES if each in grades[day])
                    problems.add(key.place, f"{WEEKDAYS[day]} has the grade {known} already")
        return MappingProxyType(grades)

    def schema(self) -> Mapping[str, Any]:
        """An object by days."""
        return {
            "type": "object",
            "patternProperties": {f"^{_DAYS}(-{_DAYS})?$": Grades().schema()},
            "additionalProperties": False,
        }


def _weekdays(node: Node, problems: Problems) -> frozenset[int] | None:
    """The weekdays of one text; noted where it names none."""
    days = weekdays_of(node.text.strip().lower()) if isinstance(node, Text) else None
    if days is None:
        expected = f"days of the week such as mon or mon-sat, of {', '.join(WEEKDAYS)}"
        problems.expected(node.place, describe(node), expected)
    return days


@dataclass(frozen=True, slots=True)
class Some:
    """A list of one or more of some words, in any order, none of them twice."""

    words: tuple[str, ...]
    what: str

    def read(self, node: Node, problems: Problems) -> tuple[str, ...] | None:
        """The words."""
        if not isinstance(node, Items) or not node.items:
            problems.expected(node.place, describe(node), f"a list of: {', '.join(self.words)}")
            return None
        found: list[str] = []
        for item in node.items:
            word = Choice(self.words, self.what).read(item, problems)
            if word in found:
                problems.add(item.place, f'the {self.what} "{word}" stands in the list already')
            elif word is not None:
                found.append(word)
        return tuple(found)

    def schema(self) -> Mapping[str, Any]:
        """An array of words."""
        items = {"enum": list(self.words)}
        return {"type": "array", "items": items, "minItems": 1, "uniqueItems": True}


@dataclass(frozen=True, slots=True)
class Editions:
    """Papers by their names, which stand in the names of their files."""

    item: Record

    def read(self, node: Node, problems: Problems) -> Mapping[str, Any] | None:
        """The papers in the order of the file."""
        if not isinstance(node, Fields) or not 0 < len(node.entries) <= MOST_EDITIONS:
            expected = f"from 1 to {MOST_EDITIONS} papers, each with its own keys"
            problems.expected(node.place, describe(node), expected)
            return None
        for key, _ in node.entries:
            if not _EDITION.fullmatch(key.text):
                expected = "a name of letters, digits and hyphens, such as valley"
                problems.expected(key.place, f'"{shown(key.text)}"', expected)
        read = {key.text: self.item.read(value, problems) for key, value in node.entries}
        return MappingProxyType(read) if None not in read.values() else None

    def schema(self) -> Mapping[str, Any]:
        """An object of papers."""
        return {
            "type": "object",
            "patternProperties": {_EDITION.pattern: self.item.schema()},
            "additionalProperties": False,
            "minProperties": 1,
            "maxProperties": MOST_EDITIONS,
        }


class FilePattern:
    """The name of a day's files without their ending, with `{date}` and the like in it."""

    def read(self, node: Node, problems: Problems) -> str | None:
        """The pattern as it was written."""
        text = node.text.strip() if isinstance(node, Text) else ""
        if not text or len(text) > LONGEST_NAME:
            problems.expected(node.place, describe(node), "a name such as {date}-{id}")
            return None
        strange = [hole for hole in _HOLE.findall(text) if hole not in HOLES]
        for hole in strange:
            problems.unknown(node.place, "word in braces", hole, HOLES)
        rest = _HOLE.sub("x", text)
        if not strange and (not is_plain_name(rest) or "{" in rest or "}" in rest):
            expected = "the name of a file, such as {date}-{id}, without a folder"
            problems.expected(node.place, describe(node), expected)
            return None
        return None if strange else text

    def schema(self) -> Mapping[str, Any]:
        """Text."""
        return {"type": "string", "maxLength": LONGEST_NAME}
