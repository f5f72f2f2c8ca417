"""Where the editor wrote what does not fit: in a manifest or in the job."""

from collections.abc import Iterator, Sequence
from pathlib import Path

from layout.jobs.job import AnyJob
from layout.jobs.listing import Listed, is_bank
from layout.pages.misfit import Misfit
from verify.manifest.yaml_text import read_tree
from verify.reading.node import Fields, Place
from verify.reading.problems import Problem, Problems, Unreadable


def placed(found: Sequence[Misfit], job: AnyJob, listed: Sequence[Listed]) -> Iterator[Problem]:
    """Each thing that does not fit, at its place."""
    files = {each.name: each for each in listed}
    for misfit in found:
        if misfit.puzzle is None:
            yield Problem(job.place(misfit.path), misfit.message)
        elif is_bank(files[misfit.puzzle.file]):
            place = Place(misfit.puzzle.file, 1, 1)
            yield Problem(place, f"{misfit.puzzle.id}: {misfit.message}")
        else:
            listed_file = files[misfit.puzzle.file]
            place = _manifest_place(listed_file.path, listed_file.name, misfit.field)
            yield Problem(place, misfit.message)


def _manifest_place(path: Path, name: str, field: str) -> Place:
    """Where a manifest's field stands, or its start where the field was left out."""
    try:
        tree = read_tree(path, name, Problems())
    except Unreadable:
        return Place(name, 1, 1)
    value = tree.get(field) if isinstance(tree, Fields) else None
    return Place(name, 1, 1) if value is None else value.place
