"""A job file -> a job, or every problem in it with its place."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any, Final

from layout.jobs.book.book_job import BookJob
from layout.jobs.column.column_job import ColumnJob
from layout.jobs.common.job import Job
from layout.jobs.worksheet.worksheet_job import WorksheetJob
from verify.manifest.source import shown_path
from verify.manifest.yaml_text import read_tree
from verify.reading.node import Fields, Node, Text, describe
from verify.reading.problems import Problems, Unreadable
from verify.reading.record import read_record

KINDS: Final[Mapping[str, type]] = {
    "book": BookJob,
    "worksheet": WorksheetJob,
    "column": ColumnJob,
}
"""What each kind of job may say."""


def read_job(path: Path) -> Job[Any]:
    """The job of a file. Raises Unreadable with every problem in it."""
    name = shown_path(path)
    problems = Problems()
    tree = read_tree(path, name, problems)
    values = read_record(tree, KINDS[_kind(tree, problems)], problems)
    if values is None or problems.found:
        raise Unreadable(problems.found)
    return Job(path, name, tree, values)


def _kind(tree: Node, problems: Problems) -> str:
    """The kind of job that a file is. Raises Unreadable where it is none."""
    if not isinstance(tree, Fields):
        problems.expected(tree.place, describe(tree), "a job, which begins with job: book")
        raise Unreadable(problems.found)
    kind = tree.get("job")
    if kind is None:
        puzzle = "a puzzle; `reglet check` is for puzzles" if tree.get("size") else "no job"
        problems.expected(tree.place, puzzle, "a job, which says job: book")
    elif isinstance(kind, Text) and kind.text in KINDS:
        return kind.text
    else:
        named = kind.text if isinstance(kind, Text) else describe(kind)
        problems.unknown(kind.place, "job", named, KINDS)
    raise Unreadable(problems.found)
