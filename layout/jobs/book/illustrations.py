"""The pictures that a book's job names: their files read, and what is to be told of them."""

from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path
from typing import Final

from layout.artwork.artwork import Artwork, CannotPlace
from layout.artwork.read_artwork import MOST_BYTES, read_artwork
from layout.jobs.book.book_job import BookJob, PictureJob
from layout.jobs.common.input_file import input_file
from layout.jobs.common.job import Job
from layout.pages.common.book import Illustration
from layout.pages.common.misfit import JobPath
from layout.picture.document import Document
from layout.picture.items import Insert, one_by_one
from verify.manifest.source import source_bytes
from verify.reading.problems import Problem, Unreadable

FINE: Final = {1: 600, 8: 300}
"""Pixels an inch that are wanted, by the bits of a pixel: lines want more than greys."""


def illustrations(job: Job[BookJob]) -> dict[int, Illustration]:
    """The pictures by the number of their section from 0.

    Raises Unreadable with all that can't be read or printed.
    """
    found: dict[int, Illustration] = {}
    problems: list[Problem] = []
    for index, (path, picture) in _pictures(job):
        try:
            artwork = _read(picture_file(job, path, picture), job, path)
        except Unreadable as fault:
            problems += fault.problems
        else:
            found[index] = Illustration(artwork, path, picture.words, picture.width)
    if problems:
        raise Unreadable(problems)
    return found


def picture_files(job: Job[BookJob]) -> list[Path]:
    """The files of all pictures. Raises Unreadable where one is not there."""
    return [picture_file(job, path, picture) for _, (path, picture) in _pictures(job)]


def picture_file(job: Job[BookJob], path: JobPath, picture: PictureJob) -> Path:
    """The file of one picture."""
    return input_file(job.folder, picture.file, job.place((*path, "file")))


def _pictures(job: Job[BookJob]) -> Iterator[tuple[int, tuple[JobPath, PictureJob]]]:
    for index, section in enumerate(job.values.sections):
        if section.picture is not None:
            yield index, (("sections", index, "picture"), section.picture)


def _read(file: Path, job: Job[BookJob], path: JobPath) -> Artwork:
    place = job.place((*path, "file"))
    try:
        return _artwork(source_bytes(file, file.name, MOST_BYTES), file.suffix.lower())
    except CannotPlace as fault:
        raise Unreadable([Problem(place, f"the picture can't be printed: {fault}")]) from None


_artwork = lru_cache(maxsize=64)(read_artwork)
"""A picture is set twice, once before anything is proved."""


def told_of_pictures(job: Job[BookJob], document: Document) -> Iterator[str]:
    """What an editor should know of the pictures of a book that is set: coarse ones, colours."""
    drawn = (item for leaf in document.leaves for item in one_by_one(leaf.items))
    widths = {item.page: item.width for item in drawn if isinstance(item, Insert)}
    for picture in illustrations(job).values():
        artwork, place = picture.artwork, job.place(picture.path)
        if artwork.coloured:
            yield f"{place}: the picture's colours are printed as greys"
        pages = [item.page for item in artwork.items if isinstance(item, Insert)]
        shown = [widths[page] for page in pages if page in widths]
        if artwork.pixels and shown:
            dpi, wanted = artwork.resolution_at(max(shown)), FINE[artwork.bits]
            if dpi < wanted - 0.5:
                yield (
                    f"{place}: the picture has {dpi:.0f} pixels an inch at its width of "
                    f"{max(shown):.0f} mm; {wanted} are wanted"
                )
