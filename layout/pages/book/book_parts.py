"""The parts of a book in reading order: pages, page numbers, contents and outline follow it."""

from collections.abc import Sequence

from layout.pages.book.answers import answers_part
from layout.pages.book.book_part import BookPart
from layout.pages.book.colophon import colophon_part
from layout.pages.book.constructors import constructors_part
from layout.pages.book.contents import contents_part
from layout.pages.book.front import front_part
from layout.pages.book.hints import Hinted, hints_part
from layout.pages.book.matter import words_part
from layout.pages.book.section import section_part
from layout.pages.book.teaching import teaching_part
from layout.pages.book.walks_part import walks_part
from layout.pages.common.book import Book
from layout.pages.common.design import Design


def book_parts(book: Book, hinted: Sequence[Hinted], design: Design) -> tuple[BookPart, ...]:
    """All parts that the book has; `hinted` are its puzzles with their hints."""
    words, matter = design.words.pages, book.matter
    perhaps = (
        words_part(
            words.foreword, matter.foreword, ("front", "foreword"), design, front_matter=True
        ),
        teaching_part(book, design),
        *(section_part(book, index, design) for index in range(len(book.sections))),
        words_part(words.afterword, matter.afterword, ("back", "afterword"), design),
        hints_part(hinted, design),
        walks_part(book, design),
        answers_part(book, design),
        words_part(words.about, matter.about, ("back", "about"), design),
        constructors_part(book, design),
        colophon_part(book, design),
    )
    listed = tuple(part for part in perhaps if part is not None)
    return (front_part(book, design), contents_part(listed, design), *listed)
