"""Where the editor wrote what does not fit."""

from collections.abc import Iterator, Sequence
from pathlib import Path

from layout.jobs.job import AnyJob
from layout.jobs.listing import Listed
from layout.pages.misfit import Misfit
from verify.manifest.yaml_text import read_tree
from verify.reading.node import Fields, Place
from verify.reading.problems import Problem, Problems, Unreadable


def placed(found: Sequence[Misfit], job: AnyJob, listed: Sequence[Listed]) -> Iterator[Problem]:
    """What does not fit, where the editor wrote it: in a manifest or in the job."""
    paths = {each.name: each.path for each in listed}
    for misfit in found:
        if misfit.puzzle is None:
            yield Problem(job.place(misfit.path), misfit.message)
        else:
            file = misfit.puzzle.file
            yield Problem(_manifest_place(paths[file], file, misfit.field), misfit.message)


def _manifest_place(path: Path, name: str, field: str) -> Place:
    """Where a manifest's field stands, or its start where the field was left out."""
    try:
        tree = read_tree(path, name, Problems())
    except Unreadable:
        return Place(name, 1, 1)
    value = tree.get(field) if isinstance(tree, Fields) else None
    return Place(name, 1, 1) if value is None else value.place
