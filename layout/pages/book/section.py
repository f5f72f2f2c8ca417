"""A section of a book: an opener, then its puzzles."""

from collections.abc import Sequence
from functools import partial

from layout.language.words import fill
from layout.pages.book.book_part import BookPart, ContentsEntry
from layout.pages.book.many_a_page import pages_of_several
from layout.pages.book.one_a_page import pages_of_one
from layout.pages.book.puzzle_range import puzzle_range
from layout.pages.book.sheets import shared_pages
from layout.pages.book.two_a_page import pages_of_two
from layout.pages.common.book import Book, Numbered, Section
from layout.pages.common.design import Design
from layout.pages.common.gauge import grade_range
from layout.pages.common.misfit import JobPath, gathered
from layout.pages.common.page import Labels, Page
from layout.pages.common.prose_pages import opener_pages


def section_part(book: Book, index: int, design: Design) -> BookPart:
    """The section at an index from 0."""
    section = book.sections[index]
    entry = ContentsEntry(
        section.title, f"section-{index + 1}", note=_section_note(section, design)
    )
    path: JobPath = ("sections", index, "title")
    setting = partial(_section_pages, section, entry, path, design, book.hints > 0)
    return BookPart(setting, (entry,), section.puzzles)


def _section_pages(
    section: Section,
    entry: ContentsEntry,
    path: JobPath,
    design: Design,
    hinted: bool,
    labels: Labels,
) -> tuple[Page, ...]:
    """All its pages. Raises Misfits with those of the opener and of the puzzles."""
    opener, puzzles = gathered(
        (
            lambda: opener_pages(
                section.title, entry.note, section.intro, entry.anchor, design, path
            ),
            lambda: _puzzle_pages(section, design, hinted=hinted),
        )
    )
    return (*opener, *puzzles)


def _puzzle_pages(section: Section, design: Design, *, hinted: bool) -> tuple[Page, ...]:
    title, per_page = section.title, section.per_page
    if per_page == 1:
        return pages_of_one(title, section.puzzles, design, hinted=hinted)

    def several(pages: Sequence[Sequence[Numbered]], count: int) -> tuple[Page, ...]:
        return pages_of_several(title, pages, count, design, hinted=hinted)

    def two(pages: Sequence[Sequence[Numbered]]) -> tuple[Page, ...]:
        return pages_of_two(title, pages, design, hinted=hinted)

    beside = per_page == 2 and design.measure < design.depth
    shared = two if beside else partial(several, count=per_page)
    return shared_pages(section.puzzles, per_page, shared, partial(several, count=1))


def _section_note(section: Section, design: Design) -> str:
    """A section's puzzles by their numbers, and how hard they are."""
    numbers = puzzle_range(section.puzzles, design)
    grades = grade_range(section.puzzles, design.words.grades)
    if not grades:
        return numbers
    return fill(design.words.pages.puzzles_of_grade, puzzles=numbers, grades=grades)
