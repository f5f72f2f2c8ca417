"""Days without a paper from a file: a calendar (iCalendar, RFC 5545), or a list of days.

Of a calendar every event counts, whole days and those that return, as far as the schedule goes.
"""

from collections.abc import Iterator
from datetime import date, datetime, time, timedelta
from itertools import islice
from pathlib import Path
from typing import Any, Final

from layout.jobs.column.schedule import DaySpan, interval_of
from layout.jobs.common.input_file import input_file
from verify.manifest.source import source_text
from verify.reading.node import Place, shown
from verify.reading.problems import Problem, Unreadable

ENDINGS: Final = (".ics", ".txt")

MOST_EVENTS: Final = 5000

LONGEST_EVENT: Final = 400
"""Days of one event."""

MOST_RETURNS: Final = 4000
"""Times that one event returns."""


def holidays(folder: Path, name: str, place: Place, until: date) -> frozenset[date]:
    """The days that a file in a job's folder names, up to one. Raises Unreadable, at the job's
    `place` where there is no such file, else at the file's line.
    """
    path = input_file(folder, name, place)
    text = source_text(path, name)
    spans = (
        _of_calendar(text, name, until) if path.suffix.lower() == ".ics" else _listed(text, name)
    )
    return frozenset(day for span in spans for day in span.days())


def _listed(text: str, name: str) -> Iterator[DaySpan]:
    """A day, a week or an interval a line; what follows it, and lines after #, are for readers."""
    for number, line in enumerate(text.splitlines(), start=1):
        word, *_ = [*line.partition("#")[0].split(), ""]
        if not word:
            continue
        span = interval_of(word)
        if span is None:
            expected = "a day such as 2027-12-25, or 2027-12-24/2028-01-01"
            message = f'found "{shown(word)}", expected {expected}'
            raise Unreadable([Problem(Place(name, number, 1), message)])
        yield span


def _of_calendar(text: str, name: str, until: date) -> Iterator[DaySpan]:
    """The days of all events. Raises Unreadable for what is no calendar."""
    from icalendar import Calendar

    try:
        calendar = Calendar.from_ical(text)
        events = list(islice(calendar.walk("VEVENT"), MOST_EVENTS + 1))
        if len(events) > MOST_EVENTS:
            message = f"found more than {MOST_EVENTS} events, expected fewer"
            raise Unreadable([Problem(Place(name, 1, 1), message)])
        found = [span for event in events for span in _returns(event, until)]
    except (ValueError, KeyError, IndexError, AttributeError, TypeError, OverflowError) as fault:
        message = f"it is no calendar that can be read: {shown(str(fault))}"
        raise Unreadable([Problem(Place(name, 1, 1), message)]) from None
    yield from found


def _returns(event: Any, until: date) -> Iterator[DaySpan]:
    """An event, and each time that it returns, up to a day."""
    from dateutil.rrule import rrulestr

    first = _date(event.decoded("DTSTART"))
    last = _last(event, first)
    length = min((last - first).days, LONGEST_EVENT)
    starts = [first]
    rule = event.get("RRULE")
    if rule is not None:
        start = datetime.combine(first, time())
        every = rrulestr(_plain_rule(rule), dtstart=start)
        days = (each.date() for each in islice(every, MOST_RETURNS))
        starts += [day for day in days if first < day <= until]
    left_out = set(_left_out(event))
    for day in starts:
        if day not in left_out:
            yield DaySpan(day, day + timedelta(length))


def _plain_rule(rule: Any) -> str:
    """The rule as text, its end as a plain day: days have no time here."""
    parts = [part for part in rule.to_ical().decode().split(";") if not part.startswith("UNTIL=")]
    until = rule.get("UNTIL")
    return ";".join([*parts, *(f"UNTIL={_date(each):%Y%m%d}" for each in until or ())])


def _left_out(event: Any) -> Iterator[date]:
    """Days on which the event does not return."""
    found = event.get("EXDATE") or ()
    for each in found if isinstance(found, list) else [found] if found else ():
        for day in each.dts:
            yield _date(day.dt)


def _last(event: Any, first: date) -> date:
    """The last day: an end that is a day is the first day after it (RFC 5545, 3.6.1)."""
    if event.get("DTEND") is not None:
        end: date = event.decoded("DTEND")
        at_midnight = not isinstance(end, datetime) or end.time() == time()
        last = _date(end) - timedelta(1) if at_midnight else _date(end)
        return max(last, first)
    if event.get("DURATION") is not None:
        duration: timedelta = event.decoded("DURATION")
        return max(first, first + duration - timedelta(1))
    return first


def _date(moment: date) -> date:
    return moment.date() if isinstance(moment, datetime) else moment
