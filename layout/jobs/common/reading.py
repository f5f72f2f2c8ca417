"""The puzzles of a job, read: manifests, and lines of banks, each with where the job lists it."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence, Set
from dataclasses import dataclass
from itertools import islice
from pathlib import Path

from layout.console import counted
from layout.jobs.common.job import AnyJob
from layout.jobs.common.line_span import ALL_LINES
from layout.jobs.common.listing import MOST_PUZZLES, ListedFile, PuzzleGroup
from verify.manifest.bank import puzzle_of
from verify.manifest.bank_line import BankLine, bank_lines
from verify.manifest.read import read_puzzle
from verify.puzzle import Puzzle
from verify.reading.node import Place
from verify.reading.problems import Problem, Problems, Unreadable
from verify.work import in_order


@dataclass(frozen=True, slots=True)
class Listed:
    """A puzzle, and where the job lists it."""

    file: ListedFile
    puzzle: Puzzle


def read_listed(
    job: AnyJob,
    groups: Sequence[PuzzleGroup],
    files: Sequence[ListedFile],
    workers: int | None,
    progress: Callable[[int], None],
) -> list[Listed]:
    """The puzzles in the order of the job; of a group that chooses only as many as it takes.

    These are its first ones that no other group has: they stand for those that are chosen later.
    Raises Unreadable with the problems of all files together.
    """
    problems = Problems()
    read = read_manifests(files, workers, progress, problems)
    listed: list[Listed] = []
    for number, group in sorted(enumerate(groups), key=lambda each: each[1].count > 0):
        own = _puzzles([each for each in files if each.group == number], read, problems)
        if group.count:
            listed += _first(group, job, own, {each.puzzle.source for each in listed}, problems)
        else:
            listed += islice(own, MOST_PUZZLES + 1 - len(listed))
    listed.sort(key=lambda each: each.file.group)
    if len(listed) > MOST_PUZZLES:
        problems.expected(job.tree.place, f"more than {MOST_PUZZLES} puzzles", "fewer")
    check_ids(listed, problems)
    problems.raise_if_any()
    return listed


def check_ids(listed: Iterable[Listed], problems: Problems) -> None:
    """Notes each puzzle that has the id of another."""
    first: dict[str, Puzzle] = {}
    for puzzle in (each.puzzle for each in listed):
        other = first.setdefault(puzzle.id, puzzle)
        if other is not puzzle:
            message = f'the id "{puzzle.id}" is that of {other.source} already; each needs its own'
            problems.add(puzzle.place_of("id"), message)


def _first(
    group: PuzzleGroup, job: AnyJob, own: Iterator[Listed], taken: Set[str], problems: Problems
) -> list[Listed]:
    """As many puzzles as a group takes, none of those that are taken."""
    told = len(problems.found)
    free = (each for each in own if each.puzzle.source not in taken)
    some = list(islice(free, group.count))
    if len(some) < group.count and told == len(problems.found):
        found = f"{counted(len(some), 'puzzle')} to choose from"
        problems.expected(job.place((*group.path[:-1], "count")), found, f"at least {group.count}")
    return some


def _puzzles(
    files: Iterable[ListedFile], read: Mapping[Path, Puzzle], problems: Problems
) -> Iterator[Listed]:
    """The puzzles of some files; what is wrong with a line is noted."""
    for file in files:
        if not file.is_bank:
            if file.path in read:
                yield Listed(file, read[file.path])
            continue
        for line in span_lines(file):
            found = line if isinstance(line, Problem) else puzzle_of(line)
            if isinstance(found, Puzzle):
                yield Listed(file, found)
                continue
            problems.add(found.place, found.message)
            if problems.full:
                return


def span_lines(file: ListedFile) -> Iterator[BankLine | Problem]:
    """The lines of a bank that are meant, each read as it is asked for; what is wrong in its stead.

    That there is none, or that the bank ends before them, is a problem where the job lists it.
    """
    last = 0
    try:
        for line in bank_lines(file.path, file.name):
            last = line.place.line
            if last > file.span.last:
                return
            if last >= file.span.first or (isinstance(line, Problem) and last == 1):
                yield line
    except Unreadable as unreadable:
        yield from unreadable.problems
        return
    if file.span is not ALL_LINES and last < file.span.last:
        message = f"found {file.span}, expected lines of {file.name}, whose last is {last}"
        yield Problem(file.place, message)
    elif not last:
        yield Problem(file.place, f"found no puzzle in {file.name}, expected one a line")


def read_manifests(
    files: Iterable[ListedFile],
    workers: int | None,
    progress: Callable[[int], None],
    problems: Problems,
) -> Mapping[Path, Puzzle]:
    """The puzzles of all manifests; what is wrong with one is noted."""
    once = list({each.path: each for each in files if not each.is_bank}.values())
    read: dict[Path, Puzzle] = {}
    for file, found in zip(
        once, in_order(_read, once, workers, progress, lost=_unread), strict=True
    ):
        if isinstance(found, Puzzle):
            read[file.path] = found
        else:
            for problem in found:
                problems.add(problem.place, problem.message)
    return read


def _read(file: ListedFile) -> Puzzle | tuple[Problem, ...]:
    """A puzzle, or what is wrong with it."""
    try:
        return read_puzzle(file.path, file.name)
    except Unreadable as unreadable:
        return unreadable.problems


def _unread(file: ListedFile) -> tuple[Problem, ...]:
    """What is told of a file that no process lived to read."""
    return (Problem(Place(file.name, 1, 1), "the memory there is does not suffice to read it"),)
