"""Worksheets: read, prove, disguise, set, write, read back. Nothing is written but all of it."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from typing import Any

from layout.console import counted
from layout.jobs.common.choices import with_choices
from layout.jobs.common.composed_puzzles import with_composed
from layout.jobs.common.job import Job
from layout.jobs.common.listing import PuzzleGroup, listed_files, puzzle_group
from layout.jobs.common.making import Making, Outcome
from layout.jobs.common.output_path import output_path, refuse_sources
from layout.jobs.common.placing import told_in_place
from layout.jobs.common.read_back import read_back
from layout.jobs.common.reading import read_listed
from layout.jobs.common.values import TRIMS
from layout.jobs.common.walking import facts_of
from layout.jobs.worksheet.pupils import copies_for
from layout.jobs.worksheet.wall_slides import wall_slides
from layout.jobs.worksheet.worksheet_job import WorksheetJob
from layout.jobs.worksheet.worksheets import LETTERS, all_worksheets, with_symbols
from layout.language.wording import young_words
from layout.language.words import words_for
from layout.output.files import input_at
from layout.output.write import Outputs, outputs_in
from layout.pages.common.design import Design
from layout.pages.common.format import Trim
from layout.pages.common.letters import check_texts
from layout.pages.common.misfit import JobPath
from layout.pages.worksheet.handout import Copy, Handout, Worksheet
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
    groups = worksheet_groups(job.values)
    files = listed_files(job, groups, making.root)
    refuse_sources(job, _named_outputs(job), [each.path for each in files])
    keeper = making.grades(files[0].path if files else job.path)
    with making.progress("reading", len(files)) as done:
        listed = read_listed(job, groups, files, making.workers, done)
    listed = with_composed(job, groups, listed, making, titled=False)
    listed = with_choices(job, groups, files, listed, making, keeper)
    listed = with_symbols(job, listed)
    handout = _handout(job, all_worksheets(job, listed, making, keeper))
    with making.progress("setting", 0):
        made = _lay_out(job, handout, style, making)
        whole = [pdf_of_document(document) for document in made.documents]
        if made.heard is not None:
            whole.append(pdf_of_document(made.heard, tagged=True, for_screen=True))
    every = [*made.documents, *([made.heard] if made.heard else [])]
    checks = [partial(read_back, document=document) for document in every]
    outputs.write_all(zip(paths, whole, checks, strict=True))
    return _outcome(paths, handout, made, has_slides=bool(job.values.output.slides))


def worksheet_groups(values: WorksheetJob) -> list[PuzzleGroup]:
    """What a worksheet lists or composes, and what it takes of that."""
    return [puzzle_group(("puzzles",), values.puzzles, values.count, values.grades)]


def _outputs(job: Job[WorksheetJob]) -> tuple[Path, ...]:
    """All files of the job: the key's behind the sheets, and last the one for readers who hear it.

    Raises Unreadable.
    """
    values = job.values
    _refuse_unfit_outputs(job)
    named = _named_outputs(job)
    for index, (path, output) in enumerate(named):
        if input_at(output, [other for _, other in named[:index]]) is not None:
            found = f'found "{getattr(values.output, str(path[-1]))}" for two files'
            raise Unreadable([Problem(job.place(path), f"{found}, expected two files")])
    return tuple(output for _, output in named)


def _refuse_unfit_outputs(job: Job[WorksheetJob]) -> None:
    """Raises Unreadable where the job's outputs and what it asks for don't agree."""
    values, output = job.values, job.values.output
    message: str = ""
    path: JobPath = ("output",)
    if not output.pdf and not output.forms:
        message = 'the key "pdf" is missing, or "forms" for a file each'
    elif values.key == "separate" and not output.key:
        message = 'the key "key" is missing: the answers go into a file of their own'
    elif values.key != "separate" and output.key:
        path = ("output", "key")
        message = f"found a file for the key, expected none: the job says key: {values.key}"
    elif values.key == "last-page" and output.forms:
        path = ("key",)
        message = "found last-page, expected separate: each form has a file of its own"
    elif output.slides and values.symbols == "shapes":
        path = ("output", "slides")
        message = "found slides of a sheet with shapes, expected symbols: as-written"
    elif values.key == "none" and values.strips:
        path, message = ("strips",), "found strips of answers, expected none: the job has no key"
    elif output.forms and len(set(_form_names(values))) < values.forms * values.ladder.rungs:
        path = ("output", "forms")
        hole = "{rung}" if values.forms == 1 or "{form}" in output.forms else "{form}"
        message = f'found "{output.forms}", expected {hole} in it: several sheets have one name'
    if message:
        raise Unreadable([Problem(job.place(path), message)])


def _named_outputs(job: Job[WorksheetJob]) -> list[tuple[JobPath, Path]]:
    """The files of the job, and where it names them."""
    output = job.values.output
    named = [("slides", output.slides)] if output.slides else []
    named += [("pdf", output.pdf)] if output.pdf else []
    named += [("forms", name) for name in _form_names(job.values)]
    named += [("key", output.key)] if output.key else []
    named += [("screen", output.screen)] if output.screen else []
    return [(("output", key), output_path(job, ("output", key), name)) for key, name in named]


def _form_names(values: WorksheetJob) -> list[str]:
    """The files of single forms, in the order of the worksheets."""
    if not values.output.forms:
        return []
    return [
        values.output.forms.replace("{form}", form).replace("{rung}", str(rung))
        for rung in range(1, values.ladder.rungs + 1)
        for form in LETTERS[: values.forms]
    ]


def _handout(job: Job[WorksheetJob], worksheets: tuple[Worksheet, ...]) -> Handout:
    values = job.values
    level = values.walk_level or ("first-timer" if values.reader == "young" else "whole")
    return Handout(
        values.title,
        values.class_,
        values.instructions,
        values.name_line,
        values.date_line,
        values.per_page,
        values.helpers == "edges",
        values.first_page,
        Level(level),
        values.duplex,
        values.strips,
        worksheets,
        copies_for(job, worksheets),
    )


@dataclass(frozen=True, slots=True)
class _Made:
    """The documents of a job, and where parts begin in the one of all sheets.

    The last is the key where that is a file of its own; `heard` is what is tagged, if anything.
    """

    documents: tuple[Document, ...]
    pages: Mapping[str, int]
    key_apart: bool
    heard: Document | None = None


def _lay_out(job: Job[WorksheetJob], handout: Handout, style: Style, making: Making) -> _Made:
    """The documents. Raises Unreadable for what does not fit."""
    values = job.values
    words = words_for(values.language)
    spoken = young_words(words) if values.reader == "young" else words
    design = handout_design(style, spoken, values.language, Trim(*TRIMS[values.page]))
    with told_in_place(job):
        check_texts(_texts(values), (each.puzzle for each in handout.exercises()), style)
        made = _documents(values, handout, design)
        if values.output.slides:
            wall = wall_slides(values, handout, style, making)
            made = replace(made, documents=(wall, *made.documents))
        return made


def _documents(values: WorksheetJob, handout: Handout, design: Design) -> _Made:
    """In the order of the job's outputs, without slides, which come before them."""
    last = values.key == "last-page"
    documents: list[Document] = []
    pages: Mapping[str, int] = {}
    heard = None
    if values.output.pdf or values.output.screen:
        whole, pages = handout_document(handout, handout.copies, design, with_key=last)
        documents += [whole] if values.output.pdf else []
        heard = whole if values.output.screen else None
    if values.output.forms:
        for worksheet in handout.worksheets:
            copies = [each for each in handout.copies if each.worksheet == worksheet]
            copies = copies or [Copy(worksheet)]
            document, _ = handout_document(handout, copies, design, with_key=False)
            documents.append(document)
    if values.key == "separate":
        documents.append(key_document(handout, design))
    return _Made(tuple(documents), pages, values.key == "separate", heard)


def _texts(values: WorksheetJob) -> Iterator[tuple[JobPath, str]]:
    """The job's own words, and where they stand in it."""
    yield ("title",), values.title
    yield ("class",), values.class_
    yield ("instructions",), values.instructions
    for at, name in enumerate(values.pupils.names):
        yield ("pupils", at), name


def _outcome(
    outputs: Sequence[Path], handout: Handout, made: _Made, *, has_slides: bool
) -> Outcome:
    """What there is to tell of finished worksheets."""
    counts = [len(document.leaves) for document in made.documents]
    worksheets = [_facts(worksheet) for worksheet in handout.worksheets]
    pupils = sum(1 for each in handout.copies if each.pupil)
    key = counts[-1] if made.key_apart else 0
    slides = counts[0] if has_slides else 0
    facts = {
        "pages": sum(counts) - key - slides,
        "slides": slides,
        "key_pages": key,
        "parts": dict(made.pages),
        "sheets": worksheets,
        "pupils": pupils,
    }
    puzzles = len(handout.worksheets[0].exercises)
    sheets = f"{counted(len(worksheets), 'sheet')} of {counted(puzzles, 'puzzle')}"
    wall = f", {counted(slides, 'slide')}" if slides else ""
    named = f" for {counted(pupils, 'pupil')}" if pupils else ""
    summary = (
        f"{', '.join(map(str, outputs))}: {sheets}, each with one answer{named}, "
        f"{counted(sum(counts) - slides, 'page')}{wall}"
    )
    return Outcome(tuple(outputs), facts, summary)


def _facts(worksheet: Worksheet) -> dict[str, Any]:
    return {
        "rung": worksheet.rung,
        "grade": worksheet.band,
        "form": worksheet.form,
        "givens": worksheet.givens,
        "puzzles": [facts_of(each.puzzle, each.grade) for each in worksheet.exercises],
    }
