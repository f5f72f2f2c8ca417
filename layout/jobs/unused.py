"""Manifests of a folder that no line of a job uses."""

import os
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any, Final

from layout.jobs.book.book_job import BookJob
from layout.jobs.book.make_book import book_groups
from layout.jobs.column.column_job import ColumnJob
from layout.jobs.column.make_column import column_groups
from layout.jobs.common.listing import PuzzleGroup, listed_files
from layout.jobs.read_job import read_job
from layout.jobs.worksheet.make_worksheet import worksheet_groups
from layout.jobs.worksheet.worksheet_job import WorksheetJob
from verify.manifest.find import find_puzzles

GROUPS: Final[Mapping[type, Callable[[Any], list[PuzzleGroup]]]] = {
    BookJob: book_groups,
    WorksheetJob: worksheet_groups,
    ColumnJob: column_groups,
}


def unused_manifests(path: Path, root: Path | None, folder: Path) -> list[str]:
    """The names of the manifests under a folder that a job does not list, in natural order.

    `root` is where the job's puzzles lie if not in its own folder. Raises Unreadable for a job that
    can't be used, and for a folder without manifests.
    """
    job = read_job(path)
    files = listed_files(job, GROUPS[type(job.values)](job.values), root)
    used = {os.path.realpath(each.path) for each in files}
    found = find_puzzles([folder])
    return [each.name for each in found if os.path.realpath(each.path) not in used]
