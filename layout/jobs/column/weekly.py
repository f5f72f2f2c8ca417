"""A week's files in one zip, for those who pass them on: with lists of them in CSV and JSON."""

import csv
import json
from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from io import BytesIO, StringIO
from pathlib import Path
from typing import Any, Final
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

from layout.jobs.column.column_job import ColumnJob
from layout.jobs.column.day_files import caption_of
from layout.jobs.column.issues import Issue
from layout.jobs.column.ledger import checksum
from layout.jobs.column.schedule import week_of
from layout.language.words import words_for

LISTS: Final = ("manifest.csv", "manifest.json")
"""The lists in each zip."""

HEAD: Final = (
    "date",
    "number",
    "heading",
    "id",
    "title",
    "constructor",
    "grade",
    "rules",
    "credit",
    "file",
    "sha256",
)

EARLIEST: Final = (1980, 1, 1, 0, 0, 0)
"""The time that zips give to every file: none tells when it was packed."""


class Packages:
    """Gathers days as they are made, and packs the weeks that have a new one among them."""

    def __init__(self, folder: Path, values: ColumnJob) -> None:
        self._folder, self._values = folder, values
        self._days: dict[date, tuple[Mapping[str, Any], Mapping[str, bytes]]] = {}
        self._new: set[str] = set()

    def add(self, issue: Issue, drawn: Mapping[str, bytes]) -> None:
        """A day with the files that were drawn of it; others lie in the folder."""
        if not self._values.output.weekly:
            return
        files = dict(drawn)
        if issue.entry is None:
            self._new.add(week_of(issue.date))
        else:
            names = [file.name for file in issue.entry.files]
            files = {name: drawn.get(name) or (self._folder / name).read_bytes() for name in names}
        self._days[issue.date] = (self._facts(issue), files)

    def zips(self) -> Iterator[tuple[Path, bytes, None]]:
        """The zip of each week, by its name."""
        for week in sorted(self._new):
            days = [told for day, told in sorted(self._days.items()) if week_of(day) == week]
            yield self._folder / f"{week}.zip", weekly_zip(days), None

    def _facts(self, issue: Issue) -> Mapping[str, Any]:
        """What is said of a day, in the words of the first paper."""
        printed = issue.prints[0]
        design, puzzle = printed.edition.design, issue.known.puzzle
        words = words_for(design.language)
        caption = caption_of(printed.day, words, design)
        return {
            "date": issue.date.isoformat(),
            "number": issue.number,
            "heading": printed.day.heading,
            "id": puzzle.id,
            "title": puzzle.title,
            "constructor": caption.creator,
            "grade": words.grades.bands[printed.day.grade.value],
            "rules": caption.description,
            "credit": caption.credit,
        }


def weekly_zip(days: Sequence[tuple[Mapping[str, Any], Mapping[str, bytes]]]) -> bytes:
    """The zip of some days, each with what is said of it, and its files by name.

    What is said has the keys of the list but for those of a file.
    """
    rows = [
        {**facts, "file": name, "sha256": checksum(data)}
        for facts, files in days
        for name, data in files.items()
    ]
    packed = BytesIO()
    with ZipFile(packed, "w", ZIP_DEFLATED) as whole:
        for name, data in zip(LISTS, (_csv(rows), _json(days)), strict=True):
            whole.writestr(_entry(name), data)
        for _, files in days:
            for name, data in files.items():
                whole.writestr(_entry(name), data)
    return packed.getvalue()


def _entry(name: str) -> ZipInfo:
    entry = ZipInfo(name, EARLIEST)
    entry.compress_type = ZIP_DEFLATED
    entry.external_attr = 0o644 << 16
    return entry


def _csv(rows: Sequence[Mapping[str, Any]]) -> bytes:
    """A line for each file (RFC 4180), with a byte order mark, which spreadsheets look for."""
    text = StringIO()
    writer = csv.DictWriter(text, HEAD, lineterminator="\r\n")
    writer.writeheader()
    writer.writerows(rows)
    return text.getvalue().encode("utf-8-sig")


def _json(days: Sequence[tuple[Mapping[str, Any], Mapping[str, bytes]]]) -> bytes:
    """A day each, with its files."""
    told = [
        {
            **facts,
            "files": [{"file": name, "sha256": checksum(data)} for name, data in files.items()],
        }
        for facts, files in days
    ]
    return (json.dumps({"days": told}, ensure_ascii=False, indent=2) + "\n").encode()
