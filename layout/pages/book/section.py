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
from layout.pages.common.book import PER_PAGE, Book, Numbered, Section
from layout.pages.common.design import Design
from layout.pages.common.gauge import grade_range
from layout.pages.common.misfit import JobPath, Misfit, Misfits, gathered
from layout.pages.common.page import Labels, Page
from layout.pages.common.prose_pages import opener_pages


def section_part(book: Book, index: int, design: Design) -> BookPart:
    """The section at an index from 0."""
    section = book.sections[index]
    entry = ContentsEntry(
        section.title, f"section-{index + 1}", note=_section_note(section, design)
    )
    path: JobPath = ("sections", index)
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
    """All its pages. Raises Misfits with those of the opener and of the puzzles.

    Where it has no puzzles it is pages of words.
    """
    opens = partial(
        opener_pages,
        section.title,
        entry.note,
        section.intro,
        entry.anchor,
        design,
        (*path, "title"),
        words_path=(*path, "intro"),
        head=section.head,
        picture=section.picture,
    )
    if not section.puzzles:
        return opens()
    opener, puzzles = gathered(
        (
            opens,
            lambda: _puzzle_pages(section, path, design, hinted=hinted),
        )
    )
    return (*opener, *puzzles)


def _puzzle_pages(
    section: Section, path: JobPath, design: Design, *, hinted: bool
) -> tuple[Page, ...]:
    """The pages of the puzzles. Raises Misfits, with how many a page would fit where some do."""
    try:
        return _pages_of(section, section.per_page, design, hinted=hinted)
    except Misfits as misfits:
        small = [each for each in misfits.found if each.field == "size"]
        fewer = [count for count in reversed(PER_PAGE) if count < section.per_page]
        fits = (count for count in fewer if _have_room(section, count, design, hinted=hinted))
        if not small or (count := next(fits, 0)) == 0:
            raise
        others = [each for each in misfits.found if each.field != "size"]
        more = f" and {len(small) - 1} more" if len(small) > 1 else ""
        title = small[0].puzzle.title if small[0].puzzle else ""
        message = f'"{title}"{more}: {small[0].message}; {count} to a page fit'
        raise Misfits([Misfit(message, (*path, "per-page")), *others]) from None


def _have_room(section: Section, per_page: int, design: Design, *, hinted: bool) -> bool:
    """Whether cells come out large enough with so many puzzles a page."""
    try:
        _pages_of(section, per_page, design, hinted=hinted)
    except Misfits as misfits:
        return all(each.field != "size" for each in misfits.found)
    return True


def _pages_of(section: Section, per_page: int, design: Design, *, hinted: bool) -> tuple[Page, ...]:
    title = section.head
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
    """A section's puzzles by their numbers, and how hard they are; nothing where it has none."""
    if not section.puzzles:
        return ""
    numbers = puzzle_range(section.puzzles, design)
    grades = grade_range(section.puzzles, design.words.grades)
    if not grades:
        return numbers
    return fill(design.words.pages.puzzles_of_grade, puzzles=numbers, grades=grades)
