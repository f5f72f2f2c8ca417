"""The puzzles that a job lists: patterns -> files -> puzzles, in the order of the book."""

import os
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path, PurePath
from typing import Final

from layout.jobs.common.job import AnyJob
from layout.pages.common.misfit import JobPath
from verify.manifest.find import MANIFEST_SUFFIXES, natural_key
from verify.manifest.read import read_puzzle
from verify.manifest.source import lies_in, shown_path
from verify.puzzle import Puzzle
from verify.reading.node import Place, shown
from verify.reading.problems import Problem, Problems, Unreadable
from verify.work import in_order

MOST_PUZZLES: Final = 10_000
"""Puzzles of one job."""


@dataclass(frozen=True, slots=True)
class PuzzleGroup:
    """File names or patterns that a job lists at `path`."""

    path: JobPath
    patterns: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ListedFile:
    """A manifest or a bank that a job lists.

    `group` is the number of the group that it is in, `place` where the job lists it.
    """

    group: int
    path: Path
    name: str
    place: Place


def is_bank(file: ListedFile) -> bool:
    """Whether a file holds a puzzle a line."""
    return file.path.suffix.lower() not in MANIFEST_SUFFIXES


def listed_files(job: AnyJob, groups: Sequence[PuzzleGroup], root: Path | None) -> list[ListedFile]:
    """The files of every group, those of a pattern in the natural order of their names.

    They lie in the job's folder, or in `root`, also after links are followed. Raises
    Unreadable for a pattern that leads out of it or matches nothing, and for a file that is
    listed twice.
    """
    base = job.folder if root is None else root
    problems = Problems()
    files: dict[str, ListedFile] = {}
    for group, wanted in enumerate(groups):
        for index, pattern in enumerate(wanted.patterns):
            place = job.place((*wanted.path, index))
            for path in _matches(pattern, base, place, problems):
                each = ListedFile(group, path, shown_path(path), place)
                first = files.setdefault(os.path.realpath(path), each)
                if first is not each:
                    message = f"{each.name} is listed already in line {first.place.line}"
                    problems.add(place, message)
    if len(files) > MOST_PUZZLES:
        problems.expected(job.tree.place, f"{len(files)} puzzles", f"at most {MOST_PUZZLES}")
    problems.raise_if_any()
    return list(files.values())


def _matches(pattern: str, base: Path, place: Place, problems: Problems) -> list[Path]:
    """The files that a pattern matches; noted where there are none or one leads out."""
    pure = PurePath(pattern)
    leads_out = pure.is_absolute() or ".." in pure.parts
    if leads_out or not pure.parts or pattern.count("**") > 1 or "\\" in pattern:
        expected = "a file or a pattern inside the folder of the job, such as puzzles/*.yaml"
        problems.expected(place, f'"{shown(pattern)}"', expected)
        return []
    try:
        found = sorted(base.glob(pattern), key=lambda path: (natural_key(str(path)), str(path)))
    except (OSError, ValueError, NotImplementedError):
        found = []
    for path in found:
        if not lies_in(path, base):
            problems.add(place, f"{shown_path(path)} leads out of the folder {shown_path(base)}")
            return []
    if not found:
        problems.expected(
            place, f'no file for "{shown(pattern)}"', f"one or more in {shown_path(base)}"
        )
    return found


def read_files(
    files: Sequence[ListedFile], workers: int | None, progress: Callable[[int], None]
) -> list[Puzzle]:
    """The puzzles, in order. Raises Unreadable with the problems of all files together."""
    read = list(in_order(_read, files, workers, progress, lost=_unread))
    problems = [problem for each in read if isinstance(each, tuple) for problem in each]
    puzzles = [each for each in read if isinstance(each, Puzzle)]
    problems += same_ids(puzzles)
    if problems:
        raise Unreadable(problems)
    return puzzles


def _read(file: ListedFile) -> Puzzle | tuple[Problem, ...]:
    """A puzzle, or what is wrong with it: problems travel between processes, errors do not."""
    try:
        return read_puzzle(file.path, file.name)
    except Unreadable as unreadable:
        return unreadable.problems


def _unread(file: ListedFile) -> tuple[Problem, ...]:
    """What is told of a file that no process lived to read."""
    return (Problem(Place(file.name, 1, 1), "the memory there is does not suffice to read it"),)


def same_ids(puzzles: Sequence[Puzzle]) -> Iterator[Problem]:
    """A problem for each puzzle whose id another has already."""
    first: dict[str, Puzzle] = {}
    for puzzle in puzzles:
        other = first.setdefault(puzzle.id, puzzle)
        if other is not puzzle:
            message = f'the id "{puzzle.id}" is that of {other.source} already; each needs its own'
            yield Problem(puzzle.place_of("id"), message)
