"""The ledger of a column: what came out on which day, so that no published day ever changes.

A CSV file (RFC 4180, lines that end with CR LF; LF alone is read as well) with a line for each
file of a day, days in their order. The checksum is that of the file by SHA-256; `canonical` stands
for the puzzle in all its disguises. The grade is the word that was printed that day: any single
lower-case word, as names of grades may change while a published day may not. Of a puzzle from a
bank its cells, title and constructor are kept as well, as the bank may be pruned; `look` is the
same for days that the same job and style would set alike. Earlier ledgers have no such columns.
"""

import csv
import hashlib
import re
import stat
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date
from io import StringIO
from itertools import groupby
from pathlib import Path
from typing import Final

from verify.manifest.source import shown_path, source_lines
from verify.reading.node import Place, shown
from verify.reading.problems import MOST_PROBLEMS, Problem, Problems

FILE_NAME: Final = "ledger.csv"

EARLIER_HEAD: Final = ("date", "number", "puzzle", "grade", "file", "checksum", "canonical")

HEAD: Final = (*EARLIER_HEAD, "cells", "title", "constructor", "look")

LONGEST_LINE: Final = 4000

MOST_LINES: Final = 1_000_000

_CHECKSUM: Final = re.compile("[0-9a-f]{64}")
_NUMBER: Final = re.compile("[0-9]{1,9}")
_GRADE: Final = re.compile("[a-z]{1,30}")
_LOOK: Final = re.compile("([0-9a-f]{12})?")
_CELLS: Final = re.compile("[0-9A-G.]{0,256}")


@dataclass(frozen=True, slots=True)
class Published:
    """A file of a published day; `line` is its line in the ledger."""

    name: str
    checksum: str
    line: int = 0


@dataclass(frozen=True, slots=True)
class LedgerEntry:
    """A published day: its puzzle by id and by canonical form, its number, grade and files.

    `cells`, `title` and `constructor` are those of a line of a bank; empty for any other puzzle.
    `look` stands for how it was set; empty where an earlier version did that.
    """

    day: date
    number: int
    puzzle: str
    grade: str
    canonical: str
    files: tuple[Published, ...]
    cells: str = ""
    title: str = ""
    constructor: str = ""
    look: str = ""

    @property
    def line(self) -> int:
        """Its first line in the ledger."""
        return self.files[0].line


@dataclass(frozen=True, slots=True)
class Ledger:
    """Published days in their order; `name` is what messages call the file."""

    name: str
    entries: tuple[LedgerEntry, ...]

    def place(self, line: int) -> Place:
        """A line of the file."""
        return Place(self.name, line, 1)


def checksum(data: bytes) -> str:
    """The checksum of a file's bytes."""
    return hashlib.sha256(data).hexdigest()


def kept_checksum(path: Path) -> str | None:
    """The checksum of a file, or None where there is none; "" for a link, a pipe or a folder."""
    try:
        if not stat.S_ISREG(path.lstat().st_mode):
            return ""
        with path.open("rb") as file:
            return hashlib.file_digest(file, "sha256").hexdigest()
    except FileNotFoundError:
        return None


def ledger_text(entries: Iterable[LedgerEntry]) -> str:
    """The ledger as its file holds it."""
    text = StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(HEAD)
    for entry in entries:
        for file in entry.files:
            fields = (entry.day.isoformat(), entry.number, entry.puzzle, entry.grade)
            words = (entry.canonical, entry.cells, entry.title, entry.constructor, entry.look)
            writer.writerow((*fields, file.name, file.checksum, *words))
    return text.getvalue()


def read_ledger(folder: Path) -> Ledger:
    """The ledger of a folder; one without days where there is none yet.

    Raises Unreadable, each problem at its line, where it contradicts itself or the files of
    the folder. That a file is missing is no contradiction.
    """
    path = folder / FILE_NAME
    name = shown_path(path)
    problems = Problems()
    if path.is_symlink():
        problems.add(Place(name, 1, 1), "found a link, expected a file")
        problems.raise_if_any()
    if not path.exists():
        _check_earlier(folder, name, problems)
        return Ledger(name, ())
    rows = list(_rows(path, name, problems))
    problems.raise_if_any()
    ledger = Ledger(name, tuple(_entries(rows)))
    _check(ledger, rows, problems)
    _check_files(ledger, folder, problems)
    problems.raise_if_any()
    return ledger


def _check_earlier(folder: Path, name: str, problems: Problems) -> None:
    """Raises Unreadable where a broken run of Reglet 0.4.0 has hidden the ledger."""
    for hidden in folder.glob(f".making.*/*/{FILE_NAME}"):
        message = f"a run was broken off; its ledger is {shown_path(hidden)}: put it back here"
        problems.add(Place(name, 1, 1), message)
    problems.raise_if_any()


@dataclass(frozen=True, slots=True)
class _LedgerLine:
    """A line: a day as that line tells it, with one file."""

    line: int
    entry: LedgerEntry

    @property
    def shared(self) -> LedgerEntry:
        """What all lines of a day must agree in."""
        return replace(self.entry, files=())


def _rows(path: Path, name: str, problems: Problems) -> Iterator[_LedgerLine]:
    """Each line below the head; what can't be read goes to the problems."""
    lines, columns = 0, len(HEAD)
    for lines, line in enumerate(source_lines(path, name, LONGEST_LINE), start=1):
        place = Place(name, lines, 1)
        if lines > MOST_LINES or problems.full:
            problems.found[MOST_PROBLEMS - 1 :] = [Problem(place, "the rest was not read")]
            return
        fields = _fields(line)
        if lines == 1:
            columns = len(EARLIER_HEAD) if tuple(fields) == EARLIER_HEAD else columns
            _check_head(fields, place, problems)
        elif line.strip():
            row = _row(fields, columns, place, problems)
            if row is not None:
                yield row
    if not lines:
        problems.expected(Place(name, 1, 1), "nothing", f"a line with {','.join(HEAD)}")


def _check_head(fields: Sequence[str], place: Place, problems: Problems) -> None:
    if tuple(fields) not in (HEAD, EARLIER_HEAD):
        problems.expected(place, f'"{shown(",".join(fields))}"', f'"{",".join(HEAD)}"')


def _fields(line: str) -> Sequence[str]:
    """The fields of one line; a line that is no CSV is a single field."""
    try:
        return next(csv.reader([line], strict=True), [])
    except csv.Error:
        return [line]


def _row(
    fields: Sequence[str], columns: int, place: Place, problems: Problems
) -> _LedgerLine | None:
    """What a line says, or None where it has a problem."""
    if len(fields) != columns:
        expected = f"{columns}: {','.join(HEAD[:columns])}"
        problems.expected(place, f"{len(fields)} fields", expected)
        return None
    fields = [*fields, *[""] * len(HEAD)][: len(HEAD)]
    day, number, puzzle, grade, file, digest, canonical, *line = fields
    wrong = _first_wrong(fields)
    if wrong is not None:
        found, expected = wrong
        problems.expected(place, f'"{shown(found)}"', expected)
        return None
    files = (Published(file, digest, place.line),)
    facts = (date.fromisoformat(day), int(number), puzzle, grade, canonical)
    entry = LedgerEntry(*facts, files, *line)
    return _LedgerLine(place.line, entry)


def _first_wrong(fields: Sequence[str]) -> tuple[str, str] | None:
    """The first field that can't be what it stands for, and what was expected."""
    day, number, puzzle, grade, file, digest, canonical, cells, title, constructor, look = fields
    checks = (
        (day, _is_day(day), "a date such as 2027-01-04"),
        (number, _NUMBER.fullmatch(number), "the number of a puzzle"),
        (puzzle, puzzle.strip() and puzzle.isprintable(), "the id of a puzzle"),
        (grade, _GRADE.fullmatch(grade), "a grade, one lower-case word such as calm"),
        (file, is_plain_name(file), "the name of a file in the folder of the ledger"),
        (digest, _CHECKSUM.fullmatch(digest), "a checksum of 64 digits 0-9 and a-f"),
        (canonical, canonical.strip(), "the canonical form of the puzzle"),
        (cells, _CELLS.fullmatch(cells), "the cells of a line of a bank, or nothing"),
        (title, title.isprintable(), "the title of a puzzle, or nothing"),
        (constructor, constructor.isprintable(), "who made a puzzle, or nothing"),
        (look, _LOOK.fullmatch(look), "a look, 12 digits 0-9 and a-f, or nothing"),
    )
    return next(((text, expected) for text, fine, expected in checks if not fine), None)


def _is_day(text: str) -> bool:
    try:
        return date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False


def is_plain_name(name: str) -> bool:
    """Whether a name is that of a file in its folder, on any system, and not hidden."""
    apart = name.isprintable() and not re.search(r'[/\\:*?"<>|]', name)
    return apart and bool(name.strip()) and name[0] != "." and name[-1] not in " ."


def _entries(rows: Sequence[_LedgerLine]) -> Iterator[LedgerEntry]:
    """The days, each with the files of its lines."""
    for _, group in groupby(rows, key=lambda row: row.entry.day):
        lines = list(group)
        first = lines[0].entry
        files = tuple(file for row in lines for file in row.entry.files)
        yield replace(first, files=files)


def _check(ledger: Ledger, rows: Sequence[_LedgerLine], problems: Problems) -> None:
    """Holds the ledger against itself."""
    days: dict[date, _LedgerLine] = {}
    names: dict[str, int] = {}
    for row in rows:
        place, entry = ledger.place(row.line), row.entry
        first = days.setdefault(entry.day, row)
        if first.shared != row.shared:
            problems.add(place, f"line {first.line} tells another puzzle of {entry.day}")
        other = names.setdefault(entry.files[0].name.casefold(), row.line)
        if other != row.line:
            problems.add(place, f"{entry.files[0].name} stands in line {other} already")
    _check_order(ledger, problems)


def _check_order(ledger: Ledger, problems: Problems) -> None:
    """Days in their order, and no puzzle on two of them."""
    kin: dict[str, LedgerEntry] = {}
    latest = date.min
    for entry in ledger.entries:
        if entry.day <= latest:
            problems.add(ledger.place(entry.line), f"{entry.day} stands behind {latest}")
        latest = max(latest, entry.day)
        other = kin.setdefault(entry.canonical, entry)
        if other is not entry:
            message = f"{entry.puzzle} is the puzzle of {other.day} in line {other.line} again"
            problems.add(ledger.place(entry.line), message)


def _check_files(ledger: Ledger, folder: Path, problems: Problems) -> None:
    """Holds the ledger against the files that are there."""
    for entry in ledger.entries:
        for file in entry.files:
            if kept_checksum(folder / file.name) not in (None, file.checksum):
                message = (
                    f"{file.name} is not the file that was published on {entry.day}: its "
                    "checksum is another; put the published file or the ledger's line back"
                )
                problems.add(ledger.place(file.line), message)
