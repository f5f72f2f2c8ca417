"""Who gets which worksheet: names from the job, or from a table of them."""

import csv
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from layout.jobs.common.input_file import input_file
from layout.jobs.common.job import Job
from layout.jobs.worksheet.worksheet_job import WorksheetJob
from layout.jobs.worksheet.worksheet_values import LONGEST_NAME, MOST_PUPILS
from layout.pages.worksheet.handout import Copy, Worksheet
from verify.manifest.source import source_text
from verify.reading.node import Place, shown
from verify.reading.problems import Problems

COLUMNS: Final = ("name", "form", "rung")
"""The columns that a table of pupils can have; only the first must be there."""


@dataclass(frozen=True, slots=True)
class _Pupil:
    """A pupil, and what is told of the sheet; empty where it is not told."""

    name: str
    place: Place
    form: str = ""
    rung: str = ""


def copies_for(job: Job[WorksheetJob], worksheets: Sequence[Worksheet]) -> tuple[Copy, ...]:
    """A copy for each pupil, or one of each worksheet where no pupil is named.

    Forms go round in turn where the table names none. Raises Unreadable where the table can't be
    read, or names a sheet that is not there.
    """
    pupils = _pupils(job)
    if not pupils:
        return tuple(Copy(each) for each in worksheets)
    problems = Problems()
    by_name = {(str(each.rung or ""), each.form): each for each in worksheets}
    turns: dict[str, int] = {}
    found: list[Copy] = []
    for pupil in pupils:
        rung = _rung(pupil, worksheets, problems)
        forms = [form for of, form in by_name if of == rung]
        turn = turns.get(rung, 0)
        form = pupil.form or (forms[turn % len(forms)] if forms else "")
        turns[rung] = turn + (not pupil.form)
        worksheet = by_name.get((rung, form))
        if worksheet is not None:
            found.append(Copy(worksheet, pupil.name))
        elif forms:
            known = " or ".join(filter(None, forms)) or "none: there is but one form"
            problems.expected(pupil.place, f'the form "{shown(form)}"', known)
    problems.raise_if_any()
    return tuple(found)


def _rung(pupil: _Pupil, worksheets: Sequence[Worksheet], problems: Problems) -> str:
    """Which rung a pupil is on; none where there is no ladder."""
    rungs = sorted({str(each.rung) for each in worksheets if each.rung})
    if rungs and pupil.rung not in rungs:
        found = f'the rung "{shown(pupil.rung)}"' if pupil.rung else "no rung"
        expected = f"{', '.join(rungs)} for {pupil.name}, in the column rung of a .csv file"
        problems.expected(pupil.place, found, expected)
    return pupil.rung if rungs else ""


def _pupils(job: Job[WorksheetJob]) -> Sequence[_Pupil]:
    wanted = job.values.pupils
    if wanted.table:
        return _table(job, wanted.table)
    places = (job.place(("pupils", at)) for at in range(len(wanted.names)))
    return [_Pupil(name, place) for name, place in zip(wanted.names, places, strict=True)]


def _table(job: Job[WorksheetJob], name: str) -> Sequence[_Pupil]:
    """The rows of a table. Raises Unreadable."""
    path = input_file(job.folder, name, job.place(("pupils",)))
    lines = source_text(path, name).splitlines()
    separator = ";" if lines and lines[0].count(";") > lines[0].count(",") else ","
    problems = Problems()
    header = [each.strip().lower() for each in _cells(lines[0] if lines else "", separator)]
    if "name" not in header:
        problems.expected(Place(name, 1, 1), "no column name", f"a header of {', '.join(COLUMNS)}")
    problems.raise_if_any()
    rows = [
        (Place(name, number, 1), dict(zip(header, _cells(line, separator), strict=False)))
        for number, line in enumerate(lines[1:], start=2)
        if line.strip()
    ]
    found = [_row(place, cells, problems) for place, cells in rows]
    if not 0 < len(found) <= MOST_PUPILS:
        expected = f"from 1 to {MOST_PUPILS}"
        problems.expected(Place(name, 1, 1), f"{len(found)} rows under the header", expected)
    problems.raise_if_any()
    return found


def _cells(line: str, separator: str) -> list[str]:
    try:
        return next(csv.reader([line], delimiter=separator, strict=True), [])
    except csv.Error:
        return line.split(separator)


def _row(place: Place, cells: Mapping[str, str], problems: Problems) -> _Pupil:
    name = cells.get("name", "").strip()
    if not 0 < len(name) <= LONGEST_NAME:
        found = "no name" if not name else f"a name of {len(name)} characters"
        problems.expected(place, found, f"a name of up to {LONGEST_NAME} characters")
    form = cells.get("form", "").strip().upper()
    return _Pupil(name, place, form, cells.get("rung", "").strip())
