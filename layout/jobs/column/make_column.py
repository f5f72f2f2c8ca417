"""A newspaper's column: a season of days, each with its files, and the ledger that keeps them."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from layout.jobs.column.column_job import ColumnJob
from layout.jobs.column.day_files import DayTask, day_files, undrawn
from layout.jobs.column.day_puzzles import read_day_puzzles
from layout.jobs.column.editions import editions_of
from layout.jobs.column.issues import Issue, IssuePlanner, Print
from layout.jobs.column.ledger import (
    FILE_NAME,
    LedgerEntry,
    Published,
    checksum,
    kept_checksum,
    ledger_text,
    read_ledger,
)
from layout.jobs.column.looks import look_of, told_changes
from layout.jobs.column.schedule import WEEKDAYS, Schedule
from layout.jobs.column.season import idle_grades, plan_season, schedule_of
from layout.jobs.column.signing import signing_sheets
from layout.jobs.column.weekly import Packages
from layout.jobs.common.composed_puzzles import composed_puzzles
from layout.jobs.common.job import Job
from layout.jobs.common.listing import PuzzleGroup, listed_files, puzzle_group
from layout.jobs.common.making import Making, Outcome
from layout.jobs.common.output_path import output_path
from layout.jobs.common.placing import placed
from layout.output.write import Check, Outputs, outputs_in
from layout.pages.common.misfit import JobPath, Misfit
from verify.manifest.bank import cells_in_line
from verify.reading.problems import Problem, Problems
from verify.work import in_order


def make_column(job: Job[ColumnJob], making: Making) -> Outcome:
    """Makes the days that the ledger has not, and writes the ledger with them.

    Raises Unreadable for what can't be used, MayNotBePrinted where a puzzle has not exactly one
    answer, and OutputError where a file can't be written. All earlier files then stand.
    """
    folder = output_path(job, ("output", "folder"), job.values.output.folder)
    proof = job.values.output.proof
    proofs = [output_path(job, ("output", "proof"), proof).parent] if proof else []
    with outputs_in([folder, *proofs], job.name, making.tell) as outputs:
        return _make(job, making, folder, outputs)


def _make(job: Job[ColumnJob], making: Making, folder: Path, outputs: Outputs) -> Outcome:
    """Makes the days while their folder is held: nobody else writes its ledger."""
    schedule, editions = schedule_of(job), editions_of(job)
    for idle in idle_grades(job.values):
        making.tell(f"{job.name}: {idle}")
    ledger = read_ledger(folder)
    season = plan_season(job, schedule, ledger, making.since)
    groups = column_groups(job.values)
    files = listed_files(job, groups, making.root)
    with making.progress("reading", len(files)) as done:
        puzzles = read_day_puzzles(files, making.workers, done)
    puzzles = puzzles.with_composed(composed_puzzles(job, groups, making))
    keeper = making.grades(files[0].path if files else job.path)
    planner = IssuePlanner(job, making, folder, editions, ledger, season, puzzles, keeper)
    for change in told_changes(season.kept, schedule, editions):
        making.tell(f"{job.name}: {change}")
    run = _Run(planner, schedule, planner.issues())
    if making.dry_run:
        return _calendar(planner, run.issues)
    written: list[Path] = []
    if run.issues or season.dropped:
        unwanted = [folder / file.name for entry in season.dropped for file in entry.files]
        written = outputs.write_all(run.files(), unwanted)
    return _outcome(planner, schedule, written, (*season.kept, *run.entries))


def column_groups(values: ColumnJob) -> list[PuzzleGroup]:
    """What each kind of day lists or composes."""
    specials = [
        puzzle_group(("specials", index, "puzzles"), special.puzzles)
        for index, special in enumerate(values.specials)
    ]
    return [puzzle_group(("puzzles",), values.puzzles), *specials]


@dataclass(slots=True)
class _Run:
    """Draws issues; `entries` are those of the ledger for what was new among them."""

    planner: IssuePlanner
    schedule: Schedule
    issues: Sequence[Issue]
    entries: list[LedgerEntry] = field(default_factory=list)
    problems: Problems = field(default_factory=Problems)

    def files(self) -> Iterator[tuple[Path, bytes, Check | None]]:
        """Every file as it is made, the ledger last.

        Raises Unreadable, after all were made, for what does not fit, for a published file that
        does not come out as it was, and for one that stands where a new one would.
        """
        making = self.planner.making
        misfits: list[tuple[Misfit, Issue, Print]] = []
        packages = Packages(self.planner.folder, self.planner.job.values)
        tasks = [
            DayTask(each.day, each.kind, each.files, each.edition.design)
            for issue in self.issues
            for each in issue.prints
        ]
        with making.progress("drawing", len(tasks)) as done:
            drawn = iter(in_order(day_files, tasks, making.workers, done, lost=undrawn))
            for issue in self.issues:
                made: dict[str, bytes] = {}
                for each in issue.prints:
                    files = next(drawn)
                    if isinstance(files, tuple):
                        misfits += ((misfit, issue, each) for misfit in files)
                        continue
                    for name, data in files.items():
                        yield self.planner.folder / name, data, None
                    made |= files
                self._note(issue, {name: checksum(data) for name, data in made.items()})
                packages.add(issue, made)
        self._tell_misfits(misfits)
        self.problems.raise_if_any()
        yield from packages.zips()
        yield from self._signed()
        kept = self.planner.season.kept
        text = ledger_text((*kept, *self.entries))
        yield self.planner.folder / FILE_NAME, text.encode("utf-8"), None

    def _signed(self) -> Iterator[tuple[Path, bytes, Check | None]]:
        """The sheets to be signed, of what is new."""
        values = self.planner.job.values
        new = [issue for issue in self.issues if issue.entry is None]
        if values.output.proof and new:
            files = {each.number: [file.name for file in each.files] for each in self.entries}
            path = output_path(self.planner.job, ("output", "proof"), values.output.proof)
            yield path, signing_sheets(values.title, new, files), None

    def _note(self, issue: Issue, sums: Mapping[str, str]) -> None:
        """A new day for the ledger; a published one is held against it."""
        if issue.entry is not None:
            self._hold(issue.entry, sums)
            return
        self._check_free(sums)
        files = tuple(Published(name, digest) for name, digest in sums.items())
        known, puzzle = issue.known, issue.known.puzzle
        facts = (issue.date, issue.number, puzzle.id, known.grade.value, known.canonical)
        words = puzzle.credits
        line = (cells_in_line(puzzle), words.title, words.constructor) if puzzle.line else ()
        entry = LedgerEntry(*facts, files, *line)
        planner = self.planner
        look = look_of(entry, self.schedule, planner.editions)
        self.entries.append(replace(entry, look=look))

    def _hold(self, entry: LedgerEntry, sums: Mapping[str, str]) -> None:
        """Notes files that are missing and come out otherwise than they were published."""
        for file in entry.files:
            if sums.get(file.name, file.checksum) != file.checksum:
                message = (
                    f"{file.name} is missing and would come out otherwise than on {entry.day}; "
                    "put the published file back"
                )
                self.problems.add(self.planner.ledger.place(file.line), message)

    def _check_free(self, sums: Mapping[str, str]) -> None:
        """Notes files in the way that are neither the ledger's nor the same."""
        dropped = {file.name for entry in self.planner.season.dropped for file in entry.files}
        for name, digest in sums.items():
            if name in dropped or kept_checksum(self.planner.folder / name) in (None, digest):
                continue
            message = f"{name} stands there already and is not in the ledger; move it away"
            self.problems.add(self.planner.job.place(("output", "folder")), message)

    def _tell_misfits(self, misfits: Sequence[tuple[Misfit, Issue, Print]]) -> None:
        """What does not fit, at its place; what is the same on many days, once."""
        found: dict[tuple[str, JobPath, str, str], Problem] = {}
        for misfit, issue, each in misfits:
            own = misfit.puzzle is not None and misfit.field not in ("", "size")
            file = issue.known.puzzle.file if own else ""
            key = (misfit.message, each.kind.path, file, each.edition.name)
            if key not in found:
                (found[key],) = placed([_where(misfit, issue, each)], each.edition.job)
        for problem in found.values():
            self.problems.add(problem.place, problem.message)


def _where(misfit: Misfit, issue: Issue, printed: Print) -> Misfit:
    """What does not fit, with its place in the job where that is what must be changed."""
    path = printed.kind.path
    if misfit.puzzle is None:
        return replace(misfit, path=(*path, *misfit.path))
    if misfit.field != "size":
        return misfit
    key = "columns" if printed.edition.job.values.width is None else "width"
    message = f"{misfit.message} ({misfit.puzzle.id}, {issue.date})"
    return Misfit(message, (*path, key))


def _calendar(planner: IssuePlanner, issues: Sequence[Issue]) -> Outcome:
    """What would be made, a line a day, and nothing is written."""
    again = {issue.date for issue in issues if issue.entry is not None}
    rows = [
        (
            entry.day,
            entry.number,
            entry.grade,
            entry.puzzle,
            "lost" if entry.day in again else "out",
        )
        for entry in planner.season.kept
    ]
    rows += [
        (issue.date, issue.number, issue.known.grade.value, issue.known.puzzle.id, "new")
        for issue in issues
        if issue.entry is None
    ]
    rows += [
        (each.day.date, issue.number, issue.known.grade.value, issue.known.puzzle.id, "answer")
        for issue in issues
        for each in issue.prints[-1:]
        if issue.entry is None and each.day.over and each.day.date is not None
    ]
    days = [
        {
            "date": day.isoformat(),
            "number": number,
            "id": puzzle,
            "grade": grade,
            "state": state,
        }
        for day, number, grade, puzzle, state in rows
    ]
    wide = max(len(str(number)) for _, number, *_ in rows)
    states = max(len("lost"), *(len(state) for *_, state in rows))
    lines = [
        f"{day} {WEEKDAYS[day.weekday()]}  {number:>{wide}}  {grade:<8}  "
        f"{state:<{states}}  {puzzle}"
        for day, number, grade, puzzle, state in rows
    ]
    new = sum(1 for issue in issues if issue.entry is None)
    summary = f"{planner.folder}: days to be made: {new}; nothing was written"
    return Outcome((), {"days": days}, summary, tuple(lines))


def _outcome(
    planner: IssuePlanner,
    schedule: Schedule,
    written: Sequence[Path],
    entries: Sequence[LedgerEntry],
) -> Outcome:
    """What there is to tell of a season, and which answer is due on which day."""
    published = set(planner.season.kept)
    days = [
        {
            "date": entry.day.isoformat(),
            "number": entry.number,
            "id": entry.puzzle,
            "grade": entry.grade,
            "files": [file.name for file in entry.files],
            "published": entry in published,
        }
        for entry in entries
    ]
    last, folder = entries[-1], planner.folder
    on = schedule.after(last.day)
    due: dict[str, Any] = {"number": last.number, "id": last.puzzle, "date": on and on.isoformat()}
    if answers := planner.answer_files(last):
        due["files"] = answers
    new = len(entries) - len(published)
    found = f", in {', '.join(answers)}" if answers else ""
    summary = (
        f"{folder}: days made: {new}, as they were published: {len(published)}; "
        f"due on {on}: the answer to number {last.number} ({last.puzzle}){found}"
    )
    return Outcome(tuple(written), {"days": days, "due": due}, summary)
