"""Where a job writes."""

from collections.abc import Sequence
from pathlib import Path

from layout.jobs.common.job import AnyJob
from layout.output.files import input_at
from layout.pages.common.misfit import JobPath
from verify.manifest.source import lies_in
from verify.reading.node import shown
from verify.reading.problems import Problem, Unreadable


def output_path(job: AnyJob, path: JobPath, wanted: str) -> Path:
    """The file that a job names at `path`. Raises Unreadable where it lies outside its folder."""
    output = job.folder / wanted
    if not lies_in(output, job.folder):
        raise _refused(job, path, wanted, "a file inside the folder of the job")
    if output.is_symlink() and not output.exists():
        raise _refused(job, path, wanted, "another; this is a link that leads to nothing")
    if input_at(output, [job.path]) is not None:
        raise _refused(job, path, wanted, "another file than the job itself")
    return output


def output_folder(job: AnyJob, path: JobPath, wanted: str) -> Path:
    """The folder that a job names at `path`. Raises Unreadable where it lies outside its own."""
    folder = job.folder / wanted
    if not lies_in(folder, job.folder):
        raise _refused(job, path, wanted, "a folder inside that of the job")
    return folder


def _refused(job: AnyJob, path: JobPath, wanted: str, expected: str) -> Unreadable:
    return Unreadable([Problem(job.place(path), f'found "{shown(wanted)}", expected {expected}')])


def refuse_sources(
    job: AnyJob, outputs: Sequence[tuple[JobPath, Path]], sources: Sequence[Path]
) -> None:
    """Raises Unreadable, at the path in the job, where an output is one of the puzzles' files."""
    for path, output in outputs:
        if input_at(output, sources) is not None:
            message = f'found "{shown(output.name)}", expected another file than one that is read'
            raise Unreadable([Problem(job.place(path), message)])
