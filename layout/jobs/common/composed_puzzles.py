"""Puzzles of a job that nobody has written: composed when the job is made."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace

from layout.jobs.common.job import AnyJob
from layout.jobs.common.listing import ListedFile, PuzzleGroup
from layout.jobs.common.making import Making
from layout.jobs.common.reading import Listed, check_ids
from verify.compose.series.series import SeriesPiece, series_pieces
from verify.compose.several import compose_each
from verify.puzzle import Puzzle
from verify.reading.problems import Problems


def with_composed(
    job: AnyJob,
    groups: Sequence[PuzzleGroup],
    listed: Sequence[Listed],
    making: Making,
    *,
    titled: bool = True,
) -> list[Listed]:
    """The puzzles of a job with those that it composes, in the order of the groups.

    Where they need not be `titled`, those have no title for which the job gives none. Raises
    Unreadable as `composed_puzzles` does, and where two have one id.
    """
    made = composed_puzzles(job, groups, making, titled=titled)
    every = sorted([*listed, *made], key=lambda each: each.file.group)
    problems = Problems()
    if made:
        check_ids(every, problems)
    problems.raise_if_any()
    return every


def composed_puzzles(
    job: AnyJob, groups: Sequence[PuzzleGroup], making: Making, *, titled: bool = True
) -> list[Listed]:
    """What the groups of a job compose, each as it is wanted, none another in disguise.

    They are proved and walked as any other afterwards. Raises Unreadable where one was not found.
    """
    pieces = list(_pieces(groups, making.budget.seconds))
    if not pieces:
        return []
    with making.progress("composing", len(pieces)) as done:
        found = list(compose_each([piece for _, piece in pieces], making.workers, done))
    problems = Problems()
    for problem in (problem for each in found for problem in each.lacking):
        problems.add(problem.place, problem.message)
    problems.raise_if_any()
    return [
        Listed(
            ListedFile(group, job.path, job.name, piece.place),
            each.setting.puzzle if titled or piece.line.title else _untitled(each.setting.puzzle),
        )
        for (group, piece), each in zip(pieces, found, strict=True)
        if each.setting is not None
    ]


def _untitled(puzzle: Puzzle) -> Puzzle:
    return replace(puzzle, credits=replace(puzzle.credits, title=""))


def _pieces(groups: Sequence[PuzzleGroup], seconds: float) -> Iterator[tuple[int, SeriesPiece]]:
    """What each group composes; names are counted through, so that each has its own id."""
    counted: Counter[str] = Counter()
    for number, group in enumerate(groups):
        lines = () if group.composition is None else group.composition.lines
        for seed, line in lines:
            for piece in series_pieces(seed, [line], seconds, counted):
                yield number, piece
