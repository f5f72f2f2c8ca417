"""Where a job writes."""

import os
from collections.abc import Iterable, Sequence
from pathlib import Path

from layout.jobs.common.job import AnyJob
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
    if real_name(output) == real_name(job.path):
        raise _refused(job, path, wanted, "another file than the job itself")
    return output


def real_name(path: Path) -> str:
    """What a file is called after links are followed, on disks that tell no case apart, too."""
    return os.path.realpath(path).casefold()


def _refused(job: AnyJob, path: JobPath, wanted: str, expected: str) -> Unreadable:
    return Unreadable([Problem(job.place(path), f'found "{shown(wanted)}", expected {expected}')])


def refuse_sources(
    job: AnyJob, outputs: Sequence[tuple[JobPath, Path]], sources: Iterable[Path]
) -> None:
    """Raises Unreadable where a job would write over something that it reads."""
    read = set(map(real_name, sources))
    for path, output in outputs:
        if real_name(output) in read:
            message = f'found "{shown(output.name)}", expected another file than one of the puzzles'
            raise Unreadable([Problem(job.place(path), message)])
