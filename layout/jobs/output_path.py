"""Where a job writes."""

from pathlib import Path

from layout.jobs.job import AnyJob
from layout.pages.misfit import JobPath
from verify.manifest.source import lies_in
from verify.reading.problems import Problem, Unreadable


def output_path(job: AnyJob, path: JobPath, wanted: str) -> Path:
    """The file that a job names at `path`. Raises Unreadable where it lies outside its folder."""
    output = job.folder / wanted
    if not lies_in(output, job.folder):
        message = f"found {wanted!r}, expected a file inside the folder of the job"
        raise Unreadable([Problem(job.place(path), message)])
    return output
