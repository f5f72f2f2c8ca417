"""Where the editor wrote what does not fit."""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager

from layout.jobs.common.job import AnyJob
from layout.pages.common.misfit import Misfit, Misfits
from layout.picture.cannot import CannotDraw
from verify.reading.problems import Problem, Unreadable


@contextmanager
def told_in_place(job: AnyJob) -> Iterator[None]:
    """Raises Unreadable for what does not fit its page, or can't be drawn in the job's style."""
    try:
        yield
    except Misfits as misfits:
        raise Unreadable(dict.fromkeys(placed(misfits.found, job))) from None
    except CannotDraw as fault:
        raise Unreadable([Problem(job.place(("style",)), str(fault))]) from None


def placed(found: Sequence[Misfit], job: AnyJob) -> Iterator[Problem]:
    """What does not fit, where the editor wrote it: in a manifest, a bank or the job."""
    for misfit in found:
        puzzle = misfit.puzzle
        if puzzle is None:
            yield Problem(job.place(misfit.path), misfit.message)
        else:
            whose = f"{puzzle.id}: " if puzzle.line else ""
            yield Problem(puzzle.place_of(misfit.field), f"{whose}{misfit.message}")
