"""From a job and its numbered puzzles to the book, and to its pages."""

from collections.abc import Sequence
from dataclasses import replace

from layout.jobs.book.book_job import BookJob
from layout.jobs.book.checksum import UNPROVED
from layout.jobs.book.chosen_walks import chosen_walks, walk_choice
from layout.jobs.book.illustrations import illustrations
from layout.jobs.common.job import Job
from layout.jobs.common.placing import told_in_place
from layout.language.words import words_for
from layout.pages.book.pagination import Paginated, paginate
from layout.pages.common.book import Book, Imprint, Matter, Numbered, Section
from layout.pages.common.letters import check_letters
from layout.style.style import Style


def plan(
    job: Job[BookJob], numbered: Sequence[tuple[int, Numbered]], checksum: str = UNPROVED
) -> Book:
    """The book: its words and pictures, and its puzzles, each with its section's number from 0.

    Raises Unreadable for a picture that can't be printed.
    """
    values, imprint = job.values, job.values.imprint
    pictures = illustrations(job)
    sections = tuple(
        Section(
            section.title,
            section.intro,
            tuple(puzzle for at, puzzle in numbered if at == index),
            section.per_page,
            section.running_title,
            pictures.get(index),
        )
        for index, section in enumerate(values.sections)
    )
    return Book(
        values.title,
        values.subtitle,
        values.author,
        Imprint(
            imprint.publisher, imprint.edition, imprint.isbn, imprint.others, imprint.copyright
        ),
        sections,
        values.back.answers.per_page,
        values.back.hints,
        chosen_walks(job, (each for _, each in numbered)),
        walk_choice(values.back),
        checksum=checksum if values.back.colophon else "",
        lessons=values.lessons,
        matter=Matter(
            values.front.dedication,
            values.front.foreword,
            values.back.afterword,
            values.back.about,
            values.running_title,
        ),
    )


def lay_out(job: Job[BookJob], book: Book, style: Style) -> Paginated:
    """The pages. Raises Unreadable, each thing at its place, for what does not fit on them."""
    language = job.values.language
    with told_in_place(job):
        check_letters(book, style)
        trim = replace(job.values.trim, bleed=job.values.bleed)
        return paginate(book, style, words_for(language), language, trim)
