"""Any job: what it says is read, and then it is made by the maker of its kind."""

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any, Final, TypeAlias

from layout.jobs.book.book_job import BookJob
from layout.jobs.book.make_book import make_book
from layout.jobs.column.column_job import ColumnJob
from layout.jobs.column.make_column import make_column
from layout.jobs.common.job import Job
from layout.jobs.common.making import Making, Outcome
from layout.jobs.read_job import read_job
from layout.jobs.worksheet.make_worksheet import make_worksheet
from layout.jobs.worksheet.worksheet_job import WorksheetJob
from verify.reading.problems import Problem, Unreadable

Maker: TypeAlias = Callable[[Job[Any], Making], Outcome]

MAKERS: Final[Mapping[type, Maker]] = {
    BookJob: make_book,
    WorksheetJob: make_worksheet,
    ColumnJob: make_column,
}


def make(path: Path, making: Making) -> Outcome:
    """Makes the job of a file.

    Raises Unreadable for what can't be used, MayNotBePrinted where a puzzle has not exactly one
    answer, and OutputError where a file can't be written. Earlier files then stand.
    """
    job = read_job(path)
    if making.since is not None and not isinstance(job.values, ColumnJob):
        message = "found --from with a job without days; it is for a column"
        raise Unreadable([Problem(job.place(("job",)), message)])
    if making.dry_run and not isinstance(job.values, ColumnJob):
        message = "found --dry-run with a job without days; a book has --draft"
        raise Unreadable([Problem(job.place(("job",)), message)])
    if making.proof and not isinstance(job.values, BookJob):
        message = "found --draft or --pages; they are for a book"
        raise Unreadable([Problem(job.place(("job",)), message)])
    return MAKERS[type(job.values)](job, making)
