"""Where a job writes."""

from collections.abc import Iterable, Sequence
from pathlib import Path

from layout.jobs.job import AnyJob
from layout.pages.misfit import JobPath
from verify.reading.node import shown
from verify.reading.problems import Problem, Unreadable


def output_path(job: AnyJob, path: JobPath, wanted: str) -> Path:
    """The file that a job names at `path`. Raises Unreadable where it lies outside its folder."""
    output = job.folder / wanted
    try:
        place, folder = output.resolve(), job.folder.resolve()
    except (OSError, RuntimeError):
        raise _refused(job, path, wanted, "a file; this is a link to itself") from None
    if output.is_symlink() and not output.exists():
        raise _refused(job, path, wanted, "a file; this is a link that leads nowhere")
    if not place.is_relative_to(folder):
        raise _refused(job, path, wanted, "a file inside the folder of the job")
    if place == job.path.resolve():
        raise _refused(job, path, wanted, "another file than the job itself")
    return output


def _refused(job: AnyJob, path: JobPath, wanted: str, expected: str) -> Unreadable:
    return Unreadable([Problem(job.place(path), f'found "{shown(wanted)}", expected {expected}')])


def refuse_sources(
    job: AnyJob, outputs: Sequence[tuple[JobPath, Path]], sources: Iterable[Path]
) -> None:
    """Raises Unreadable where a job would write over something that it reads."""
    read = {str(source.resolve()).casefold() for source in sources}
    for path, output in outputs:
        if str(output.resolve()).casefold() in read:
            message = f'found "{shown(output.name)}", expected another file than one of the puzzles'
            raise Unreadable([Problem(job.place(path), message)])
