"""The days on which puzzles come out.

Dates are those of the Gregorian calendar, written by ISO 8601: a day as `2027-01-04` or
`2027-W01-1`, a whole week as `2027-W01`. Weeks begin on Monday.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import MAXYEAR, date, timedelta
from typing import Final

WEEKDAYS: Final = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
"""The days of a week by their number (`date.weekday`)."""

WEEK: Final = len(WEEKDAYS)

FIRST_YEAR: Final = 1900
LAST_YEAR: Final = 2999
"""Years that a schedule may have; past them a date is a slip."""

_DATE: Final = re.compile(r"\d{4}-\d{2}-\d{2}|\d{4}-W\d{2}(-[1-7])?", re.ASCII)


@dataclass(frozen=True, slots=True)
class DaySpan:
    """A day, or a whole week, by its first and its last day."""

    first: date
    last: date

    def days(self) -> Iterator[date]:
        """Every day from the first to the last."""
        for step in range((self.last - self.first).days + 1):
            yield self.first + timedelta(step)


def interval_of(text: str) -> DaySpan | None:
    """A day, a week, or all from one to another by ISO 8601: 2027-12-24/2028-01-01."""
    start, slash, end = text.partition("/")
    first = span_of(start)
    last = span_of(end) if slash else first
    if first is None or last is None or last.last < first.first:
        return None
    return DaySpan(first.first, last.last)


def span_of(text: str) -> DaySpan | None:
    """The day or the week that a text names, or None where it names none."""
    if not _DATE.fullmatch(text):
        return None
    try:
        first = date.fromisoformat(text)
    except ValueError:
        return None
    if not FIRST_YEAR <= first.year <= LAST_YEAR:
        return None
    return DaySpan(first, first + timedelta(WEEK - 1) if len(text) == len("2027-W01") else first)


def week_of(day: date) -> str:
    """The week of a day as ISO 8601 writes it; its year may be another than that of the day."""
    year, week, _ = day.isocalendar()
    return f"{year}-W{week:02d}"


def weekdays_of(text: str) -> frozenset[int] | None:
    """Weekdays by their number: `mon-sat`, `sat-mon`, `wed`; None where it is none."""
    first, dash, last = text.partition("-")
    ends = [first, last] if dash else [first]
    if not all(end in WEEKDAYS for end in ends):
        return None
    start, stop = WEEKDAYS.index(ends[0]), WEEKDAYS.index(ends[-1])
    return frozenset((start + step) % WEEK for step in range((stop - start) % WEEK + 1))


@dataclass(frozen=True, slots=True)
class Schedule:
    """Issues from `first` on, on some weekdays and never on a day in `without`.

    They end with the day `last`, or after so many `issues`. `grades` names the grades that will
    do on a weekday; the others take a puzzle of any grade.
    """

    first: date
    last: date | None
    issues: int | None
    weekdays: frozenset[int]
    without: frozenset[date]
    grades: Mapping[int, frozenset[str]]

    def days(self) -> Iterator[date]:
        """Every day with an issue."""
        for count, day in enumerate(self._unending()):
            if count == self.issues or (self.last is not None and day > self.last):
                return
            yield day

    def after(self, day: date) -> date | None:
        """The next day on which there would be an issue, past the end of the schedule, too."""
        return next((each for each in self._unending() if each > day), None)

    def wish(self, day: date) -> frozenset[str] | None:
        """The grades that a day's puzzle may have, or None where any will do."""
        return self.grades.get(day.weekday())

    def _unending(self) -> Iterator[date]:
        """The days of a schedule that would go on as far as the calendar does."""
        for ordinal in range(self.first.toordinal(), date(MAXYEAR, 12, 31).toordinal() + 1):
            day = date.fromordinal(ordinal)
            if day.weekday() in self.weekdays and day not in self.without:
                yield day
