"""The puzzles that a job lists: patterns -> files -> puzzles, in the order of the book."""

import os
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path, PurePath
from typing import Final

from layout.jobs.common.composition import Composition
from layout.jobs.common.job import AnyJob
from layout.jobs.common.line_span import ALL_LINES, LineSpan, split_span
from layout.pages.common.misfit import JobPath
from verify.manifest.find import MANIFEST_SUFFIXES, natural_key
from verify.manifest.source import lies_in, shown_path
from verify.reading.node import Place, shown
from verify.reading.problems import Problems

MOST_PUZZLES: Final = 10_000
"""Puzzles of one job."""


@dataclass(frozen=True, slots=True)
class PuzzleGroup:
    """File names or patterns that a job lists at `path`, and what it takes of them.

    It takes them all where `count` is 0, else the first so many of those `grades`, or of any grade
    where none is named. With a `composition` there are no files.
    """

    path: JobPath
    patterns: tuple[str, ...]
    count: int = 0
    grades: tuple[str, ...] = ()
    composition: Composition | None = None


def puzzle_group(
    path: JobPath,
    puzzles: tuple[str, ...] | Composition,
    count: int = 0,
    grades: tuple[str, ...] = (),
) -> PuzzleGroup:
    """What a job lists or composes at `path`, and what it takes of that."""
    if isinstance(puzzles, Composition):
        return PuzzleGroup(path, (), count, grades, puzzles)
    return PuzzleGroup(path, puzzles, count, grades)


@dataclass(frozen=True, slots=True)
class ListedFile:
    """A manifest or a bank that a job lists.

    `group` is the number of the group that it is in, `place` where the job lists it; `span` are
    the lines of a bank that are meant.
    """

    group: int
    path: Path
    name: str
    place: Place
    span: LineSpan = ALL_LINES

    @property
    def is_bank(self) -> bool:
        """Whether the file holds a puzzle a line."""
        return self.path.suffix.lower() not in MANIFEST_SUFFIXES


def listed_files(job: AnyJob, groups: Sequence[PuzzleGroup], root: Path | None) -> list[ListedFile]:
    """The files of every group, those of a pattern in the natural order of their names.

    They lie in the job's folder, or in `root`, also after links are followed. Raises
    Unreadable for a pattern that leads out of it or matches nothing, and for a file, or a line of
    one, that is listed twice: only groups that choose may share files. A group that composes has
    nothing to choose from.
    """
    base = job.folder if root is None else root
    problems = Problems()
    for group in groups:
        if group.composition is not None:
            for key, told in (("count", group.count), ("grades", group.grades)):
                if told:
                    message = f"found {key} beside compose, expected none: compose says it"
                    problems.add(job.place((*group.path[:-1], key)), message)
        elif group.grades and not group.count:
            message = 'the key "count" is missing: how many puzzles of these grades'
            problems.add(job.place((*group.path[:-1], "grades")), message)
    files: dict[str, list[ListedFile]] = {}
    listed: list[ListedFile] = []
    for number, group in enumerate(groups):
        for index, pattern in enumerate(group.patterns):
            place = job.place((*group.path, index))
            for each in _listed(number, pattern, base, place, problems):
                earlier = files.setdefault(os.path.realpath(each.path), [])
                first = next((other for other in earlier if _clash(each, other, groups)), None)
                if first is not None:
                    message = f"{each.name} is listed already in line {first.place.line}"
                    problems.add(place, message)
                earlier.append(each)
                listed.append(each)
    if len(listed) > MOST_PUZZLES:
        problems.expected(job.tree.place, f"{len(listed)} puzzles", f"at most {MOST_PUZZLES}")
    problems.raise_if_any()
    return listed


def _clash(one: ListedFile, other: ListedFile, groups: Sequence[PuzzleGroup]) -> bool:
    """Whether some puzzle of a file would be taken twice."""
    chosen = groups[one.group].count or groups[other.group].count
    return one.span.meets(other.span) and not (chosen and one.group != other.group)


def _listed(
    group: int, pattern: str, base: Path, place: Place, problems: Problems
) -> Iterator[ListedFile]:
    """The files of one pattern, which may end with the lines that are meant."""
    pattern, span = split_span(pattern)
    for path in _matches(pattern, base, place, problems):
        each = ListedFile(group, path, shown_path(path), place, span)
        if span != ALL_LINES and not each.is_bank:
            problems.add(place, f"found {span} behind {each.name}, which is one puzzle")
        elif span.first > span.last:
            problems.add(place, f"found {span}, expected the earlier line first")
        else:
            yield each


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
