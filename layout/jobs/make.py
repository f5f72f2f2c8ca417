"""The whole job: read, prove, set, write, read back. Nothing is written unless all is well."""

from collections.abc import Callable, Iterator, Sequence
from contextlib import AbstractContextManager
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TypeAlias

from layout.jobs.listing import Listed, find_listed, read_listed
from layout.jobs.proving import prove_all
from layout.jobs.read_back import read_back
from layout.jobs.read_job import Job, read_job
from layout.output import write_whole
from layout.pages.book import Book, Imprint, Numbered, Section
from layout.pages.letters import check_letters
from layout.pages.misfit import Misfit, Misfits
from layout.pages.page import Labels
from layout.pages.pagination import Paginated, paginate
from layout.picture.cannot import CannotDraw
from layout.picture.pdf import pdf_of_document
from layout.style.sheet import Style, read_style
from layout.type.words import read_words
from verify.manifest.yaml_text import read_tree
from verify.proof.verdict import Verdict
from verify.puzzle import Puzzle
from verify.reading.node import Fields, Place
from verify.reading.problems import Problem, Problems, Unreadable

Progress: TypeAlias = Callable[[str, int], AbstractContextManager[Callable[[int], None]]]
"""Opens a bar with a label and a total, and gives a function to call with what is done."""


@dataclass(frozen=True, slots=True)
class Made:
    """What a job has made: the file, its pages, and where each puzzle stands in it."""

    output: Path
    pages: int
    puzzles: tuple[Numbered, ...]
    labels: Labels


def make_book(path: Path, root: Path | None, workers: int | None, progress: Progress) -> Made:
    """Makes the book of a job file; `root` is where its puzzles lie if not in its folder.

    Raises Unreadable for what can't be used, MayNotBePrinted where a puzzle has not exactly one
    answer, and OutputError where the file can't be written. The earlier file then stands.
    """
    job = read_job(path)
    output = _output_path(job)
    style = read_style(job.book.style, job.folder, job.place(("style",)))
    listed = find_listed(job, root)
    with progress("reading", len(listed)) as done:
        puzzles = read_listed(listed, workers, done)
    with progress("proving", len(puzzles)) as done:
        verdicts = prove_all(puzzles, workers, done)
    book = plan(job, listed, puzzles, verdicts)
    with progress("setting", 0):
        laid = lay_out(job, book, style, listed)
        data = pdf_of_document(laid.document)
    write_whole(output, data, lambda beside: read_back(beside, laid.document))
    return Made(output, len(laid.document.leaves), tuple(book.puzzles()), laid.labels)


def _output_path(job: Job) -> Path:
    """Where the book is written; a problem where that is not in the job's folder."""
    inside = job.folder.resolve()
    output = job.folder / job.book.output.pdf
    if not output.resolve().is_relative_to(inside):
        place = job.place(("output", "pdf"))
        message = f"found {job.book.output.pdf!r}, expected a file inside the folder of the job"
        raise Unreadable([Problem(place, message)])
    return output


def plan(
    job: Job, listed: Sequence[Listed], puzzles: Sequence[Puzzle], verdicts: Sequence[Verdict]
) -> Book:
    """The book: its words, and its puzzles numbered through."""
    numbered = [
        (each.section, Numbered(number, puzzle, verdict.answers[0]))
        for number, (each, puzzle, verdict) in enumerate(
            zip(listed, puzzles, verdicts, strict=True), start=1
        )
    ]
    told, imprint = job.book, job.book.imprint
    sections = tuple(
        Section(
            section.title,
            section.intro,
            tuple(puzzle for at, puzzle in numbered if at == index),
            section.per_page,
        )
        for index, section in enumerate(told.sections)
    )
    return Book(
        told.title,
        told.subtitle,
        told.author,
        Imprint(imprint.publisher, imprint.edition, imprint.isbn, imprint.others),
        sections,
        told.back.answers.per_page,
    )


def lay_out(job: Job, book: Book, style: Style, listed: Sequence[Listed]) -> Paginated:
    """The pages. Raises Unreadable, each thing at its place, for what does not fit on them."""
    language = job.book.language
    words = read_words(language.partition("-")[0])
    try:
        check_letters(book, style)
        trim = replace(job.book.trim, bleed=job.book.bleed)
        return paginate(book, style, words, language, trim)
    except Misfits as misfits:
        raise Unreadable(_placed(misfits.found, job, listed)) from None
    except CannotDraw as fault:
        raise Unreadable([Problem(job.place(("style",)), str(fault))]) from None


def _placed(found: Sequence[Misfit], job: Job, listed: Sequence[Listed]) -> Iterator[Problem]:
    """What does not fit, where the editor wrote it: in a manifest or in the job."""
    paths = {each.name: each.path for each in listed}
    for misfit in found:
        if misfit.puzzle is None:
            yield Problem(job.place(misfit.path), misfit.message)
        else:
            file = misfit.puzzle.file
            yield Problem(_manifest_place(paths[file], file, misfit.field), misfit.message)


def _manifest_place(path: Path, name: str, field: str) -> Place:
    """Where a manifest's field stands, or its start where the field was left out."""
    try:
        tree = read_tree(path, name, Problems())
    except Unreadable:
        return Place(name, 1, 1)
    value = tree.get(field) if isinstance(tree, Fields) else None
    return Place(name, 1, 1) if value is None else value.place
