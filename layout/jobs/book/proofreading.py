"""A finished book read back and held against its job, by a reader that had no part in it."""

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Final

from layout.jobs.book.book_job import STANDARDS, BookJob
from layout.jobs.common.job import Job
from layout.jobs.common.read_back import FaultyFile
from layout.language.words import words_for
from layout.preflight.against.against import Ordered, against
from layout.preflight.against.naming import Sayings
from layout.preflight.against.placing import Expected
from layout.preflight.checks.finding import CERTAIN, Finding
from layout.preflight.preflight import Terms, preflight
from layout.preflight.reading.finished import FinishedFile
from layout.preflight.reading.opening import Unusable, read_finished
from layout.preflight.report import finding_lines
from verify.proof.verdict import Answer
from verify.puzzle import Puzzle

LARGE_PRINT: Final = "large-print"
"""The style whose letters are held to be large."""

MOST_TOLD: Final = 8
"""Findings that are told one by one when a book is made."""


def proofread(
    file: FinishedFile,
    job: Job[BookJob],
    proved: Sequence[tuple[Puzzle, Answer]],
    large_print: bool = False,
) -> Iterator[Finding]:
    """All that a press would refuse of a file, or that it prints otherwise than its job says.

    `proved` has the puzzles in the order of the book, each with the answer of a proof.
    """
    values, pages = job.values, words_for(job.values.language).pages
    large = large_print or values.style == LARGE_PRINT
    together = (pages.answers_on, pages.answers_on_pages)
    sayings = Sayings((pages.hints_on, pages.answer_on), (pages.puzzle_on, pages.on_page), together)
    named = (*sayings.puzzles, *sayings.answers, pages.answers_on)
    # The edition for a screen is another file of the same pages.
    for_screen = "/StructTreeRoot" in file.catalog
    standard = "" if for_screen else STANDARDS[values.output.standard]
    yield from preflight(file, Terms(large, named, standard, "pages"))
    expected = [Expected(*each) for each in proved]
    yield from against(file, Ordered(expected, values.sections[0].title, sayings))


def refuse_misprints(
    path: Path, name: str, job: Job[BookJob], proved: Sequence[tuple[Puzzle, Answer]]
) -> list[str]:
    """Reads a file before it takes its name; gives what it seems to lack, in lines.

    Raises FaultyFile where a digit is not what was proved, or the file not what a press takes.
    """
    try:
        file = read_finished(path, name)
    except Unusable as unusable:
        raise FaultyFile(f"the finished file can't be read: {unusable}") from unusable
    findings = list(proofread(file, job, proved))
    certain = [finding for finding in findings if finding.check in CERTAIN]
    if certain:
        raise FaultyFile("; ".join(_first(file, certain)))
    return _first(file, findings)


def refuse_faulty_cover(path: Path, name: str, job: Job[BookJob]) -> None:
    """Reads a cover before it takes its name. Raises FaultyFile for what no press takes, and for
    bars that say another number or that no till reads.
    """
    try:
        file = read_finished(path, name)
    except Unusable as unusable:
        raise FaultyFile(f"the finished cover can't be read: {unusable}") from unusable
    terms = Terms(standard=STANDARDS[job.values.output.standard], kind="cover")
    findings = [each for each in preflight(file, terms) if each.check in (*CERTAIN, "bar code")]
    if findings:
        raise FaultyFile("; ".join(_first(file, findings)))


def _first(file: FinishedFile, findings: Sequence[Finding]) -> list[str]:
    """The first findings as lines, and how many more there are."""
    lines = list(finding_lines(file, findings[:MOST_TOLD]))
    more = len(findings) - MOST_TOLD
    return [*lines, f"{file.name}: {more} more findings"] if more > 0 else lines
