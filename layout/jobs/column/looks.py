"""How days are set, as a short word of the ledger: where it is another, the day would be, too."""

from collections.abc import Iterator, Sequence
from hashlib import sha256
from typing import Final

from layout.jobs.column.column_job import ColumnJob
from layout.jobs.column.day_files import ColumnDesign
from layout.jobs.column.ledger import LedgerEntry
from layout.jobs.column.schedule import Schedule
from layout.jobs.column.season import DayKind, kind_of

LENGTH: Final = 12


def look_of(
    entry: LedgerEntry,
    schedule: Schedule,
    kinds: Sequence[DayKind],
    design: ColumnDesign,
    values: ColumnJob,
) -> str:
    """All that job and style say of a day: its heading and size, its grade, its files."""
    kind = kinds[kind_of(entry.day, values)]
    wish = sorted(schedule.wish(entry.day) or ())
    own = (kind.heading, kind.width, kind.depth, wish, values.note, values.answer)
    files = (values.output.name, values.output.formats)
    return sha256(repr((own, files, design)).encode()).hexdigest()[:LENGTH]


def told_changes(
    kept: Sequence[LedgerEntry],
    schedule: Schedule,
    kinds: Sequence[DayKind],
    design: ColumnDesign,
    values: ColumnJob,
) -> Iterator[str]:
    """That published days of the schedule would come out otherwise now, and how to make them anew.

    Of days that an earlier version made nobody knows.
    """
    days = set(schedule.days())
    changed = [
        entry.day
        for entry in kept
        if entry.day in days
        and entry.look not in ("", look_of(entry, schedule, kinds, design, values))
    ]
    if changed:
        count = "1 published day" if len(changed) == 1 else f"{len(changed)} published days"
        yield (
            f"{count} would come out otherwise, the first on {changed[0]}: the job or its style "
            f"has changed since; --from {changed[0]} makes them anew"
        )
