"""A column's season: which days stand as they were published, and which are to be made."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import islice
from typing import Final

from layout.jobs.column.column_job import MOST_ISSUES, ColumnJob, ScheduleJob
from layout.jobs.column.holidays import holidays
from layout.jobs.column.ledger import Ledger, LedgerEntry
from layout.jobs.column.measure import Measure, NoWidth, picture_width
from layout.jobs.column.schedule import LAST_YEAR, WEEKDAYS, DaySpan, Schedule
from layout.jobs.common.choosing import ANY, Wish
from layout.jobs.common.job import Job
from layout.pages.common.misfit import JobPath
from verify.reading.problems import Problems

ORDINARY: Final = 0
"""The kind of a day that is no special one."""


@dataclass(frozen=True, slots=True)
class DayKind:
    """How the days of one kind are printed, and where the job tells of them.

    `width` and `depth` are millimetres; `depth` is infinite where it is as needed.
    """

    path: JobPath
    heading: str
    width: float
    depth: float


@dataclass(frozen=True, slots=True)
class Slot:
    """A day to be made, its number, its kind, and the grades that it wishes for."""

    day: date
    number: int
    kind: int
    wish: Wish


@dataclass(frozen=True, slots=True)
class Season:
    """Days that stand, days of the ledger that give way, and days to be made, each in order.

    `last` is the schedule's last day, and `due` the one on which its answer would be printed.
    """

    kept: tuple[LedgerEntry, ...]
    dropped: tuple[LedgerEntry, ...]
    slots: tuple[Slot, ...]
    last: date
    due: date | None


def schedule_of(job: Job[ColumnJob]) -> Schedule:
    """The schedule of a job. Raises Unreadable for one that can't be kept."""
    values = job.values.schedule
    problems = Problems()
    _check_end(job, problems)
    _check_weekdays(job, problems)
    problems.raise_if_any()
    without = _without(job)
    last = None if values.until is None else values.until.last
    schedule = Schedule(
        values.from_.first, last, values.issues or None, values.days, without, values.grades
    )
    days = len(list(islice(schedule.days(), MOST_ISSUES + 1)))
    place = job.place(("schedule",))
    if not days:
        problems.expected(place, "a schedule without a single day", "one or more")
    elif days > MOST_ISSUES:
        problems.expected(place, f"more than {MOST_ISSUES} days", "a shorter schedule")
    problems.raise_if_any()
    return schedule


def kinds_of(job: Job[ColumnJob]) -> tuple[DayKind, ...]:
    """The ordinary days' kind, then those of the specials. Raises Unreadable."""
    problems = Problems()
    kinds = [_ordinary(job, problems)]
    kinds += [_special(job, index, kinds[0], problems) for index in range(len(job.values.specials))]
    problems.raise_if_any()
    return tuple(kinds)


def _ordinary(job: Job[ColumnJob], problems: Problems) -> DayKind:
    values = job.values
    wide = _width(job, (), (values.columns, values.measure, values.width), problems)
    return DayKind((), values.title, wide, values.depth)


def _special(job: Job[ColumnJob], index: int, ordinary: DayKind, problems: Problems) -> DayKind:
    """As the ordinary kind where the special does not say otherwise."""
    special, path = job.values.specials[index], ("specials", index)
    wide = ordinary.width
    if special.width is not None or special.columns is not None:
        measure = None if special.columns is None else job.values.measure
        wide = _width(job, path, (special.columns, measure, special.width), problems)
    depth = job.values.depth if special.depth is None else special.depth
    return DayKind(path, special.title or job.values.title, wide, depth)


def _width(
    job: Job[ColumnJob],
    path: JobPath,
    values: tuple[int | None, Measure | None, float | None],
    problems: Problems,
) -> float:
    """The width that columns, measure and width come to; 0 where a problem was noted."""
    try:
        return picture_width(*values)
    except NoWidth as fault:
        problems.add(job.place((*path, fault.key)), str(fault))
        return 0.0


def kind_of(day: date, values: ColumnJob) -> int:
    """The kind of a day: of the special that has its weekday, or `ORDINARY`."""
    specials = (
        number
        for number, special in enumerate(values.specials, start=ORDINARY + 1)
        if day.weekday() in special.days
    )
    return next(specials, ORDINARY)


def plan_season(
    job: Job[ColumnJob], schedule: Schedule, ledger: Ledger, since: date | None
) -> Season:
    """The days of a season; those in the ledger stand, but for those from `since` on.

    Raises Unreadable where ledger and job contradict each other.
    """
    kept = tuple(entry for entry in ledger.entries if since is None or entry.day < since)
    dropped = ledger.entries[len(kept) :]
    published = {entry.day: entry for entry in kept}
    problems = Problems()
    _check_late(job, schedule, kept, since, problems)
    slots: list[Slot] = []
    number = _first_number(job, schedule, kept) - 1
    for day in schedule.days():
        entry = published.get(day)
        number += 1
        if entry is None:
            wish = schedule.wish(day) or ANY
            slots.append(Slot(day, number, kind_of(day, job.values), wish))
        elif entry.number != number:
            found = f"number {entry.number} on {day}"
            problems.expected(ledger.place(entry.line), found, f"{number} by the job's schedule")
            number = entry.number
    problems.raise_if_any()
    last = max(schedule.days())
    return Season(kept, dropped, tuple(slots), last, schedule.after(last))


def _first_number(job: Job[ColumnJob], schedule: Schedule, kept: Sequence[LedgerEntry]) -> int:
    """The number of the schedule's first day: as told, else one that runs on from the ledger."""
    if job.values.schedule.first_number:
        return job.values.schedule.first_number
    earlier = [entry.number for entry in kept if entry.day < schedule.first]
    if earlier:
        return earlier[-1] + 1
    first = next(schedule.days())
    return next((entry.number for entry in kept if entry.day == first), 1)


def _check_late(
    job: Job[ColumnJob],
    schedule: Schedule,
    kept: Sequence[LedgerEntry],
    since: date | None,
    problems: Problems,
) -> None:
    """Notes days that would be made although later ones are out, or earlier ones are asked for."""
    last = max(schedule.days())
    if since is not None and since > last:
        problems.add(job.place(("schedule",)), f"--from {since} is past its last day, {last}")
        return
    days = {entry.day for entry in kept}
    latest = max(days, default=date.min)
    end = max(since or latest, latest)
    late = [day for day in schedule.days() if day not in days and day < end]
    if not late:
        return
    count = "1 earlier day is" if len(late) == 1 else f"{len(late)} earlier days are"
    message = f"{count} not in the ledger, first {late[0]}"
    if since is not None and latest < late[0]:
        message += f"; --from {since} can only go on from days that are"
    else:
        message += f", but {latest} is; name days without a puzzle under except"
    problems.add(job.place(("schedule",)), message)


def _check_end(job: Job[ColumnJob], problems: Problems) -> None:
    """An end, and only one, that is not before the beginning."""
    values: ScheduleJob = job.values.schedule
    if values.until is not None and values.issues:
        message = "found issues beside until, expected one of the two"
        problems.add(job.place(("schedule", "issues")), message)
    elif values.until is None and not values.issues:
        message = "found no end, expected until: 2027-03-31 or issues: 72"
        problems.add(job.place(("schedule",)), message)
    elif values.until is not None and values.until.last < values.from_.first:
        found, expected = str(values.until.last), f"{values.from_.first}, its first day, or later"
        problems.expected(job.place(("schedule", "until")), found, expected)


def _check_weekdays(job: Job[ColumnJob], problems: Problems) -> None:
    """Specials have days with an issue, and no day is of two kinds."""
    values = job.values
    days = values.schedule.days
    taken: set[int] = set()
    for index, special in enumerate(values.specials):
        place = job.place(("specials", index, "days"))
        for day in sorted(special.days - days):
            problems.add(place, f"{WEEKDAYS[day]} is not among the days of the schedule")
        for day in sorted(special.days & taken):
            problems.add(place, f"{WEEKDAYS[day]} is the day of another special already")
        taken |= special.days


def _without(job: Job[ColumnJob]) -> frozenset[date]:
    """The days without a paper, those of files among them. Raises Unreadable."""
    found: set[date] = set()
    for at, each in enumerate(job.values.schedule.except_):
        if isinstance(each, DaySpan):
            found.update(each.days())
        else:
            place = job.place(("schedule", "except", at))
            found |= holidays(job.folder, each, place, date(LAST_YEAR, 12, 31))
    return frozenset(found)


def idle_grades(values: ColumnJob) -> Iterator[str]:
    """The weekdays that have a grade and no puzzle, in words."""
    for day in sorted(values.schedule.grades.keys() - values.schedule.days):
        yield f"{WEEKDAYS[day]} has a grade, but is not among the days of the schedule"
