"""Puzzles of a worksheet that nobody has written: composed when the job is made."""

from layout.jobs.common.job import Job
from layout.jobs.common.listing import ListedFile
from layout.jobs.common.making import Making
from layout.jobs.common.reading import Listed
from layout.jobs.worksheet.worksheet_job import WorksheetJob
from layout.jobs.worksheet.worksheet_values import Composition
from verify.compose.series.series import series_pieces
from verify.compose.several import compose_each
from verify.reading.problems import Problem, Unreadable


def composed_puzzles(
    job: Job[WorksheetJob], composition: Composition, making: Making
) -> list[Listed]:
    """The puzzles, each as it is wanted; they are proved and walked as any other afterwards.

    Raises Unreadable where one of them was not found.
    """
    _refuse_choices(job)
    placed = composition.placed
    pieces = list(series_pieces(composition.seed, [placed], making.budget.seconds))
    with making.progress("composing", len(pieces)) as done:
        found = list(compose_each(pieces, making.workers, done))
    lacking = [problem for each in found for problem in each.lacking]
    if lacking:
        raise Unreadable(lacking)
    file = ListedFile(0, job.path, job.name, placed.place)
    return [Listed(file, each.setting.puzzle) for each in found if each.setting is not None]


def _refuse_choices(job: Job[WorksheetJob]) -> None:
    """Raises Unreadable where the job chooses among files, of which there are none."""
    for key, told in (("count", job.values.count), ("grades", job.values.grades)):
        if told:
            message = f"found {key} beside compose, expected none: compose says it"
            raise Unreadable([Problem(job.place((key,)), message)])
