"""The puzzles that a column draws from: manifests, and the lines of banks."""

from collections.abc import Callable, Iterator, Sequence
from itertools import islice
from typing import Final

from layout.jobs.common.listing import ListedFile, is_bank, read_listed, same_ids
from verify.manifest.bank import read_bank
from verify.puzzle import Puzzle
from verify.reading.problems import Problem, Unreadable

MOST_SUPPLIED: Final = 200_000
"""Puzzles of all banks of a job together."""


def read_supply(
    listed: Sequence[ListedFile], workers: int | None, progress: Callable[[int], None]
) -> list[tuple[int, Puzzle]]:
    """Every puzzle with its group, in the order of the list, those of a bank line by line.

    Raises Unreadable with the problems of all files together.
    """
    manifests = [each for each in listed if not is_bank(each)]
    read = iter(read_listed(manifests, workers, progress))
    supply: list[tuple[int, Puzzle]] = []
    problems: list[Problem] = []
    for each in listed:
        if not is_bank(each):
            supply.append((each.group, next(read)))
            continue
        for line in islice(_lines(each), MOST_SUPPLIED + 1 - len(supply)):
            if isinstance(line, Problem):
                problems.append(line)
            else:
                supply.append((each.group, line))
    if len(supply) > MOST_SUPPLIED:
        found, expected = f"more than {MOST_SUPPLIED} puzzles", "fewer"
        problems.append(Problem(listed[-1].place, f"found {found}, expected {expected}"))
    problems += same_ids([puzzle for _, puzzle in supply])
    if problems:
        raise Unreadable(problems)
    return supply


def _lines(listed: ListedFile) -> Iterator[Puzzle | Problem]:
    """What a bank holds; a bank that can't be read is its problems."""
    try:
        yield from read_bank(listed.path, listed.name)
    except Unreadable as unreadable:
        yield from unreadable.problems
