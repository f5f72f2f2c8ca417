"""Worksheets: read, prove, disguise, set, write, read back. Nothing is written but all of it."""

from collections.abc import Iterator, Mapping, Sequence
from functools import partial
from pathlib import Path
from typing import Any

from layout.console import counted
from layout.jobs.common.job import Job
from layout.jobs.common.listing import PuzzleGroup, listed_files, read_files
from layout.jobs.common.making import Making, Outcome
from layout.jobs.common.output_path import output_path, refuse_sources
from layout.jobs.common.placing import told_in_place
from layout.jobs.common.read_back import read_back
from layout.jobs.common.values import TRIMS
from layout.jobs.common.walking import facts_of
from layout.jobs.worksheet.worksheet_job import WorksheetJob
from layout.jobs.worksheet.worksheets import all_worksheets, with_symbols
from layout.language.wording import young_words
from layout.language.words import words_for
from layout.output.files import input_at
from layout.output.write import Outputs, outputs_in
from layout.pages.common.design import Design
from layout.pages.common.format import Trim
from layout.pages.common.letters import check_texts
from layout.pages.common.misfit import JobPath
from layout.pages.worksheet.handout import Handout, Worksheet
from layout.pages.worksheet.handout_document import handout_design, handout_document, key_document
from layout.picture.document import Document
from layout.style.style import Style, read_style
from layout.telling.level import Level
from layout.writers.pdf import pdf_of_document
from verify.reading.problems import Problem, Unreadable


def make_worksheet(job: Job[WorksheetJob], making: Making) -> Outcome:
    """Makes the worksheets of a job, and their key.

    Raises Unreadable for what can't be used, MayNotBePrinted where a puzzle has not exactly one
    answer, and OutputError where a file can't be written.
    """
    paths = _outputs(job)
    with outputs_in([path.parent for path in paths], job.name, making.tell) as outputs:
        return _make(job, making, paths, outputs)


def _make(
    job: Job[WorksheetJob], making: Making, paths: Sequence[Path], outputs: Outputs
) -> Outcome:
    """Makes the worksheets while their folders are held."""
    style = read_style(job.values.style, job.folder, job.place(("style",)))
    files = listed_files(job, [PuzzleGroup(("puzzles",), job.values.puzzles)], making.root)
    keys: Sequence[JobPath] = (("output", "pdf"), ("output", "key"))
    refuse_sources(job, list(zip(keys, paths, strict=False)), [each.path for each in files])
    with making.progress("reading", len(files)) as done:
        puzzles = with_symbols(job, read_files(files, making.workers, done))
    keeper = making.grades(files[0].path)
    handout = _handout(job.values, all_worksheets(job, puzzles, making, keeper))
    with making.progress("setting", 0):
        documents, pages = _lay_out(job, handout, style)
        whole = [pdf_of_document(document) for document in documents]
    checks = [partial(read_back, document=document) for document in documents]
    outputs.write_all(zip(paths, whole, checks, strict=True))
    return _outcome(paths, handout, documents, pages)


def _outputs(job: Job[WorksheetJob]) -> tuple[Path, ...]:
    """The worksheets' file, and the key's where it is one of its own. Raises Unreadable."""
    values = job.values.output
    worksheets = output_path(job, ("output", "pdf"), values.pdf)
    if job.values.key != "separate":
        if values.key:
            message = f"found a file for the key, expected none: the job says key: {job.values.key}"
            raise Unreadable([Problem(job.place(("output", "key")), message)])
        return (worksheets,)
    if not values.key:
        message = 'the key "key" is missing: the answers go into a file of their own'
        raise Unreadable([Problem(job.place(("output",)), message)])
    key = output_path(job, ("output", "key"), values.key)
    if input_at(key, [worksheets]) is not None:
        message = f"found {values.key!r} for the sheets and for their answers, expected two files"
        raise Unreadable([Problem(job.place(("output", "key")), message)])
    return (worksheets, key)


def _handout(values: WorksheetJob, worksheets: tuple[Worksheet, ...]) -> Handout:
    return Handout(
        values.title,
        values.class_,
        values.instructions,
        values.name_line,
        values.date_line,
        values.per_page,
        values.helpers == "edges",
        values.first_page,
        Level(values.walk_level),
        worksheets,
    )


def _lay_out(
    job: Job[WorksheetJob], handout: Handout, style: Style
) -> tuple[tuple[Document, ...], Mapping[str, int]]:
    """The documents, and the page of each worksheet. Raises Unreadable for what does not fit."""
    values = job.values
    words = words_for(values.language)
    spoken = young_words(words) if values.reader == "young" else words
    design = handout_design(style, spoken, values.language, Trim(*TRIMS[values.page]))
    with told_in_place(job):
        check_texts(_texts(values), (each.puzzle for each in handout.exercises()), style)
        return _documents(values, handout, design)


def _documents(
    values: WorksheetJob, handout: Handout, design: Design
) -> tuple[tuple[Document, ...], Mapping[str, int]]:
    last = values.key == "last-page"
    worksheets, pages = handout_document(handout, design, with_key=last)
    keys = (key_document(handout, design),) if values.key == "separate" else ()
    return (worksheets, *keys), pages


def _texts(values: WorksheetJob) -> Iterator[tuple[JobPath, str]]:
    """The job's own words, and where they stand in it."""
    yield ("title",), values.title
    yield ("class",), values.class_
    yield ("instructions",), values.instructions


def _outcome(
    outputs: Sequence[Path],
    handout: Handout,
    documents: Sequence[Document],
    pages: Mapping[str, int],
) -> Outcome:
    """What there is to tell of finished worksheets."""
    worksheets = [_facts(worksheet) for worksheet in handout.worksheets]
    counts = [len(document.leaves) for document in documents]
    facts = {
        "pages": counts[0],
        "key_pages": counts[1] if len(counts) > 1 else 0,
        "sheets": worksheets,
    }
    puzzles = len(handout.worksheets[0].exercises)
    sheets = f"{counted(len(worksheets), 'sheet')} of {counted(puzzles, 'puzzle')}"
    summary = (
        f"{', '.join(map(str, outputs))}: {sheets}, each with one answer, "
        f"{counted(sum(counts), 'page')}"
    )
    return Outcome(tuple(outputs), facts, summary)


def _facts(worksheet: Worksheet) -> dict[str, Any]:
    return {
        "rung": worksheet.rung,
        "form": worksheet.form,
        "puzzles": [facts_of(each.puzzle, each.grade) for each in worksheet.exercises],
    }
