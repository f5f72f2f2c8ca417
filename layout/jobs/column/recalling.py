"""The puzzles of published days, proved again: from the ledger, by their ids, or by their forms."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import closing
from dataclasses import replace
from functools import partial

from layout.jobs.column.day_puzzles import DayPuzzles
from layout.jobs.column.ledger import Ledger, LedgerEntry
from layout.jobs.common.choosing import Known, look_at, recognize, unfinished
from layout.jobs.common.making import Making
from layout.jobs.common.proving import refuse_unproved, unproved
from verify.check import Item
from verify.manifest.bank import puzzle_of
from verify.manifest.bank_line import BankLine
from verify.puzzle import Puzzle
from verify.reading.problems import Problems
from verify.work import in_order


def recall(
    entries: Sequence[LedgerEntry], puzzles: DayPuzzles, ledger: Ledger, making: Making
) -> Mapping[LedgerEntry, Known]:
    """The puzzles of some published days.

    A ledger holds the lines that it took from banks, as these may be sorted and pruned; one of an
    earlier version does not, so the banks are searched. Raises Unreadable where a puzzle is in
    neither, and MayNotBePrinted where one can't be proved in its time.
    """
    named = _named(entries, puzzles, ledger)
    found = dict(_as_published(named, making))
    lost = {entry.canonical: entry for entry in entries if entry not in found}
    if lost:
        found |= _searched(lost, puzzles.lines(), making)
    problems = Problems()
    for entry in entries:
        if entry in named and entry not in found:
            message = f'"{entry.puzzle}" is not the puzzle that was published on {entry.day}'
            problems.add(ledger.place(entry.line), message)
        elif entry not in found:
            message = f'found no puzzle "{entry.puzzle}" in the job, expected that of {entry.day}'
            problems.add(ledger.place(entry.line), message)
    problems.raise_if_any()
    return found


def _named(
    entries: Sequence[LedgerEntry], puzzles: DayPuzzles, ledger: Ledger
) -> Mapping[LedgerEntry, Puzzle]:
    """The puzzles that the ledger holds, and those that have the id of a day's puzzle."""
    found: dict[LedgerEntry, Puzzle] = {}
    by_id = {puzzle.id: puzzle for puzzle in puzzles.whole()}
    wanted: dict[str, LedgerEntry] = {}
    for entry in entries:
        if entry.cells:
            line = BankLine(
                ledger.place(entry.line),
                entry.puzzle,
                entry.cells,
                title=entry.title,
                constructor=entry.constructor,
            )
            found |= _read(entry, line)
        elif entry.puzzle in by_id:
            found[entry] = by_id[entry.puzzle]
        else:
            wanted[entry.puzzle] = entry
    if wanted:
        for line in puzzles.lines():
            if line.id in wanted:
                found |= _read(wanted[line.id], line)
    return found


def _read(entry: LedgerEntry, line: BankLine) -> Mapping[LedgerEntry, Puzzle]:
    puzzle = puzzle_of(line)
    return {entry: puzzle} if isinstance(puzzle, Puzzle) else {}


def _as_published(
    named: Mapping[LedgerEntry, Puzzle], making: Making
) -> Iterator[tuple[LedgerEntry, Known]]:
    """Those that are still what was published. Raises MayNotBePrinted for undecided ones."""
    task = partial(recognize, budget=making.budget)
    every = in_order(task, list(named.values()), making.workers, lost=unproved)
    for (entry, puzzle), known in zip(named.items(), every, strict=True):
        if isinstance(known, Known):
            if known.canonical == entry.canonical:
                yield entry, known
        elif known.word == "undecided":
            refuse_unproved([(puzzle, known)])


def _searched(
    lost: Mapping[str, LedgerEntry], items: Iterable[Item], making: Making
) -> dict[LedgerEntry, Known]:
    """Those of which the banks have a puzzle of the same form, wherever it stands now."""
    found: dict[LedgerEntry, Known] = {}
    task = partial(look_at, know_it=partial(recognize, budget=making.budget))
    with (
        making.progress("searching", len(lost)) as done,
        closing(in_order(task, items, making.workers, lost=unfinished)) as every,
    ):
        for known in every:
            if isinstance(known, Known) and known.canonical in lost:
                entry = lost[known.canonical]
                puzzle = replace(known.puzzle, id=entry.puzzle)
                found.setdefault(entry, replace(known, puzzle=puzzle))
            done(len(found))
            if len(found) == len(lost):
                break
    return found
