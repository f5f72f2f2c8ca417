"""The puzzles that a book or a worksheet has chosen for it, by number and grades."""

from collections.abc import Iterable, Iterator, Sequence
from functools import partial

from layout.jobs.common.choosing import ANY, Known, TooFew, choose, recognize
from layout.jobs.common.job import AnyJob
from layout.jobs.common.listing import ListedFile, PuzzleGroup
from layout.jobs.common.making import Making
from layout.jobs.common.proving import refuse_unproved, unproved
from layout.jobs.common.reading import Listed, check_ids, span_lines
from verify.check import Item
from verify.manifest.find import Found
from verify.puzzle import Puzzle
from verify.reading.problems import Problem, Problems, Unreadable
from verify.walk.report.kept import GradeKeeper
from verify.work import in_order


def with_choices(
    job: AnyJob,
    groups: Sequence[PuzzleGroup],
    files: Sequence[ListedFile],
    listed: Sequence[Listed],
    making: Making,
    keeper: GradeKeeper | None,
) -> list[Listed]:
    """The puzzles of a job, with the chosen ones in place of those that stood for them.

    None is another in disguise. Raises Unreadable where there are too few, or a line is none, and
    MayNotBePrinted where one that was looked at has not exactly one answer.
    """
    if not any(group.count for group in groups):
        return list(listed)
    used = _forms([each.puzzle for each in listed if not groups[each.file.group].count], making)
    problems = Problems()
    all_of_them: list[Listed] = []
    for number, group in enumerate(groups):
        if not group.count:
            all_of_them += (each for each in listed if each.file.group == number)
            continue
        own = [each for each in files if each.group == number]
        known = _chosen(job, group, own, used, making, keeper, problems)
        used |= {each.canonical for each in known}
        all_of_them += (Listed(_file_of(each.puzzle, own), each.puzzle) for each in known)
    check_ids(all_of_them, problems)
    problems.raise_if_any()
    return all_of_them


def _chosen(
    job: AnyJob,
    group: PuzzleGroup,
    files: Sequence[ListedFile],
    used: set[str],
    making: Making,
    keeper: GradeKeeper | None,
    problems: Problems,
) -> list[Known]:
    """The puzzles of one group; that there are too few is noted."""
    wishes = [frozenset(group.grades) or ANY] * group.count
    with making.progress("choosing", len(wishes)) as done:
        try:
            return choose(
                wishes, items_of(files), used, making.workers, done, making.budget, keeper
            )
        except TooFew as few:
            place = job.place((*group.path[:-1], "count"))
            problems.add(place, f"too few puzzles to choose from; {few}")
            return []


def items_of(files: Iterable[ListedFile]) -> Iterator[Item]:
    """What there is to choose from, each line read as it is asked for."""
    for file in files:
        if not file.is_bank:
            yield Found(file.path, file.name, is_bank=False)
            continue
        for line in span_lines(file):
            yield Unreadable([line]) if isinstance(line, Problem) else line


def _file_of(puzzle: Puzzle, files: Sequence[ListedFile]) -> ListedFile:
    """The file that a puzzle was chosen from."""
    return next(
        each
        for each in files
        if each.name == puzzle.file
        and (not puzzle.line or each.span.first <= puzzle.line <= each.span.last)
    )


def _forms(puzzles: Sequence[Puzzle], making: Making) -> set[str]:
    """The canonical forms of puzzles that are not chosen but told. Raises MayNotBePrinted."""
    task = partial(recognize, budget=making.budget)
    found = list(in_order(task, puzzles, making.workers, lost=unproved))
    pairs = zip(puzzles, found, strict=True)
    refuse_unproved([(puzzle, each) for puzzle, each in pairs if not isinstance(each, Known)])
    return {each.canonical for each in found if isinstance(each, Known)}
