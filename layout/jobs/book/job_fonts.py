"""The fonts that a book's job asks for, and the letters that were taken from the fallback."""

from collections.abc import Iterator
from pathlib import Path

from layout.jobs.book.book_job import BookJob
from layout.jobs.common.job import Job
from layout.pages.book.pagination import Paginated
from layout.picture.items import Text, one_by_one
from layout.style.own_fonts import ROLES, Fonts, font_file, found_fonts
from layout.type.fonts import font, named
from verify.reading.problems import Problems


def own_fonts(job: Job[BookJob]) -> Fonts:
    """The fonts by the names that they are set by. Raises Unreadable for what can't be had."""
    problems = Problems()
    fonts = found_fonts(
        job.values.fonts, job.folder, lambda role: job.place(("fonts", role)), problems
    )
    problems.raise_if_any()
    return fonts


def font_files(job: Job[BookJob]) -> list[Path]:
    """The files among the job's fonts."""
    wanted = (getattr(job.values.fonts, role) for role in ROLES)
    files = (font_file(each, job.folder) for each in wanted if each)
    return [path for path in files if path is not None]


def told_of_letters(fallback: str, laid: Paginated) -> Iterator[str]:
    """Which letters of a book that is set come from the fallback, each once with its first page."""
    if not fallback:
        return
    name = font(fallback).name
    first: dict[str, str] = {}
    for leaf in laid.document.leaves:
        for item in one_by_one(leaf.items):
            if isinstance(item, Text) and item.font == fallback:
                for char in item.text.strip():
                    first.setdefault(char, leaf.label)
    for char, label in first.items():
        yield f'{named(char)} is set in "{name}", the fallback, first on page {label}'
