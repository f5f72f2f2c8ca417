"""Pages of answers, in the order of the puzzles."""

from functools import partial
from typing import Final

from layout.pages.book.book_part import BookPart, ContentsEntry
from layout.pages.book.puzzle_range import puzzle_range
from layout.pages.common.arrangement import lay_boards
from layout.pages.common.book import Book
from layout.pages.common.caption import rounded_down
from layout.pages.common.design import Design
from layout.pages.common.misfit import Misfit, Misfits
from layout.pages.common.page import Page
from layout.pages.common.prose_pages import opener_pages
from layout.pages.common.small_boards import SmallBoardLook

ANCHOR: Final = "answers"


def answers_part(book: Book, design: Design) -> BookPart:
    """An opener, then the answers to all puzzles."""
    entry = ContentsEntry(design.words.pages.answers, ANCHOR)
    return BookPart(lambda _: _answers_pages(book, design), (entry,))


def _answers_pages(book: Book, design: Design) -> tuple[Page, ...]:
    note = puzzle_range(tuple(book.puzzles()), design)
    opener = opener_pages(design.words.pages.answers, note, "", ANCHOR, design)
    return (*opener, *_grid_pages(book, design))


def _grid_pages(book: Book, design: Design) -> tuple[Page, ...]:
    """Answers, so many to a page as the job says. Raises Misfits where cells are too small."""
    look = _look(design)
    per_page = book.answers_per_page
    puzzles = tuple(book.puzzles())
    chunks = [
        [(numbered, ()) for numbered in puzzles[start : start + per_page]]
        for start in range(0, len(puzzles), per_page)
    ]
    arrangement, pages = lay_boards(chunks, per_page, design.depth, look, design)
    _check_cells(book, arrangement.side, design)
    return tuple(
        Page(
            partial(arrangement.items, page, look, design),
            anchors=tuple(
                arrangement.anchor(at, board.numbered.answer_anchor)
                for at, board in enumerate(page)
            ),
            head=design.words.pages.answers,
        )
        for page in pages
    )


def _look(design: Design) -> SmallBoardLook:
    faces = design.faces
    return SmallBoardLook(
        faces.caption_number,
        faces.caption,
        None,
        faces.lesser_rules,
        faces.caption_note,
        design.words.pages.puzzle_on,
        answers=True,
        largest=design.page.cells.largest_in_answers,
    )


def _check_cells(book: Book, side: float, design: Design) -> None:
    """One problem, at the job's own line, for the grid with the smallest cells."""
    cell, columns = min(
        (design.cell(numbered.puzzle, side, side), numbered.puzzle.board.columns)
        for numbered in book.puzzles()
    )
    smallest = design.page.cells.smallest_in_answers
    if cell < smallest:
        message = (
            f"{book.answers_per_page} answers a page leave a grid of {columns} columns cells of "
            f"{rounded_down(cell)} mm; the style wants {smallest:g} mm or more"
        )
        raise Misfits([Misfit(message, path=("back", "answers", "per-page"))])
