"""The puzzles that a column draws from: manifests, and the lines of banks."""

from collections.abc import Callable, Iterator, Sequence
from itertools import islice
from typing import Final

from layout.jobs.common.listing import ListedFile, is_bank, read_files, same_ids
from verify.manifest.bank import read_bank
from verify.puzzle import Puzzle
from verify.reading.problems import Problem, Unreadable

MOST_DAY_PUZZLES: Final = 200_000
"""Puzzles of all banks of a job together."""


def read_day_puzzles(
    files: Sequence[ListedFile], workers: int | None, progress: Callable[[int], None]
) -> list[tuple[int, Puzzle]]:
    """Every puzzle with the number of its kind of day, in the order of the list.

    Raises Unreadable with the problems of all files together.
    """
    manifests = [each for each in files if not is_bank(each)]
    read = iter(read_files(manifests, workers, progress))
    puzzles: list[tuple[int, Puzzle]] = []
    problems: list[Problem] = []
    for each in files:
        if not is_bank(each):
            puzzles.append((each.group, next(read)))
            continue
        for line in islice(_lines(each), MOST_DAY_PUZZLES + 1 - len(puzzles)):
            if isinstance(line, Problem):
                problems.append(line)
            else:
                puzzles.append((each.group, line))
    if len(puzzles) > MOST_DAY_PUZZLES:
        found, expected = f"more than {MOST_DAY_PUZZLES} puzzles", "fewer"
        problems.append(Problem(files[-1].place, f"found {found}, expected {expected}"))
    problems += same_ids([puzzle for _, puzzle in puzzles])
    if problems:
        raise Unreadable(problems)
    return puzzles


def _lines(file: ListedFile) -> Iterator[Puzzle | Problem]:
    """What a bank holds; a bank that can't be read is its problems."""
    try:
        yield from read_bank(file.path, file.name)
    except Unreadable as unreadable:
        yield from unreadable.problems
