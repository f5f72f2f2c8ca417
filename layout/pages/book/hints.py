"""The hints: lists by number and title, in as many columns as the page holds.

The first hints of all puzzles stand before the second ones, and so on.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import partial
from math import ceil
from typing import Final, TypeAlias

from layout.language.words import Words, fill
from layout.pages.book.book_part import BookPart, ContentsEntry
from layout.pages.book.hint_columns import Band, Columns, HintRow, Tier, bands
from layout.pages.book.puzzle_range import puzzle_range
from layout.pages.common.book import Book, Numbered
from layout.pages.common.caption import fitted_title
from layout.pages.common.design import LONGEST_LABEL, Design
from layout.pages.common.page import Labels, Page, fixed
from layout.pages.common.prose_pages import (
    opener_pages,
    opening,
    row_items,
    rows_below,
    rows_in,
)
from layout.picture.items import Anchor, Item
from layout.telling.hints import hints
from layout.type.lines import Line
from layout.type.markup import plain_run, read_markup
from layout.type.paragraph import one_line, set_paragraph

ANCHOR: Final = "hints"

NARROWEST: Final = 17.0
"""The least width of a column, in ems."""

MOST_COLUMNS: Final = 3

HANG: Final = 2.2
"""What titles and hints are indented from the numbers, in ems."""

FEWEST_ROWS: Final = 6
"""Rows of a list that stay under the introduction; where fewer have room it begins overleaf."""

Hinted: TypeAlias = tuple[Numbered, tuple[str, ...]]
"""A puzzle and its hints."""


def hinted(book: Book, words: Words) -> tuple[Hinted, ...]:
    """The puzzles that have hints, with these; none where the book prints no hints."""
    if not book.hints:
        return ()
    found = (
        (each, hints(each.puzzle, each.path, words, book.hints, each.number))
        for each in book.puzzles()
        if each.path is not None
    )
    return tuple((each, sentences) for each, sentences in found if sentences)


def hints_part(puzzles: Sequence[Hinted], design: Design) -> BookPart | None:
    """The hints to all puzzles that have some; None where none has."""
    if not puzzles:
        return None
    words = design.words.pages
    entries = [ContentsEntry(words.hints, ANCHOR)]
    tiers = _count_tiers(puzzles)
    if tiers > 1:
        entries += (
            ContentsEntry(title, _tier_anchor(index), level=1, printed=False)
            for index, title in enumerate(words.hint_tiers[:tiers])
        )
    return BookPart(partial(_hint_pages, puzzles, design), tuple(entries))


def _count_tiers(puzzles: Sequence[Hinted]) -> int:
    """How many hints the puzzle has that has most of them."""
    return max(len(sentences) for _, sentences in puzzles)


def _tier_anchor(index: int) -> str:
    return f"hint-tier-{index + 1}"


def _hint_pages(puzzles: Sequence[Hinted], design: Design, labels: Labels) -> tuple[Page, ...]:
    """Title, note, how to read hints, and the lists. Raises Misfits for titles too long."""
    note = puzzle_range([numbered for numbered, _ in puzzles], design)
    columns = _columns(design)
    voices = design.faces.lesser_rules
    full = rows_in(design.depth, voices)
    tiers = list(_tiers(puzzles, columns.width, full, labels, design))
    head, top = _head(note, design)
    if top + (tiers[0].head + FEWEST_ROWS) * voices.leading > design.depth:
        words = design.words
        opener = opener_pages(words.pages.hints, note, words.hints.intro, ANCHOR, design)
        pages = bands(tiers, columns.count, 0, full)
        return (*opener, *(_page(page, columns, design) for page in pages))
    above = ceil(top / voices.leading)
    first, *others = bands(tiers, columns.count, above, full)
    below = _page(first, columns, design)
    opens = Page(fixed((*head, *below.draw(labels))), (Anchor(ANCHOR, 0.0), *below.anchors))
    return (opens, *(_page(page, columns, design) for page in others))


def _tiers(
    puzzles: Sequence[Hinted], width: float, full: int, labels: Labels, design: Design
) -> Iterator[Tier]:
    """The first hints of all puzzles, then the second ones; without a heading where that is all."""
    count, face = _count_tiers(puzzles), design.faces.heading
    head = ceil(face.leading / design.faces.lesser_rules.leading) + 1
    for index, title in enumerate(design.words.pages.hint_tiers[:count]):
        blocks = tuple(
            block[start : start + full - head]
            for numbered, sentences in puzzles
            if len(sentences) > index
            for block in [tuple(_rows(numbered, sentences[index], index, width, labels, design))]
            for start in range(0, len(block), full - head)
        )
        if count == 1:
            yield Tier(blocks, anchor=_tier_anchor(index))
        else:
            yield Tier(blocks, one_line(title, face), head, _tier_anchor(index))


def _head(note: str, design: Design) -> tuple[list[Item], float]:
    """What stands over the list, and where that begins."""
    items, y = opening(design.words.pages.hints, note, design)
    voices = design.faces.prose
    intro = read_markup(design.words.hints.intro, design.words.quote_marks)
    rows, above = design.prose().rows(intro), rows_below(y, voices)
    items += row_items(rows, above, voices)
    return items, (above + len(rows) + 1) * voices.leading


def _columns(design: Design) -> Columns:
    """As many columns as are wide enough."""
    em, gap = design.faces.lesser_rules.size, design.page.gap
    fitting = int((design.measure + gap) / (NARROWEST * em + gap) + 1e-9)
    count = min(max(fitting, 1), MOST_COLUMNS)
    width = (design.measure - (count - 1) * gap) / count
    return Columns(count, width, width + gap)


def _rows(
    numbered: Numbered, sentence: str, tier: int, width: float, labels: Labels, design: Design
) -> Iterator[HintRow]:
    """Number, title and the puzzle's page, then a hint."""
    for index, row in enumerate(_heading(numbered, width, labels, design)):
        yield row if index or tier else replace(row, anchor=numbered.hints_anchor)
    yield from (HintRow((line,)) for line in _hanging(sentence, width, design))


def _hanging(sentence: str, width: float, design: Design) -> Iterator[tuple[float, Line]]:
    """The lines of a hint, under the title."""
    voices = design.faces.lesser_rules
    hang = HANG * voices.size
    runs = plain_run(sentence, design.words.quote_marks)
    for line in set_paragraph(runs, voices, width - hang, language=design.language):
        yield hang, line


def _heading(numbered: Numbered, width: float, labels: Labels, design: Design) -> Iterator[HintRow]:
    """The title may take several rows; its number and the page stand in the first."""
    faces, sentence = design.faces, design.words.pages.on_page
    hang = HANG * faces.lesser_rules.size
    widest = one_line(fill(sentence, page=LONGEST_LABEL), faces.caption_note).width
    measure = width - hang - widest - faces.caption_note.size
    title = fitted_title(numbered.puzzle, faces.lesser_credit, measure, design)
    label = labels.get(numbered.puzzle_anchor, "")
    page = one_line(fill(sentence, page=label), faces.caption_note)
    number = one_line(str(numbered.number), faces.caption_number)
    links = [(0.0, number), (width - page.width, page)]
    for index, line in enumerate(title.lines):
        here = [*([] if index else links), (hang, line)]
        yield HintRow(links=tuple((x, line, numbered.puzzle_anchor) for x, line in here))


def _page(page: Sequence[Band], columns: Columns, design: Design) -> Page:
    """The bands of a page, with the anchors of their puzzles."""
    leading = design.faces.lesser_rules.leading
    anchors = tuple(anchor for band in page for anchor in band.anchors(leading))
    items = (item for band in page for item in band.items(columns, design))
    return Page(fixed(items), anchors, head=design.words.pages.hints)
