"""Any finished file against the job of a book, whose puzzles are proved anew."""

from pathlib import Path

from layout.jobs.book.book_job import BookJob
from layout.jobs.book.make_book import book_groups, numbered_puzzles
from layout.jobs.book.proofreading import proofread
from layout.jobs.common.choices import with_choices
from layout.jobs.common.job import Job
from layout.jobs.common.listing import listed_files
from layout.jobs.common.making import Making
from layout.jobs.common.proving import prove_all
from layout.jobs.common.reading import read_listed
from layout.jobs.common.walking import walk_all
from layout.jobs.read_job import read_job
from layout.preflight.checks.finding import Finding
from layout.preflight.reading.finished import FinishedFile
from verify.proof.verdict import Answer
from verify.puzzle import Puzzle
from verify.reading.problems import Problem, Unreadable


def held_against(
    file: FinishedFile, path: Path, making: Making, large_print: bool = False
) -> list[Finding]:
    """What is wrong with a file that should be the book of a job.

    Raises Unreadable for a job or a puzzle that can't be used, and MayNotBePrinted where one has
    not exactly one answer.
    """
    job = read_job(path)
    if not isinstance(job.values, BookJob):
        message = "found a job of another kind, expected job: book"
        raise Unreadable([Problem(job.place(("job",)), message)])
    return list(proofread(file, job, _proved(job, making), large_print))


def _proved(job: Job[BookJob], making: Making) -> list[tuple[Puzzle, Answer]]:
    """The puzzles in the order of the book, each with its answer; walked only where that counts."""
    groups = book_groups(job.values)
    files = listed_files(job, groups, making.root)
    with making.progress("reading", len(files)) as done:
        listed = read_listed(job, groups, files, making.workers, done)
    keeper = making.grades(files[0].path)
    listed = with_choices(job, groups, files, listed, making, keeper)
    puzzles = [each.puzzle for each in listed]
    with making.progress("proving", len(puzzles)) as done:
        verdicts = prove_all(puzzles, making, done)
    if job.values.order == "as-listed":
        return [(each, verdict.answers[0]) for each, verdict in zip(puzzles, verdicts, strict=True)]
    with making.progress("walking", len(puzzles)) as done:
        walks = walk_all(puzzles, making, done, (), keeper)
    numbered = numbered_puzzles(job, listed, verdicts, walks)
    return [(each.puzzle, each.answer) for _, each in numbered]
