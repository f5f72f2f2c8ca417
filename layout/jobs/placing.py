"""Where the editor wrote what does not fit."""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from layout.jobs.job import AnyJob
from layout.jobs.listing import Listed, is_bank
from layout.pages.misfit import Misfit, Misfits
from layout.picture.cannot import CannotDraw
from verify.manifest.bank import line_of
from verify.manifest.yaml_text import read_tree
from verify.reading.node import Fields, Place
from verify.reading.problems import Problem, Problems, Unreadable


@contextmanager
def told_in_place(job: AnyJob, listed: Sequence[Listed]) -> Iterator[None]:
    """Raises Unreadable for what does not fit its page, or can't be drawn in the job's style."""
    try:
        yield
    except Misfits as misfits:
        raise Unreadable(dict.fromkeys(placed(misfits.found, job, listed))) from None
    except CannotDraw as fault:
        raise Unreadable([Problem(job.place(("style",)), str(fault))]) from None


def placed(found: Sequence[Misfit], job: AnyJob, listed: Sequence[Listed]) -> Iterator[Problem]:
    """What does not fit, where the editor wrote it: in a manifest or in the job."""
    files = {each.name: each for each in listed}
    for misfit in found:
        if misfit.puzzle is None:
            yield Problem(job.place(misfit.path), misfit.message)
            continue
        file = files[misfit.puzzle.file]
        if is_bank(file):
            place = Place(file.name, line_of(misfit.puzzle), 1)
            yield Problem(place, f"{misfit.puzzle.id}: {misfit.message}")
        else:
            place = _manifest_place(file.path, file.name, misfit.field)
            yield Problem(place, misfit.message)


def _manifest_place(path: Path, name: str, field: str) -> Place:
    """Where a manifest's field stands, or its start where the field was left out."""
    try:
        tree = read_tree(path, name, Problems())
    except Unreadable:
        return Place(name, 1, 1)
    value = tree.get(field) if isinstance(tree, Fields) else None
    return Place(name, 1, 1) if value is None else value.place
