"""Any finished file against the job of a book, whose puzzles are proved anew."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from layout.jobs.book.book_job import STANDARDS, BookJob
from layout.jobs.book.editions import on_paper, output_files
from layout.jobs.book.make_book import book_groups, numbered_puzzles
from layout.jobs.book.proofreading import proofread
from layout.jobs.common.choices import with_choices
from layout.jobs.common.composed_puzzles import with_composed
from layout.jobs.common.job import Job
from layout.jobs.common.listing import listed_files
from layout.jobs.common.making import Making
from layout.jobs.common.proving import prove_all
from layout.jobs.common.reading import read_listed
from layout.jobs.common.walking import walk_all
from layout.jobs.read_job import read_job
from layout.preflight.checks.bound import Bound, check_count, check_spine
from layout.preflight.checks.finding import Finding
from layout.preflight.kinds import kind_of
from layout.preflight.preflight import Terms, preflight
from layout.preflight.reading.bars import bar_codes
from layout.preflight.reading.finished import FinishedFile
from layout.preflight.reading.opening import Unusable, count_pages
from layout.style.style import read_style
from verify.proof.verdict import Answer
from verify.puzzle import Puzzle
from verify.reading.problems import Problem, Unreadable


def held_against(file: FinishedFile, path: Path, making: Making, asked: Terms) -> list[Finding]:
    """What is wrong with a file that should be the book of a job, its cover, or its sheets.

    Raises Unreadable for a job or a puzzle that can't be used, and where the book of a cover or of
    sheets is not made yet; and MayNotBePrinted where a puzzle has not exactly one answer.
    """
    job = read_job(path)
    if not isinstance(job.values, BookJob):
        message = "found a job of another kind, expected job: book"
        raise Unreadable([Problem(job.place(("job",)), message)])
    if (asked.kind or kind_of(file)) in ("cover", "sheets"):
        return list(_around_the_book(file, job, asked))
    return list(proofread(file, job, _proved(job, making), asked.large_print))


def _around_the_book(file: FinishedFile, job: Job[BookJob], asked: Terms) -> Iterator[Finding]:
    """What is wrong with a cover or with sheets, for the book as it was made last."""
    values, book = job.values, _bound(job)
    if (asked.kind or kind_of(file)) == "cover":
        yield from preflight(file, replace(asked, standard=STANDARDS[values.output.standard]))
        yield from check_spine(file, book)
        told = values.imprint.isbn.replace("-", "")
        if told and told not in {code.digits for leaf in file.leaves for code in bar_codes(leaf)}:
            yield Finding("bar code", 1, f"no bars say the ISBN of the job, {told}")
    else:
        yield from preflight(file, asked)
        yield from check_count(file, book)


def _bound(job: Job[BookJob]) -> Bound:
    """The book that stands where the job puts it. Raises Unreadable where there is none."""
    values = job.values
    place = ("output", "pdf")
    path = output_files(job)[place]
    try:
        pages = count_pages(path)
    except (Unusable, OSError) as fault:
        message = f"{fault}; cover and sheets are held against the book: make it first"
        raise Unreadable([Problem(job.place(place), message)]) from None
    style = on_paper(job, read_style(values.style, job.folder, job.place(("style",))))
    return Bound(
        values.trim.width,
        values.trim.height,
        pages,
        style.page.binding.leaf,
        values.cover.spine,
        values.output.signature,
    )


def _proved(job: Job[BookJob], making: Making) -> list[tuple[Puzzle, Answer]]:
    """The puzzles in the order of the book, each with its answer; walked only where that counts."""
    groups = book_groups(job.values)
    files = listed_files(job, groups, making.root)
    with making.progress("reading", len(files)) as done:
        listed = read_listed(job, groups, files, making.workers, done)
    listed = with_composed(job, groups, listed, making)
    keeper = making.grades(files[0].path if files else job.path)
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
