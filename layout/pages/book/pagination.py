"""From a book to its leaves: collect the parts, arrange their pages, finish each page.

Page numbers, mirrored margins and blanks come in the last two stages only. What depends on
page numbers (the index, the inside margin) is collected again until the numbers stay the same.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Final

from layout.language.words import Words, fill
from layout.pages.book import teaching
from layout.pages.book.answers import ANCHOR as ANSWERS
from layout.pages.book.answers import answer_pages
from layout.pages.book.constructors import ANCHOR as CONSTRUCTORS
from layout.pages.book.constructors import constructor_pages
from layout.pages.book.contents import ANCHOR as CONTENTS
from layout.pages.book.contents import Entry, contents_pages
from layout.pages.book.front import front_pages
from layout.pages.book.hints import ANCHOR as HINTS
from layout.pages.book.hints import Hinted, hint_pages, hinted
from layout.pages.book.many_a_page import several_pages
from layout.pages.book.one_a_page import single_pages
from layout.pages.book.teaching import ANCHOR as TEACHING
from layout.pages.book.teaching import Lesson
from layout.pages.book.two_a_page import pair_pages
from layout.pages.book.walks_part import walk_entries, walks_part
from layout.pages.common.book import Book, Numbered, Section
from layout.pages.common.design import Design
from layout.pages.common.format import Trim, page_format
from layout.pages.common.furniture import furniture
from layout.pages.common.gauge import grade_range
from layout.pages.common.misfit import JobPath, gathered
from layout.pages.common.page import BLANK, Labels, Page, Part
from layout.pages.common.prose_pages import opener_pages
from layout.picture.document import Document, Info, Leaf, OutlineEntry
from layout.picture.items import Anchor, Group, Item
from layout.style.sheet import Style
from layout.type.roman import roman
from layout.type.typography import polish

MOST_PASSES: Final = 8
"""Rounds after which page numbers must have settled."""


@dataclass(frozen=True, slots=True)
class Placed:
    """A page with its place in the book: which side, and its label."""

    page: Page
    recto: bool
    label: str


@dataclass(frozen=True, slots=True)
class Paginated:
    """The finished leaves, and the label of the page of every anchor."""

    document: Document
    labels: Labels


def paginate(book: Book, style: Style, words: Words, language: str, trim: Trim) -> Paginated:
    """Sets a whole book. Raises Misfits with everything that does not fit its place."""
    design, placed, labels = _settle(book, style, words, language, trim)
    title = polish(book.title, words.quote_marks)
    author = polish(book.author, words.quote_marks)
    leaves = tuple(finished_leaf(each, title, design, labels) for each in placed)
    entries = _outline(book, design)
    return Paginated(Document(leaves, Info(title, author, "", language), entries), labels)


def _settle(
    book: Book, style: Style, words: Words, language: str, trim: Trim
) -> tuple[Design, Sequence[Placed], Labels]:
    """Collects and arranges until neither the numbers nor the format change any more.

    The inside margin is that of the most pages there were in any round: it may only grow, or a
    narrower column that happens to need fewer pages would send it to and fro.
    """
    labels: dict[str, str] = {}
    pages = 0
    told = hinted(book, words)
    for _ in range(MOST_PASSES):
        layout = page_format(trim, style.page, pages)
        design = Design(layout, style.page, style.board, words, language)
        placed = arrange(_collect(book, told, design, labels))
        found = labels_of(placed)
        pages = max(pages, len(placed))
        if found == labels and layout == page_format(trim, style.page, pages):
            return design, placed, labels
        labels = found
    raise RuntimeError("the page numbers of the contents do not settle")


def _collect(book: Book, told: Sequence[Hinted], design: Design, labels: Labels) -> list[Part]:
    """The parts of the book in reading order. Raises Misfits with those of all parts."""
    words = design.words
    taught = teaching.lessons(book, words)
    entries = _entries(book, taught, design)
    makers: list[Callable[[], Part]] = [
        lambda: Part(front_pages(book, design), front_matter=True),
        lambda: Part(contents_pages(entries, labels, design), front_matter=True),
        lambda: Part(teaching.teaching_pages(taught, design)),
        *(
            partial(_section, section, index, design, hinted=book.hints > 0)
            for index, section in enumerate(book.sections)
        ),
        lambda: _hints(told, labels, design),
        lambda: walks_part(book, design),
        lambda: _answers(book, design),
        lambda: Part(constructor_pages(book, labels, design)),
    ]
    return [part for part in gathered(makers) if part.pages]


def _section(section: Section, index: int, design: Design, *, hinted: bool) -> Part:
    """The opener, then the puzzles."""
    note = section_note(section, design)
    path: JobPath = ("sections", index, "title")
    opener, pages = gathered(
        (
            lambda: opener_pages(
                section.title, note, section.intro, section_anchor(index), design, path
            ),
            lambda: _puzzle_pages(section, design, hinted=hinted),
        )
    )
    return Part((*opener, *pages))


def _puzzle_pages(section: Section, design: Design, *, hinted: bool) -> tuple[Page, ...]:
    if section.per_page == 1:
        return single_pages(section.title, section.puzzles, design, hinted=hinted)
    if section.per_page == 2 and design.measure < design.depth:
        return pair_pages(section.title, section.puzzles, design, hinted=hinted)
    return several_pages(section.title, section.puzzles, section.per_page, design)


def _hints(told: Sequence[Hinted], labels: Labels, design: Design) -> Part:
    """The hints to all puzzles that have some."""
    note = puzzle_range([numbered for numbered, _ in told], design) if told else ""
    return Part(hint_pages(told, note, labels, design))


def _answers(book: Book, design: Design) -> Part:
    """An opener, then the answers to all puzzles."""
    title, note = design.words.pages.answers, puzzle_range(tuple(book.puzzles()), design)
    opener = opener_pages(title, note, "", ANSWERS, design)
    return Part((*opener, *answer_pages(book, design)))


def section_anchor(index: int) -> str:
    """Where a section opens; the first has the index 0."""
    return f"section-{index + 1}"


def puzzle_range(puzzles: Sequence[Numbered], design: Design) -> str:
    """The numbers of some puzzles that follow one another, in words."""
    first, last = puzzles[0].number, puzzles[-1].number
    words = design.words.pages
    return fill(words.one_puzzle if first == last else words.puzzles, first=first, last=last)


def section_note(section: Section, design: Design) -> str:
    """A section's puzzles by their numbers, and how hard they are."""
    numbers = puzzle_range(section.puzzles, design)
    grades = grade_range(section.puzzles, design.words.grades)
    if not grades:
        return numbers
    return fill(design.words.pages.puzzles_of_grade, puzzles=numbers, grades=grades)


def _entries(book: Book, taught: Sequence[Lesson], design: Design) -> list[Entry]:
    """The lines of the contents."""
    words = design.words.pages
    named = any(numbered.puzzle.credits.constructor for numbered in book.puzzles())
    return [
        *((Entry(words.how_to_solve, TEACHING),) if taught else ()),
        *(Entry(lesson.title, lesson.anchor, level=1) for lesson in taught),
        *(
            Entry(section.title, section_anchor(index), note=section_note(section, design))
            for index, section in enumerate(book.sections)
        ),
        *((Entry(words.hints, HINTS),) if book.hints else ()),
        *walk_entries(book, design),
        Entry(words.answers, ANSWERS),
        *((Entry(words.constructors, CONSTRUCTORS),) if named else ()),
    ]


def arrange(parts: Sequence[Part]) -> list[Placed]:
    """Every page in its place: parts open on rectos, and the last leaf has two sides.

    Front matter counts in Roman figures; the first page after it is 1.
    """
    placed: list[Placed] = []
    begins = None
    for part in parts:
        if len(placed) % 2:
            placed.append(_placed(BLANK, len(placed), begins))
        if begins is None and not part.front_matter:
            begins = len(placed)
        for page in part.pages:
            placed.append(_placed(page, len(placed), begins))
    if len(placed) % 2:
        placed.append(_placed(BLANK, len(placed), begins))
    return placed


def _placed(page: Page, index: int, begins: int | None) -> Placed:
    """The page at an index from 0; the first is a recto."""
    label = roman(index + 1) if begins is None else str(index - begins + 1)
    return Placed(page, index % 2 == 0, label)


def labels_of(placed: Sequence[Placed]) -> dict[str, str]:
    """The label of the page that each anchor stands on."""
    return {anchor.name: each.label for each in placed for anchor in each.page.anchors}


def finished_leaf(placed: Placed, title: str, design: Design, labels: Labels) -> Leaf:
    """The finished page: its items in their places, its margins on their sides."""
    page, layout = placed.page, design.format
    body = tuple(page.draw(labels))
    left = layout.left(placed.recto)
    items: list[Item] = [Anchor(each.name, each.y + layout.top) for each in page.anchors]
    items += [Group(left, layout.top, body)] if body else []
    items += furniture(page, placed.recto, placed.label, title, design, labels)
    trim = layout.trim
    return Leaf(trim.width, trim.height, tuple(items), placed.label, trim.bleed)


def _outline(book: Book, design: Design) -> tuple[OutlineEntry, ...]:
    """What the contents lead to, and every puzzle under its section."""
    entries = [OutlineEntry(design.words.pages.contents, CONTENTS)]
    puzzles = {
        section_anchor(index): section.puzzles for index, section in enumerate(book.sections)
    }
    quotes = design.words.quote_marks
    for entry in _entries(book, teaching.lessons(book, design.words), design):
        entries.append(OutlineEntry(polish(entry.title, quotes), entry.anchor, entry.level))
        entries += (
            OutlineEntry(
                f"{each.number}  {polish(each.puzzle.title, quotes)}", each.puzzle_anchor, 1
            )
            for each in puzzles.get(entry.anchor, ())
        )
    return tuple(entries)
