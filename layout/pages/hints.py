"""The hints: a quiet list by number and title, in as many columns as the page holds."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil
from typing import Final, TypeAlias

from layout.pages.book import Book, Numbered
from layout.pages.caption import fitted_title
from layout.pages.design import LONGEST_LABEL, Design, cap, link_over
from layout.pages.linked import LinkedRow
from layout.pages.page import Labels, Page, fixed
from layout.pages.prose_pages import rows_in
from layout.picture.items import Anchor, Item
from layout.telling.hints import hints
from layout.type.lines import Line
from layout.type.markup import plain_run
from layout.type.paragraph import one_line, set_paragraph
from layout.type.prose import cut_pages
from layout.type.words import Words, fill

ANCHOR: Final = "hints"

NARROWEST: Final = 17.0
"""The least width of a column, in ems."""

MOST_COLUMNS: Final = 3

HANG: Final = 2.2
"""What titles and hints are indented from the numbers, in ems."""

SECOND_LINE: Final = 0.9
"""How far the second line of a hint and those after it are indented, in ems."""

Hinted: TypeAlias = tuple[Numbered, tuple[str, ...]]
"""A puzzle and its hints."""


@dataclass(frozen=True, slots=True)
class HintRow(LinkedRow):
    """A row of the list; the first one of a puzzle has its anchor."""

    anchor: str = ""


@dataclass(frozen=True, slots=True)
class _Columns:
    """How the list is divided: so many columns, their width, and from one to the next."""

    count: int
    width: float
    across: float


def hinted(book: Book, words: Words) -> tuple[Hinted, ...]:
    """The puzzles that have hints, with these; none where the book prints no hints."""
    if not book.hints:
        return ()
    found = (
        (each, hints(each.puzzle, each.walk, words, book.hints, each.number))
        for each in book.puzzles()
    )
    return tuple((each, told) for each, told in found if told)


def hint_pages(told: Sequence[Hinted], labels: Labels, design: Design) -> tuple[Page, ...]:
    """The list on as many pages as it needs. Raises Misfits for titles that are too long."""
    columns = _columns(design)
    rows = [row for each in told for row in _rows(each, columns.width, labels, design)]
    room = rows_in(design.depth, design.faces.lesser_rules)
    cut = cut_pages(rows, room)
    pages = [cut[start : start + columns.count] for start in range(0, len(cut), columns.count)]
    if pages:
        pages[-1] = _balanced(pages[-1], columns.count)
    return tuple(_page(page, columns, design) for page in pages)


def _columns(design: Design) -> _Columns:
    """As many columns as are wide enough."""
    em, gap = design.faces.lesser_rules.size, design.page.gap
    fitting = int((design.measure + gap) / (NARROWEST * em + gap) + 1e-9)
    count = min(max(fitting, 1), MOST_COLUMNS)
    width = (design.measure - (count - 1) * gap) / count
    return _Columns(count, width, width + gap)


def _balanced(page: Sequence[Sequence[HintRow]], count: int) -> tuple[tuple[HintRow, ...], ...]:
    """The last page's columns, about equally deep."""
    rows = [row for column in page for row in (*column, HintRow())]
    for room in range(ceil(len(rows) / count), len(rows) + 1):
        cut = cut_pages(rows, room)
        if len(cut) <= count and max(map(len, cut)) <= room:
            return cut
    return tuple(tuple(column) for column in page)


def _rows(told: Hinted, width: float, labels: Labels, design: Design) -> Iterator[HintRow]:
    """Number, title and the puzzle's page, then the hints, each beginning a row; an empty row."""
    numbered, sentences = told
    yield from _heading(numbered, width, labels, design)
    lines = [line for sentence in sentences for line in _hanging(sentence, width, design)]
    for index, line in enumerate(lines, start=1):
        yield HintRow((line,), keep=index < len(lines))
    yield HintRow()


def _hanging(sentence: str, width: float, design: Design) -> Iterator[tuple[float, Line]]:
    """The lines of a hint: the first begins farther left than the others, so that it is seen."""
    voices, language = design.faces.lesser_rules, design.language
    hang, deep = HANG * voices.size, (HANG + SECOND_LINE) * voices.size
    runs = plain_run(sentence, design.words.quote_marks)
    lines = set_paragraph(runs, voices, width - deep, indent=hang - deep, language=language)
    for index, line in enumerate(lines):
        yield deep if index else hang, line


def _heading(numbered: Numbered, width: float, labels: Labels, design: Design) -> Iterator[HintRow]:
    """The title may take several rows; its number and the page stand in the first."""
    faces, sentence = design.faces, design.words.pages.on_page
    hang = HANG * faces.lesser_rules.size
    widest = one_line(fill(sentence, page=LONGEST_LABEL), faces.caption_note).width
    measure = width - hang - widest - faces.caption_note.size
    title = fitted_title(numbered, faces.lesser_credit, measure, design)
    label = labels.get(numbered.puzzle_anchor, "")
    page = one_line(fill(sentence, page=label), faces.caption_note)
    number = one_line(str(numbered.number), faces.caption_number)
    links = [(0.0, number), (width - page.width, page)]
    for index, line in enumerate(title.lines):
        here = [*([] if index else links), (hang, line)]
        yield HintRow(
            (),
            True,
            tuple((x, line, numbered.puzzle_anchor) for x, line in here),
            "" if index else numbered.hints_anchor,
        )


def _page(page: Sequence[Sequence[HintRow]], columns: _Columns, design: Design) -> Page:
    """A page of the list with the anchors of its puzzles."""
    leading = design.faces.lesser_rules.leading
    anchors = tuple(
        Anchor(row.anchor, index * leading)
        for column in page
        for index, row in enumerate(column)
        if row.anchor
    )
    items = (
        item
        for index, column in enumerate(page)
        for item in _column_items(column, index * columns.across, design)
    )
    return Page(fixed(items), anchors, head=design.words.pages.hints)


def _column_items(rows: Sequence[HintRow], left: float, design: Design) -> Iterator[Item]:
    """A column's rows on a grid of baselines, with their links."""
    voices = design.faces.lesser_rules
    for index, row in enumerate(rows):
        y = cap(voices) + index * voices.leading
        for x, line in row.lines:
            yield from line.at(left + x, y)
        for x, line, anchor in row.links:
            yield from line.at(left + x, y)
            yield link_over(line, left + x, y, anchor)
