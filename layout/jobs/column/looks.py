"""How days are set, as a short word of the ledger: where it is another, the day would be, too."""

from collections.abc import Iterator, Sequence
from hashlib import sha256
from typing import Final

from layout.jobs.column.editions import Edition
from layout.jobs.column.ledger import LedgerEntry
from layout.jobs.column.schedule import Schedule
from layout.jobs.column.season import kind_of

LENGTH: Final = 12


def look_of(entry: LedgerEntry, schedule: Schedule, editions: Sequence[Edition]) -> str:
    """All that job and style say of a day in each paper: heading and size, grade, files."""
    said = [_said(entry, each) for each in editions]
    wish = sorted(schedule.wish(entry.day) or ())
    return sha256(repr((wish, said)).encode()).hexdigest()[:LENGTH]


def _said(entry: LedgerEntry, edition: Edition) -> object:
    """What stands for one paper."""
    values = edition.job.values
    kind = edition.kinds[kind_of(entry.day, values)]
    own = (kind.heading, kind.width, kind.depth, values.note, values.answer)
    return edition.name, own, values.output.name, values.output.formats, edition.design


def told_changes(
    kept: Sequence[LedgerEntry], schedule: Schedule, editions: Sequence[Edition]
) -> Iterator[str]:
    """That published days of the schedule would come out otherwise now, and how to make them anew.

    Of days that an earlier version made nobody knows.
    """
    days = set(schedule.days())
    changed = [
        entry.day
        for entry in kept
        if entry.day in days and entry.look not in ("", look_of(entry, schedule, editions))
    ]
    if changed:
        count = "1 published day" if len(changed) == 1 else f"{len(changed)} published days"
        yield (
            f"{count} would come out otherwise, the first on {changed[0]}: the job or its style "
            f"has changed since; --from {changed[0]} makes them anew"
        )
