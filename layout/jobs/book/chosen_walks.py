"""The walks that a book prints, from the ids that its job lists."""

from collections.abc import Iterable, Sequence

from layout.jobs.book.book_job import BackJob, BookJob
from layout.jobs.common.job import Job
from layout.pages.common.book import Numbered, WalkChoice
from layout.telling.level import Level
from verify.puzzle import Puzzle
from verify.reading.problems import Problems


def check_walks(job: Job[BookJob], puzzles: Sequence[Puzzle]) -> None:
    """Raises Unreadable where the job lists an id that no puzzle has, or one twice."""
    problems = Problems()
    ids = [puzzle.id for puzzle in puzzles]
    wanted = job.values.back.walk
    for index, name in enumerate(wanted):
        place = job.place(("back", "walk", index))
        if name not in ids:
            problems.unknown(place, "puzzle", name, ids)
        elif name in wanted[:index]:
            problems.add(place, f'the walk of "{name}" is listed already')
    problems.raise_if_any()


def told_ids(job: Job[BookJob], puzzles: Iterable[Puzzle]) -> frozenset[str]:
    """The ids of the puzzles of which the book tells something: hints, or the whole walk."""
    if job.values.back.hints:
        return frozenset(puzzle.id for puzzle in puzzles)
    return frozenset(job.values.back.walk)


def chosen_walks(job: Job[BookJob], puzzles: Iterable[Numbered]) -> tuple[Numbered, ...]:
    """The puzzles whose walks are printed, in the order of the job's list.

    One that is chosen is not known yet in a rehearsal; it is left out.
    """
    by_id = {numbered.puzzle.id: numbered for numbered in puzzles}
    return tuple(by_id[name] for name in job.values.back.walk if name in by_id)


def walk_choice(back: BackJob) -> WalkChoice:
    """How much of each walk is printed."""
    return WalkChoice(
        Level(back.walk_level),
        back.walk_pages,
        back.walk_pencil_marks == "all",
        ("back", "walk-pages"),
    )
