"""The files of a book beside its pages: screen edition, cover, booklet."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from typing import Final

from layout.jobs.book.book_job import BookJob
from layout.jobs.book.proofreading import refuse_faulty_cover
from layout.jobs.common.job import Job
from layout.jobs.common.output_path import output_path
from layout.jobs.common.placing import told_in_place
from layout.jobs.common.read_back import read_back
from layout.language.words import words_for
from layout.output.files import input_at
from layout.output.write import OutputFile
from layout.pages.book.pagination import Paginated
from layout.pages.common.book import Book
from layout.pages.common.design import Design
from layout.pages.common.format import page_format
from layout.pages.common.letters import check_texts
from layout.pages.common.misfit import JobPath
from layout.picture.document import Document
from layout.press.booklet import Folding, impose
from layout.press.cover import Cover, cover_document
from layout.press.source_pages import source_pages
from layout.press.wrap import Wrap, spine_width
from layout.style.style import Style
from layout.writers.pdf import pdf_of_document
from verify.manifest.source import shown_path
from verify.puzzle import Puzzle
from verify.reading.node import shown
from verify.reading.problems import Problem, Problems, Unreadable

KEYS: Final = ("pdf", "screen", "cover", "booklet")
"""The keys of `output` that name a file, the pages first."""


def output_files(job: Job[BookJob]) -> dict[JobPath, Path]:
    """The files that the job wants, by where they stand in it: the pages first.

    Raises Unreadable for a place that the job can't have, and for two files of one name.
    """
    found: dict[JobPath, Path] = {}
    for key in KEYS:
        wanted = getattr(job.values.output, key)
        path: JobPath = ("output", key)
        if wanted:
            output = output_path(job, path, wanted)
            if input_at(output, list(found.values())) is not None:
                message = f'found "{shown(wanted)}", expected another file than the others'
                raise Unreadable([Problem(job.place(path), message)])
            found[path] = output
    return found


def on_paper(job: Job[BookJob], style: Style) -> Style:
    """The style, its leaves as thick as the job says: margins and spine go by the same paper."""
    caliper = job.values.output.caliper
    if caliper is None:
        return style
    binding = replace(style.page.binding, leaf=caliper)
    return replace(style, page=replace(style.page, binding=binding))


def check_cover(job: Job[BookJob], puzzles: Sequence[Puzzle], style: Style) -> None:
    """Raises Unreadable where the words of the cover don't fit it."""
    if job.values.output.cover:
        _cover(job, puzzles, style, pages=len(puzzles))


def check_picture(job: Job[BookJob], puzzles: Sequence[Puzzle]) -> None:
    """Raises Unreadable where the cover's picture is of no puzzle of the book."""
    wanted, ids = job.values.cover.picture, [puzzle.id for puzzle in puzzles]
    problems = Problems()
    if wanted and wanted not in ids:
        problems.unknown(job.place(("cover", "picture")), "puzzle", wanted, ids)
    problems.raise_if_any()


@dataclass(frozen=True, slots=True)
class Printed:
    """A book that is set: its style on the job's paper, its pages, and the bytes of their file."""

    book: Book
    style: Style
    laid: Paginated
    data: bytes


def edition_files(job: Job[BookJob], printed: Printed) -> Iterator[OutputFile]:
    """Every file of the book but that of its pages. Raises Unreadable for what does not fit."""
    outputs = output_files(job)
    if output := outputs.get(("output", "screen")):
        document = on_screen(printed.laid.document)
        with told_in_place(job):
            data = pdf_of_document(document, tagged=True, for_screen=True)
        yield output, data, partial(read_back, document=document)
    if output := outputs.get(("output", "cover")):
        puzzles = [each.puzzle for each in printed.book.puzzles()]
        document = _cover(job, puzzles, printed.style, len(printed.laid.document.leaves))
        data = pdf_of_document(document, job.values.output.press)
        yield output, data, partial(_check_made_cover, job=job, output=output, document=document)
    if output := outputs.get(("output", "booklet")):
        folding = Folding(job.values.output.signature, printed.style.page.binding.leaf)
        words = words_for(job.values.language)
        with source_pages(printed.data) as source:
            imposed = impose(source, folding, job.values.title, words)
        yield output, imposed.data, partial(read_back, document=imposed.marked)


def _check_made_cover(beside: Path, job: Job[BookJob], output: Path, document: Document) -> None:
    """Reads the finished cover back, as a press would. Raises FaultyFile."""
    read_back(beside, document)
    refuse_faulty_cover(beside, shown_path(output), job)


def on_screen(document: Document) -> Document:
    """The same pages as they are when they are cut: nothing bleeds over a screen's edge."""
    return replace(document, leaves=tuple(replace(leaf, bleed=0.0) for leaf in document.leaves))


def _cover(job: Job[BookJob], puzzles: Sequence[Puzzle], style: Style, pages: int) -> Document:
    """The cover for so many pages. Raises Unreadable for words that don't fit it."""
    values, words = job.values, words_for(job.values.language)
    trim = replace(values.trim, bleed=values.bleed)
    design = Design(
        page_format(trim, style.page, pages), style.page, style.board, words, values.language
    )
    spine = values.cover.spine
    wrap = Wrap(trim, spine_width(pages, style.page.binding.leaf) if spine is None else spine)
    with told_in_place(job):
        check_texts([(("cover", "words"), values.cover.words)], (), style)
        return cover_document(_said(values, puzzles, words.pages.proved), wrap, design)


def _said(values: BookJob, puzzles: Sequence[Puzzle], proved: str) -> Cover:
    """What stands on the cover."""
    chosen = next((each for each in puzzles if each.id == values.cover.picture), puzzles[0])
    return Cover(
        values.title,
        values.subtitle,
        values.author,
        values.imprint.publisher,
        values.cover.words,
        values.imprint.isbn,
        proved,
        chosen,
    )
