"""Pages of answers, in the order of the puzzles."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import replace
from functools import partial
from math import ceil
from typing import Final

from layout.pages.book.book_part import BookPart, ContentsEntry
from layout.pages.book.puzzle_range import puzzle_range
from layout.pages.book.sheets import MOST_ALONE, Sheet, large_if_left, sheets_of
from layout.pages.common.arrangement import (
    Arrangement,
    LaidBoards,
    lay_boards,
    most_title_lines,
    shape_of,
)
from layout.pages.common.book import ANSWERS_PER_PAGE, Book, Numbered
from layout.pages.common.caption import rounded_down
from layout.pages.common.design import Design
from layout.pages.common.misfit import Misfit, Misfits
from layout.pages.common.page import Draw, Labels, Page
from layout.pages.common.prose_pages import opener_pages, opening
from layout.pages.common.small_boards import SmallBoardLook
from layout.picture.items import Anchor, Item

ANCHOR: Final = "answers"


def answers_part(book: Book, design: Design) -> BookPart:
    """An opener, then the answers to all puzzles."""
    entry = ContentsEntry(design.words.pages.answers, ANCHOR)
    return BookPart(lambda _: _answers_pages(book, design), (entry,), closes_up=book.hints > 0)


def _answers_pages(book: Book, design: Design) -> tuple[Page, ...]:
    """The title, with the first answers under it where these leave it room, and all others."""
    puzzles = tuple(book.puzzles())
    per_page = book.answers_per_page
    large = _large(puzzles, per_page, design)
    small = [each for each in puzzles if each.number not in large]
    shape = shape_of(per_page, design.depth, design)
    look, (arrangement, boards) = _laid(small, shape, design)
    note = puzzle_range(puzzles, design)
    head, foot = opening(design.words.pages.answers, note, design)
    sunk = ceil((foot + design.page.gap) / arrangement.down)
    if sunk >= arrangement.rows or puzzles[0].number in large:
        sunk = 0
    sheets = _sheets(puzzles, per_page, sunk * arrangement.columns, large)
    by_number = {board.numbered.number: board for board in boards}
    own = _own_pages([sheet.puzzles[0] for sheet in sheets if sheet.alone], design)
    pages = []
    for at, sheet in enumerate(sheets):
        if sheet.alone:
            pages.append(next(own))
            continue
        first = 0 if at else sunk
        there = [by_number[each.number] for each in sheet.puzzles]
        draw = partial(arrangement.items, there, look, design, first=first)
        anchors = _anchors(sheet.puzzles, arrangement, first)
        pages.append(Page(draw, anchors, head=design.words.pages.answers))
    if sunk:
        first_page = partial(_under_title, head, pages[0].draw)
        opens = Page(first_page, (Anchor(ANCHOR, 0.0), *pages[0].anchors))
        return (opens, *pages[1:])
    opener = opener_pages(design.words.pages.answers, note, "", ANCHOR, design)
    return (*opener, *pages)


def _under_title(title: Sequence[Item], draw: Draw, labels: Labels) -> Iterator[Item]:
    yield from title
    yield from draw(labels)


def _sheets(
    puzzles: Sequence[Numbered], per_page: int, taken: int, large: Collection[int]
) -> list[Sheet]:
    """The answers by page; on the first so many places are taken by the title.

    One that is left over has a page for itself.
    """
    first = next(sheets_of(puzzles, per_page - taken, large))
    others = sheets_of(puzzles[len(first.puzzles) :], per_page, large)
    return [first, *(large_if_left(each, per_page) for each in others)]


def _anchors(
    puzzles: Sequence[Numbered], arrangement: Arrangement, first: int = 0
) -> tuple[Anchor, ...]:
    return tuple(
        arrangement.anchor(at, numbered.answer_anchor, first) for at, numbered in enumerate(puzzles)
    )


def _own_pages(puzzles: Sequence[Numbered], design: Design) -> Iterator[Page]:
    """A page for each of the answers that are too large to share one."""
    if not puzzles:
        return
    look, (arrangement, boards) = _laid(puzzles, (1, 1), design)
    for board in boards:
        draw = partial(arrangement.items, [board], look, design)
        anchors = _anchors([board.numbered], arrangement)
        yield Page(draw, anchors, head=design.words.pages.answers)


def _laid(
    puzzles: Sequence[Numbered], shape: tuple[int, int], design: Design
) -> tuple[SmallBoardLook, LaidBoards]:
    """The answers with the puzzles' pages told in full where titles stay as large, else short.

    Where titles have no room beside them even so, or only with a word parted, pages stand under
    the grids.
    """
    words = design.words.pages
    full, short = (_look(each, design) for each in (words.puzzle_on, words.on_page))
    with suppress(Misfits):
        laid = lay_boards(puzzles, shape, design.depth, full, design)
        if most_title_lines(laid[1]) == 1:
            return full, laid
    with suppress(Misfits):
        laid = lay_boards(puzzles, shape, design.depth, short, design)
        if not any(board.parts_a_word for board in laid[1]):
            return short, laid
    apart = replace(short, apart=True)
    return apart, lay_boards(puzzles, shape, design.depth, apart, design)


def _look(sentence: str, design: Design) -> SmallBoardLook:
    faces = design.faces
    return SmallBoardLook(
        faces.caption_number,
        faces.caption,
        None,
        faces.caption_note,
        sentence,
        largest=design.page.cells.largest_in_answers,
    )


def _large(puzzles: Sequence[Numbered], per_page: int, design: Design) -> set[int]:
    """The numbers of those whose cells are too small where so many share a page.

    Raises Misfits, at the job's own line, where these are many.
    """
    cells = _cells(puzzles, per_page, design)
    large = _too_small(cells, design)
    if len(large) <= MOST_ALONE * len(puzzles):
        return large
    least = min(puzzles, key=lambda each: cells[each.number])
    message = (
        f"{per_page} answers a page leave a grid of {least.puzzle.board.columns} columns cells "
        f"of {rounded_down(cells[least.number])} mm; the style wants "
        f"{design.page.cells.smallest_in_answers:g} mm or more"
    )
    fewer = (count for count in reversed(ANSWERS_PER_PAGE) if count < per_page)
    most = MOST_ALONE * len(puzzles)
    for count in fewer:
        if len(_too_small(_cells(puzzles, count, design), design)) <= most:
            message += f"; {count} a page fit"
            break
    raise Misfits([Misfit(message, path=("back", "answers", "per-page"))])


def _cells(puzzles: Sequence[Numbered], per_page: int, design: Design) -> dict[int, float]:
    """The side of each answer's cells, by its number, with so many on a page."""
    shape = shape_of(per_page, design.depth, design)
    _, (arrangement, _) = _laid(puzzles, shape, design)
    side = arrangement.side
    return {each.number: design.cell(each.puzzle, side, side) for each in puzzles}


def _too_small(cells: Mapping[int, float], design: Design) -> set[int]:
    smallest = design.page.cells.smallest_in_answers
    return {number for number, cell in cells.items() if cell < smallest}
