"""A book: read, prove, set, write, read back. Nothing is written unless all is well."""

from collections.abc import Mapping, Sequence
from functools import partial
from itertools import chain
from math import inf
from pathlib import Path
from typing import Final

from layout.console import counted, first_of
from layout.jobs.book.book_job import BookJob
from layout.jobs.book.certificates import Proved, certificate_files, certificates_folder
from layout.jobs.book.checksum import checksum
from layout.jobs.book.chosen_walks import check_walks, told_ids
from layout.jobs.book.editions import (
    Printed,
    check_cover,
    check_picture,
    edition_files,
    on_paper,
    output_files,
)
from layout.jobs.book.illustrations import picture_files, told_of_pictures
from layout.jobs.book.job_fonts import font_files, own_fonts, told_of_letters
from layout.jobs.book.lay_out import lay_out, plan
from layout.jobs.book.page_plan import page_plan
from layout.jobs.book.proof_pages import write_draft, write_pages
from layout.jobs.book.proofreading import refuse_misprints
from layout.jobs.book.rehearsal import rehearse
from layout.jobs.common.choices import with_choices
from layout.jobs.common.job import Job
from layout.jobs.common.listing import PuzzleGroup, listed_files
from layout.jobs.common.making import Making, Outcome
from layout.jobs.common.output_path import refuse_sources
from layout.jobs.common.placing import told_in_place
from layout.jobs.common.proving import prove_all
from layout.jobs.common.read_back import read_back
from layout.jobs.common.reading import Listed, read_listed
from layout.jobs.common.twins import tell_twins
from layout.jobs.common.walking import Walked, facts_of, refuse_ungraded, walk_all
from layout.output.write import OutputFile, Outputs, outputs_in
from layout.pages.book.pagination import Paginated
from layout.pages.common.book import Book, Numbered
from layout.pages.common.misfit import JobPath
from layout.pages.walk.walk_pages import count_pages
from layout.style.own_fonts import told_of_fonts
from layout.style.style import read_style
from layout.writers.pdf import pdf_of_document
from verify.manifest.source import shown_path
from verify.proof.verdict import Verdict
from verify.reading.problems import Problems
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
    wanted = output_files(job)
    folder = certificates_folder(job)
    folders = [output.parent for output in wanted.values()]
    folders += [] if folder is None else [folder]
    with outputs_in(folders, job.name, making.tell) as outputs:
        return _make(job, making, wanted, folder, outputs)


def _make(
    job: Job[BookJob],
    making: Making,
    wanted: Mapping[JobPath, Path],
    folder: Path | None,
    outputs: Outputs,
) -> Outcome:
    """Makes the book, and its certificates in `folder`, while the folders are held."""
    style = on_paper(job, read_style(job.values.style, job.folder, job.place(("style",))))
    fonts = own_fonts(job)
    style = style.in_fonts(fonts)
    for sentence in told_of_fonts(fonts, job.values.fonts):
        making.tell(sentence)
    _check_sections(job)
    groups = book_groups(job.values)
    files = listed_files(job, groups, making.root)
    sources = [*(each.path for each in files), *picture_files(job), *font_files(job)]
    refuse_sources(job, list(wanted.items()), sources)
    with making.progress("reading", len(files)) as done:
        listed = read_listed(job, groups, files, making.workers, done)
    output = wanted["output", "pdf"]
    with making.progress("rehearsing", 0):
        rehearsed = rehearse(job, listed, style)
        check_cover(job, [each.puzzle for each in listed], style)
    for sentence in (
        *told_of_pictures(job, rehearsed.document),
        *told_of_letters(style.fonts.fallback, rehearsed),
    ):
        making.tell(sentence)
    if making.proof.draft:
        return write_draft(job, rehearsed, style, making.proof, output, outputs)
    keeper = making.grades(files[0].path)
    listed = with_choices(job, groups, files, listed, making, keeper)
    puzzles = [each.puzzle for each in listed]
    check_walks(job, puzzles)
    check_picture(job, puzzles)
    verdicts, walks = _prove_and_walk(job, making, listed, keeper)
    proved = [
        Proved(each.file.path, each.puzzle, verdict)
        for each, verdict in zip(listed, verdicts, strict=True)
    ]
    total = checksum(proved)
    book = plan(job, numbered_puzzles(job, listed, verdicts, walks), total)
    with making.progress("setting", 0):
        laid = lay_out(job, book, style)
    if making.proof.pages is not None:
        return write_pages(job, laid, making.proof, output, outputs)
    making.tell(page_plan(laid).told())
    with told_in_place(job):
        data = pdf_of_document(laid.document, job.values.output.press)
    check = partial(_read_back, job=job, making=making, output=output, laid=laid, book=book)
    made: list[OutputFile] = [
        (output, data, check),
        *edition_files(job, Printed(book, style, laid, data)),
    ]
    more = () if folder is None else certificate_files(folder, proved, making)
    written = outputs.write_all(chain(made, more))
    return _outcome(written, len(made), book, laid, total)


def _read_back(
    beside: Path, job: Job[BookJob], making: Making, output: Path, laid: Paginated, book: Book
) -> None:
    """Reads the finished file back, and holds every digit of it against what was proved."""
    read_back(beside, laid.document)
    printed = [(each.puzzle, each.answer) for each in book.puzzles()]
    with making.progress("reading back", 0):
        doubts = refuse_misprints(beside, shown_path(output), job, printed)
    for doubt in doubts:
        making.tell(doubt)


def _prove_and_walk(
    job: Job[BookJob], making: Making, listed: Sequence[Listed], keeper: GradeKeeper | None
) -> tuple[list[Verdict], list[Walked]]:
    """The verdicts and the walks. Raises MayNotBePrinted."""
    puzzles = [each.puzzle for each in listed]
    with making.progress("proving", len(puzzles)) as done:
        verdicts = prove_all(puzzles, making, done)
    tell_twins(listed, [each.answers[0] for each in verdicts], making)
    with making.progress("walking", len(puzzles)) as done:
        walks = walk_all(puzzles, making, done, told_ids(job, puzzles), keeper)
    if job.values.ungraded == "refuse":
        refuse_ungraded(puzzles, walks)
    return verdicts, walks


def _check_sections(job: Job[BookJob]) -> None:
    """Raises Unreadable for sections with neither words nor puzzles, and where none has puzzles."""
    problems = Problems()
    for index, section in enumerate(job.values.sections):
        if not section.puzzles and not section.intro:
            message = 'the keys "puzzles" and "intro" are missing: a section has one of them'
            problems.add(job.place(("sections", index)), message)
    if not any(section.puzzles for section in job.values.sections):
        problems.add(job.place(("sections",)), "found no puzzles in any section")
    problems.raise_if_any()


def book_groups(book: BookJob) -> list[PuzzleGroup]:
    """What each section lists, and what it takes of that."""
    return [
        PuzzleGroup(("sections", index, "puzzles"), section.puzzles, section.count, section.grades)
        for index, section in enumerate(book.sections)
    ]


def _outcome(written: Sequence[Path], own: int, book: Book, laid: Paginated, total: str) -> Outcome:
    """What there is to tell of a finished book; so many of its files are not certificates."""
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
    if own > 1:
        summary += f"; beside it {', '.join(path.name for path in written[1:own])}"
    if len(written) > own:
        summary += f"; certificates: {written[own].parent}"
    ungraded = [each.puzzle.id for each in puzzles if each.grade.band is Band.UNGRADED]
    if ungraded:
        summary += f"; ungraded: {first_of(ungraded, MOST_NAMED)}"
    told_of_book = {"pages": pages, "plan": page_plan(laid).facts(), "checksum": total}
    return Outcome(tuple(written), {**told_of_book, "puzzles": facts}, summary)


def numbered_puzzles(
    job: Job[BookJob],
    listed: Sequence[Listed],
    verdicts: Sequence[Verdict],
    walks: Sequence[Walked],
) -> list[tuple[int, Numbered]]:
    """The puzzles numbered through in the job's order, each with its section."""
    proved = list(zip(listed, verdicts, walks, strict=True))
    if job.values.order == "by-grade":
        proved.sort(key=lambda each: (each[0].file.group, _score(each[2])))
    return [
        (
            each.file.group,
            Numbered(number, each.puzzle, verdict.answers[0], walked.path, walked.grade),
        )
        for number, (each, verdict, walked) in enumerate(proved, start=1)
    ]


def _score(walked: Walked) -> float:
    """How hard a puzzle is; without a grade it counts for harder than any other."""
    return inf if walked.grade.score is None else walked.grade.score
