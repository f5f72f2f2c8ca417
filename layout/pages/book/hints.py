"""The hints: a list by number and title, in as many columns as the page holds."""

from collections import deque
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import chain, repeat
from typing import Final, TypeAlias

from layout.language.words import Words, fill
from layout.pages.book.book_part import BookPart, ContentsEntry
from layout.pages.book.puzzle_range import puzzle_range
from layout.pages.common.book import Book, Numbered
from layout.pages.common.caption import fitted_title
from layout.pages.common.design import LONGEST_LABEL, Design, cap, link_over
from layout.pages.common.linked import LinkedRow
from layout.pages.common.page import Labels, Page, fixed
from layout.pages.common.prose_pages import (
    chapter_title,
    opener_pages,
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

SECOND_LINE: Final = 0.9
"""How far the second line of a hint and those after it are indented, in ems."""

Hinted: TypeAlias = tuple[Numbered, tuple[str, ...]]
"""A puzzle and its hints."""


@dataclass(frozen=True, slots=True)
class HintRow(LinkedRow):
    """A row of the list; the first one of a puzzle has its anchor."""

    anchor: str = ""


HintRows: TypeAlias = tuple[HintRow, ...]
"""The rows of one puzzle."""


@dataclass(frozen=True, slots=True)
class _Columns:
    """The columns of the list: how many, how wide, and the step `across` to the next, in mm."""

    count: int
    width: float
    across: float


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
    entry = ContentsEntry(design.words.pages.hints, ANCHOR)
    return BookPart(partial(_hint_pages, puzzles, design), (entry,))


def _hint_pages(puzzles: Sequence[Hinted], design: Design, labels: Labels) -> tuple[Page, ...]:
    """Title, note, how to read hints, and the list. Raises Misfits for titles too long."""
    note = puzzle_range([numbered for numbered, _ in puzzles], design)
    columns = _columns(design)
    full = rows_in(design.depth, design.faces.lesser_rules)
    blocks = [
        block[start : start + full]
        for block in (tuple(_rows(each, columns.width, labels, design)) for each in puzzles)
        for start in range(0, len(block), full)
    ]
    head, top = _head(note, design)
    if top > design.depth:
        words = design.words
        opener = opener_pages(words.pages.hints, note, words.hints.intro, ANCHOR, design)
        pages = _arranged(blocks, columns.count, full, full)
        return (*opener, *(_page(page, columns, 0.0, design) for page in pages))
    under = rows_in(design.depth - top, design.faces.lesser_rules)
    first, *others = _arranged(blocks, columns.count, under, full)
    below = _page(first, columns, top, design)
    opens = Page(fixed((*head, *below.draw(labels))), (Anchor(ANCHOR, 0.0), *below.anchors))
    return (opens, *(_page(page, columns, 0.0, design) for page in others))


def _head(note: str, design: Design) -> tuple[list[Item], float]:
    """What stands over the list, and where that begins."""
    items, y = chapter_title(design.words.pages.hints, design)
    note_face, voices = design.faces.note, design.faces.prose
    y += 1.7 * note_face.leading
    items += one_line(note, note_face).at(0.0, y)
    intro = read_markup(design.words.hints.intro, design.words.quote_marks)
    rows, above = design.prose().rows(intro), rows_below(y, voices)
    items += row_items(rows, above, voices)
    return items, (above + len(rows) + 1) * voices.leading


def _arranged(
    blocks: Sequence[HintRows], count: int, under: int, full: int
) -> list[list[list[HintRow]]]:
    """Blocks by page and column: `under` rows deep on the first page, `full` on the others.

    The columns of the last page are about equally deep.
    """
    rooms = chain(repeat(under, count), repeat(full))
    columns = _filled(blocks, rooms)
    pages = [columns[start : start + count] for start in range(0, len(columns), count)]
    last = [block for column in pages[-1] for block in column]
    for room in range(1, full):
        even = _filled(last, repeat(room, count))
        if sum(map(len, even)) == len(last):
            pages[-1] = even
            break
    return [[_with_gaps(column) for column in page] for page in pages]


def _filled(blocks: Sequence[HintRows], rooms: Iterator[int]) -> list[list[HintRows]]:
    """Columns of blocks, none parted; as many blocks as the rooms hold."""
    columns: list[list[HintRows]] = []
    waiting = deque(blocks)
    for room in rooms:
        if not waiting:
            break
        column: list[HintRows] = []
        while waiting and _depth([*column, waiting[0]]) <= room:
            column.append(waiting.popleft())
        columns.append(column)
    return columns


def _depth(column: Sequence[HintRows]) -> int:
    """The rows of a column, with an empty one between blocks."""
    return sum(map(len, column)) + len(column) - 1


def _with_gaps(column: Sequence[HintRows]) -> list[HintRow]:
    """The rows of a column one after another."""
    rows: list[HintRow] = []
    for block in column:
        rows += [HintRow(), *block] if rows else block
    return rows


def _columns(design: Design) -> _Columns:
    """As many columns as are wide enough."""
    em, gap = design.faces.lesser_rules.size, design.page.gap
    fitting = int((design.measure + gap) / (NARROWEST * em + gap) + 1e-9)
    count = min(max(fitting, 1), MOST_COLUMNS)
    width = (design.measure - (count - 1) * gap) / count
    return _Columns(count, width, width + gap)


def _rows(puzzle: Hinted, width: float, labels: Labels, design: Design) -> Iterator[HintRow]:
    """Number, title and the puzzle's page, then the hints, each beginning a row."""
    numbered, sentences = puzzle
    yield from _heading(numbered, width, labels, design)
    for sentence in sentences:
        yield from (HintRow((line,)) for line in _hanging(sentence, width, design))


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
    title = fitted_title(numbered.puzzle, faces.lesser_credit, measure, design)
    label = labels.get(numbered.puzzle_anchor, "")
    page = one_line(fill(sentence, page=label), faces.caption_note)
    number = one_line(str(numbered.number), faces.caption_number)
    links = [(0.0, number), (width - page.width, page)]
    for index, line in enumerate(title.lines):
        here = [*([] if index else links), (hang, line)]
        yield HintRow(
            links=tuple((x, line, numbered.puzzle_anchor) for x, line in here),
            anchor="" if index else numbered.hints_anchor,
        )


def _page(page: Sequence[Sequence[HintRow]], columns: _Columns, top: float, design: Design) -> Page:
    """The columns of a page from a height on, with the anchors of their puzzles."""
    leading = design.faces.lesser_rules.leading
    anchors = tuple(
        Anchor(row.anchor, top + index * leading)
        for column in page
        for index, row in enumerate(column)
        if row.anchor
    )
    items = (
        item
        for index, column in enumerate(page)
        for item in _column_items(column, index * columns.across, top, design)
    )
    return Page(fixed(items), anchors, head=design.words.pages.hints)


def _column_items(
    rows: Sequence[HintRow], left: float, top: float, design: Design
) -> Iterator[Item]:
    """A column's rows on a grid of baselines, with their links."""
    voices = design.faces.lesser_rules
    for index, row in enumerate(rows):
        y = top + cap(voices) + index * voices.leading
        for x, line in row.lines:
            yield from line.at(left + x, y)
        for x, line, anchor in row.links:
            yield from line.at(left + x, y)
            yield link_over(line, left + x, y, anchor)
