"""The issues of a column that are to be drawn: new days, and published ones that lost a file."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Final

from layout.jobs.column.column_job import FORMATS, ColumnJob
from layout.jobs.column.day_puzzles import DayPuzzles
from layout.jobs.column.editions import Edition
from layout.jobs.column.ledger import FILE_NAME, Ledger, LedgerEntry
from layout.jobs.column.recalling import recall
from layout.jobs.column.schedule import WEEKDAYS, week_of
from layout.jobs.column.season import DayKind, Season, Slot, kind_of
from layout.jobs.common.choosing import Known, TooFew, choose
from layout.jobs.common.job import Job
from layout.jobs.common.making import Making
from layout.language.words import fill
from layout.pages.column.column import ColumnDay, Previous
from verify.reading.problems import Problem, Problems, Unreadable
from verify.walk.report.grade import Band
from verify.walk.report.kept import GradeKeeper


@dataclass(frozen=True, slots=True)
class Print:
    """A day as one paper prints it: its kind there, the format of each of its files by name."""

    edition: Edition
    kind: DayKind
    day: ColumnDay
    files: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Issue:
    """A day to be drawn: its puzzle, and what each paper makes of it.

    `entry` is its entry in the ledger where it is published already and files are missing.
    """

    date: date
    number: int
    known: Known
    prints: tuple[Print, ...]
    entry: LedgerEntry | None = None


@dataclass(frozen=True)
class IssuePlanner:
    """All that the issues of a season follow from.

    `puzzles` are all that the job lists; `keeper` may know their grades.
    """

    job: Job[ColumnJob]
    making: Making
    folder: Path
    editions: Sequence[Edition]
    ledger: Ledger
    season: Season
    puzzles: DayPuzzles
    keeper: GradeKeeper | None = None

    def issues(self) -> list[Issue]:
        """All that is to be drawn, lost files first.

        Raises Unreadable where the bank runs dry, where two days have one file, and where the
        ledger names a puzzle that is no longer there; MayNotBePrinted for a puzzle without
        exactly one answer.
        """
        chosen = self._chosen()
        self._check_names(chosen)
        lost = self._lost()
        again = [*lost, *self._beside(chosen, lost)]
        wanted = self._to_recall(again, bool(chosen))
        recalled = recall(wanted, self.puzzles, self.ledger, self.making)
        return [*self._again(again, recalled), *self._new(chosen, recalled)]

    # New days

    def _chosen(self) -> list[tuple[Slot, Known]]:
        """A puzzle for each day to be made, in the order of the days."""
        kept = self.season.kept
        used = {entry.canonical for entry in kept}
        chosen: dict[Slot, Known] = {}
        problems = Problems()
        kinds = self.editions[0].kinds
        for kind in range(len(kinds)):
            slots = [slot for slot in self.season.slots if slot.kind == kind]
            with self.making.progress("choosing", len(slots)) as done:
                try:
                    known = choose(
                        [slot.wish for slot in slots],
                        self.puzzles.unused(kind, kept),
                        used,
                        self.making.workers,
                        done,
                        self.making.budget,
                        self.keeper,
                    )
                except TooFew as few:
                    place = self.job.place((*kinds[kind].path, "puzzles"))
                    problems.add(place, f"too few puzzles for the schedule; {few}")
                    continue
            used |= {each.canonical for each in known}
            chosen.update(zip(slots, known, strict=True))
        problems.raise_if_any()
        return [(slot, chosen[slot]) for slot in self.season.slots]

    def _check_names(self, chosen: Sequence[tuple[Slot, Known]]) -> None:
        """Raises Unreadable at the first day that has the file of another, or the ledger's."""
        owners = {FILE_NAME: "the ledger"}
        for entry in self.season.kept:
            owners |= {file.name.casefold(): str(entry.day) for file in entry.files}
        for slot, known in chosen:
            for name in self._all_names(slot, known):
                owner = owners.setdefault(name.casefold(), str(slot.day))
                if owner != str(slot.day):
                    pattern = self.job.values.output.name
                    message = (
                        f'"{pattern}" gives {owner} and {slot.day} one file, {name}; '
                        "a name with {date} or {number} is that of one day"
                    )
                    raise Unreadable([Problem(self.job.place(("output", "name")), message)])

    def _all_names(self, slot: Slot, known: Known) -> Iterator[str]:
        """The files of a day in all papers."""
        for edition in self.editions:
            yield from self._names(edition, slot.day, slot.number, known.puzzle.id, known.grade)
        if slot.day == self.season.last:
            answers = self._answer_names(slot.number, known.puzzle.id, known.grade)
            for names in answers.values():
                yield from names

    def _names(
        self, edition: Edition, day: date, number: int, puzzle: str, grade: Band
    ) -> Mapping[str, str]:
        """The files of a day in one paper, each with its format."""
        output = edition.job.values.output
        stem = fill(
            output.name,
            date=day.isoformat(),
            week=week_of(day),
            day=WEEKDAYS[day.weekday()],
            number=number,
            id=puzzle,
            grade=grade.value,
            edition=edition.name,
        )
        return {f"{stem}.{ending}": ending for ending in output.formats}

    def _new(
        self, chosen: Sequence[tuple[Slot, Known]], recalled: Mapping[LedgerEntry, Known]
    ) -> Iterator[Issue]:
        """The new days, each with the answer of the day before."""
        kept = self.season.kept
        previous = _previous(kept[-1], recalled) if kept else None
        for slot, known in chosen:
            names = {
                edition.name: self._names(
                    edition, slot.day, slot.number, known.puzzle.id, known.grade
                )
                for edition in self.editions
            }
            prints = [*self._prints(slot.day, slot.number, known, known.grade, previous, names)]
            previous = Previous(slot.number, known.puzzle, known.answer, slot.day)
            if slot.day == self.season.last:
                answers = self._answer_names(slot.number, known.puzzle.id, known.grade)
                prints += self._answer_prints(previous, known.grade, answers)
            yield Issue(slot.day, slot.number, known, tuple(prints))

    def _answer_names(
        self, number: int, puzzle: str, grade: Band
    ) -> Mapping[str, Mapping[str, str]]:
        """The files of the last answer of the schedule in each paper, each with its format.

        They are named after the day on which it is due: pictures where these show earlier answers,
        html and txt where they have those of the day before. They belong to the day of the puzzle.
        """
        due = self.season.due
        if not self.job.values.output.last_answer or due is None:
            return {}
        found = {}
        for edition in self.editions:
            values = edition.job.values
            named = self._names(edition, due, number, f"{puzzle}-answer", grade)
            found[edition.name] = {
                name if "{id}" in values.output.name else _as_answer(name): ending
                for name, ending in named.items()
                if (
                    values.answer == "next-day"
                    if ending in IN_WORDS
                    else "previous-answer" in values.show
                )
            }
        return found

    def _answer_prints(
        self, last: Previous, grade: Band, names: Mapping[str, Mapping[str, str]]
    ) -> Iterator[Print]:
        """What each paper makes of the last answer, of whose files some are to be made."""
        for edition in self.editions:
            files, due = names.get(edition.name, {}), self.season.due
            if files and due is not None:
                values = edition.job.values
                kind = edition.kinds[kind_of(due, values)]
                heading, answer = kind.heading, last.answer
                day = ColumnDay(
                    heading, due, None, last.puzzle, grade, answer, last, due="next-day", over=True
                )
                yield Print(edition, kind, day, files)

    def _prints(
        self,
        day: date,
        number: int,
        known: Known,
        grade: Band,
        previous: Previous | None,
        names: Mapping[str, Mapping[str, str]],
    ) -> Iterator[Print]:
        """What each paper makes of a day, of whose files some are to be made."""
        for edition in self.editions:
            values = edition.job.values
            kind = edition.kinds[kind_of(day, values)]
            shown = ColumnDay(
                kind.heading,
                day,
                number,
                known.puzzle,
                grade,
                known.answer,
                previous,
                values.note,
                values.answer,
            )
            yield Print(edition, kind, shown, names.get(edition.name, {}))

    # Published days

    def _lost(self) -> list[tuple[LedgerEntry, Mapping[str, str]]]:
        """Published days of which files are missing, with the format of each by name."""
        lost: list[tuple[LedgerEntry, Mapping[str, str]]] = []
        problems = Problems()
        for entry in self.season.kept:
            missing = [file for file in entry.files if not (self.folder / file.name).exists()]
            for file in missing:
                if _ending(file.name) not in FORMATS or entry.grade not in _GRADES:
                    message = f"{file.name} is missing and can't be made again; put it back"
                    problems.add(self.ledger.place(file.line), message)
            if missing:
                lost.append((entry, {file.name: _ending(file.name) for file in missing}))
        problems.raise_if_any()
        return lost

    def _beside(
        self,
        chosen: Sequence[tuple[Slot, Known]],
        lost: Sequence[tuple[LedgerEntry, Mapping[str, str]]],
    ) -> Iterator[tuple[LedgerEntry, Mapping[str, str]]]:
        """Published days that share a week's zip with new ones; of their files none is drawn."""
        weeks = {week_of(slot.day) for slot, _ in chosen} if self.job.values.output.weekly else ()
        known = {entry for entry, _ in lost}
        for entry in self.season.kept:
            if week_of(entry.day) in weeks and entry not in known and entry.grade in _GRADES:
                yield entry, {}

    def _to_recall(
        self, lost: Sequence[tuple[LedgerEntry, object]], new: bool
    ) -> list[LedgerEntry]:
        """The published days whose puzzles must be drawn again, as themselves or as answers."""
        kept = self.season.kept
        answers = any(_shows_previous(edition) for edition in self.editions)
        wanted = dict.fromkeys(entry for entry, _ in lost)
        if answers:
            wanted |= dict.fromkeys(e for e in map(self._before, list(wanted)) if e is not None)
            wanted |= dict.fromkeys(kept[-1:] if new else ())
        return list(wanted)

    def _before(self, entry: LedgerEntry) -> LedgerEntry | None:
        """The published day before another."""
        at = self.season.kept.index(entry)
        return self.season.kept[at - 1] if at else None

    def _again(
        self,
        lost: Sequence[tuple[LedgerEntry, Mapping[str, str]]],
        recalled: Mapping[LedgerEntry, Known],
    ) -> Iterator[Issue]:
        """The published days that lost files, to be drawn as they were, or that are told of."""
        for entry, files in lost:
            before, known = self._before(entry), recalled[entry]
            previous = _previous(before, recalled) if before is not None else None
            grade = Band(entry.grade)
            answers = self._answers_among(entry, files)
            others = {
                name: ending
                for name, ending in files.items()
                if not any(name in each for each in answers.values())
            }
            names = self._by_edition(entry, others)
            prints = [*self._prints(entry.day, entry.number, known, grade, previous, names)]
            own = Previous(entry.number, known.puzzle, known.answer, entry.day)
            prints += self._answer_prints(own, grade, answers)
            yield Issue(entry.day, entry.number, known, tuple(prints), entry)

    def answer_files(self, entry: LedgerEntry) -> list[str]:
        """Those of a day's files that have the last answer of the schedule."""
        files = {file.name: _ending(file.name) for file in entry.files}
        known = entry.grade in _GRADES
        among = self._answers_among(entry, files) if known else {}
        return [name for each in among.values() for name in each]

    def _answers_among(
        self, entry: LedgerEntry, files: Mapping[str, str]
    ) -> Mapping[str, Mapping[str, str]]:
        """Those of some files of a published day that have the last answer, by paper."""
        if entry.day != self.season.last:
            return {}
        names = self._answer_names(entry.number, entry.puzzle, Band(entry.grade))
        return {
            paper: {name: ending for name, ending in each.items() if name in files}
            for paper, each in names.items()
        }

    def _by_edition(
        self, entry: LedgerEntry, files: Mapping[str, str]
    ) -> Mapping[str, Mapping[str, str]]:
        """Some files of a published day by the paper that has them; by their names, as far as
        these are as they were: the others are the first paper's.
        """
        left, found = dict(files), dict[str, Mapping[str, str]]()
        for edition in self.editions:
            named = self._names(edition, entry.day, entry.number, entry.puzzle, Band(entry.grade))
            found[edition.name] = {name: left.pop(name) for name in named if name in left}
        first = self.editions[0].name
        return {**found, first: {**found[first], **left}}


def _as_answer(name: str) -> str:
    """The name of a day's file with a word before its ending."""
    stem, _, ending = name.rpartition(".")
    return f"{stem}-answer.{ending}"


def _shows_previous(edition: Edition) -> bool:
    """Whether a paper has answers of the day before."""
    values = edition.job.values
    return "previous-answer" in values.show or values.answer == "next-day"


IN_WORDS: Final = frozenset({"html", "txt"})
"""Formats that have the answer that is due in them, and not by what is shown."""

_GRADES: Final = frozenset(band.value for band in Band)
"""Words that can be printed; a ledger may hold others, of an earlier version."""


def _previous(entry: LedgerEntry, recalled: Mapping[LedgerEntry, Known]) -> Previous | None:
    """What is printed of a published day on the next one; None where its answer is not."""
    known = recalled.get(entry)
    if known is None:
        return None
    return Previous(entry.number, known.puzzle, known.answer, entry.day)


def _ending(name: str) -> str:
    """The format of a file, by the end of its name."""
    return name.rpartition(".")[2]
