"""A book: read, prove, set, write, read back. Nothing is written unless all is well."""

from collections.abc import Sequence
from itertools import chain
from math import inf
from pathlib import Path
from typing import Final

from layout.console import counted, first_of
from layout.jobs.book.book_job import BookJob
from layout.jobs.book.certificates import Proved, certificate_files, certificates_folder
from layout.jobs.book.chosen_walks import check_walks, told_ids
from layout.jobs.book.lay_out import lay_out, plan
from layout.jobs.book.page_plan import page_plan
from layout.jobs.book.proof_pages import write_draft, write_pages
from layout.jobs.book.rehearsal import rehearse
from layout.jobs.common.job import Job
from layout.jobs.common.listing import ListedFile, PuzzleGroup, listed_files, read_files
from layout.jobs.common.making import Making, Outcome
from layout.jobs.common.output_path import output_path, refuse_sources
from layout.jobs.common.proving import prove_all
from layout.jobs.common.read_back import read_back
from layout.jobs.common.walking import Walked, facts_of, refuse_ungraded, walk_all
from layout.output.write import OutputFile, Outputs, outputs_in
from layout.pages.book.pagination import Paginated
from layout.pages.common.book import Book, Numbered
from layout.pages.walk.walk_pages import count_pages
from layout.style.style import read_style
from layout.writers.pdf import pdf_of_document
from verify.proof.verdict import Verdict
from verify.puzzle import Puzzle
from verify.walk.report.grade import Band
from verify.walk.report.kept import GradeKeeper

MOST_NAMED: Final = 12
"""Walks, and ungraded puzzles, that are told by name."""


def make_book(job: Job[BookJob], making: Making) -> Outcome:
    """Makes the book of a job.

    Raises Unreadable for what can't be used, MayNotBePrinted where a puzzle has not exactly one
    answer or, if the job does not say to print such puzzles, no grade, and OutputError where the
    file can't be written. The earlier file then stands.
    """
    output = output_path(job, ("output", "pdf"), job.values.output.pdf)
    folder = certificates_folder(job)
    folders = [output.parent] if folder is None else [output.parent, folder]
    with outputs_in(folders, job.name, making.tell) as outputs:
        return _make(job, making, output, folder, outputs)


def _make(
    job: Job[BookJob], making: Making, output: Path, folder: Path | None, outputs: Outputs
) -> Outcome:
    """Makes the book, and its certificates in `folder`, while the folders are held."""
    style = read_style(job.values.style, job.folder, job.place(("style",)))
    files = listed_files(job, book_groups(job.values), making.root)
    refuse_sources(job, [(("output", "pdf"), output)], [each.path for each in files])
    with making.progress("reading", len(files)) as done:
        puzzles = read_files(files, making.workers, done)
    check_walks(job, puzzles)
    with making.progress("rehearsing", 0):
        rehearsed = rehearse(job, files, puzzles, style)
    if making.proof.draft:
        return write_draft(job, rehearsed, style, making.proof, output, outputs)
    verdicts, walks = _prove_and_walk(job, making, puzzles, making.grades(files[0].path))
    book = plan(job, numbered_puzzles(job, files, puzzles, verdicts, walks))
    with making.progress("setting", 0):
        laid = lay_out(job, book, style)
    if making.proof.pages is not None:
        return write_pages(job, laid, making.proof, output, outputs)
    making.tell(page_plan(laid).told())
    data = pdf_of_document(laid.document)
    made: list[OutputFile] = [(output, data, lambda beside: read_back(beside, laid.document))]
    proved = [
        Proved(each.path, puzzle, verdict)
        for each, puzzle, verdict in zip(files, puzzles, verdicts, strict=True)
    ]
    more = () if folder is None else certificate_files(folder, proved, making)
    written = outputs.write_all(chain(made, more))
    return _outcome(written, book, laid)


def _prove_and_walk(
    job: Job[BookJob], making: Making, puzzles: Sequence[Puzzle], keeper: GradeKeeper | None
) -> tuple[list[Verdict], list[Walked]]:
    """The verdicts and the walks. Raises MayNotBePrinted."""
    with making.progress("proving", len(puzzles)) as done:
        verdicts = prove_all(puzzles, making, done)
    with making.progress("walking", len(puzzles)) as done:
        walks = walk_all(puzzles, making, done, told_ids(job, puzzles), keeper)
    if job.values.ungraded == "refuse":
        refuse_ungraded(puzzles, walks)
    return verdicts, walks


def book_groups(book: BookJob) -> list[PuzzleGroup]:
    """The patterns of each section."""
    return [
        PuzzleGroup(("sections", index, "puzzles"), section.puzzles)
        for index, section in enumerate(book.sections)
    ]


def _outcome(written: Sequence[Path], book: Book, laid: Paginated) -> Outcome:
    """What there is to tell of a finished book, whose file was written first."""
    pages, puzzles = len(laid.document.leaves), tuple(book.puzzles())
    walked = {each.puzzle.id: count_pages(each.walk_anchor, laid.labels) for each in book.walks}
    facts = [
        {
            **facts_of(numbered.puzzle, numbered.grade),
            "puzzle_page": laid.labels[numbered.puzzle_anchor],
            "answer_page": laid.labels[numbered.answer_anchor],
            **({"walk_pages": walked[id_]} if (id_ := numbered.puzzle.id) in walked else {}),
        }
        for numbered in puzzles
    ]
    sizes = f"{counted(pages, 'page')}, {counted(len(puzzles), 'puzzle')}"
    summary = f"{written[0]}: {sizes}, each with one answer"
    if walked:
        told = [f"{name} {counted(count, 'page')}" for name, count in walked.items()]
        summary += f"; walks: {', '.join(told[:MOST_NAMED])}"
        if len(told) > MOST_NAMED:
            summary += f" and {len(told) - MOST_NAMED} more"
    if len(written) > 1:
        summary += f"; certificates: {written[1].parent}"
    ungraded = [each.puzzle.id for each in puzzles if each.grade.band is Band.UNGRADED]
    if ungraded:
        summary += f"; ungraded: {first_of(ungraded, MOST_NAMED)}"
    plan = page_plan(laid).facts()
    return Outcome(tuple(written), {"pages": pages, "plan": plan, "puzzles": facts}, summary)


def numbered_puzzles(
    job: Job[BookJob],
    files: Sequence[ListedFile],
    puzzles: Sequence[Puzzle],
    verdicts: Sequence[Verdict],
    walks: Sequence[Walked],
) -> list[tuple[int, Numbered]]:
    """The puzzles numbered through in the job's order, each with its section."""
    proved = list(zip(files, puzzles, verdicts, walks, strict=True))
    if job.values.order == "by-grade":
        proved.sort(key=lambda each: (each[0].group, _score(each[3])))
    return [
        (each.group, Numbered(number, puzzle, verdict.answers[0], walked.path, walked.grade))
        for number, (each, puzzle, verdict, walked) in enumerate(proved, start=1)
    ]


def _score(walked: Walked) -> float:
    """How hard a puzzle is; without a grade it counts for harder than any other."""
    return inf if walked.grade.score is None else walked.grade.score
