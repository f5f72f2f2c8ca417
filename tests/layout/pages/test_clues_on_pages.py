"""Boards with clues outside on every kind of page: within their room, and large enough."""

from dataclasses import replace

import pytest

from layout.pages.common.misfit import Misfits
from layout.style.style import read_style
from tests.layout.pages.test_fits import A4, LETTER, check_pages
from tests.support.books import POINT, SIX_BY_NINE, book_of, manifest, printed
from tests.support.drawn_marks import clue, with_marks

SETS = {
    "above": [clue(-1, 0, "s", "9"), clue(-1, 2, "s", "35")],
    "beside": [clue(0, -1, "e", "9"), clue(2, 4, "w", "12")],
    "around": [clue(-1, 0, "s", "9"), clue(2, -1, "e", "12"), clue(-1, 1, "se", "17")],
}


def clued_book(marks, per_page, answers=4):
    """Puzzles with clues among puzzles without."""
    texts = [manifest(number, f"Reed {number}") for number in range(6)]
    book = book_of([("Low Water", "", texts, per_page)], answers=answers)
    (section,) = book.sections
    puzzles = tuple(
        replace(each, puzzle=with_marks(each.puzzle, marks)) if each.number % 2 else each
        for each in section.puzzles
    )
    return replace(book, sections=(replace(section, puzzles=puzzles),))


def boards(pdf):
    return [board for at in range(len(pdf)) for board in pdf.boards(at)]


@pytest.mark.parametrize("name", SETS)
@pytest.mark.parametrize("per_page", [1, 2, 4, 6])
@pytest.mark.parametrize(("style", "trim"), [("paperback", SIX_BY_NINE), ("classroom", A4)])
def test_clues_stay_within_the_margins_and_off_the_words(name, per_page, style, trim):
    pdf, _ = printed(clued_book(SETS[name], per_page), style, trim)
    check_pages(pdf, trim, style)


@pytest.mark.parametrize("name", SETS)
def test_clues_in_large_print_are_as_large_as_its_words(name):
    pdf, _ = printed(clued_book(SETS[name], 1), "large-print", LETTER)
    check_pages(pdf, LETTER, "large-print")
    for at in range(len(pdf)):
        for char in pdf.chars(at):
            if not any(board.holds(char.centre) for board in pdf.boards(at)):
                assert char.size / POINT > 17.99, (at, char)


@pytest.mark.parametrize("name", SETS)
@pytest.mark.parametrize("per_page", [1, 2, 4, 6])
def test_cells_keep_within_the_bounds_of_the_style(name, per_page):
    cells = read_style("paperback").page.cells
    pdf, _ = printed(clued_book(SETS[name], per_page))
    # Before them stand the two of the example that teaches.
    sides = [(board.right - board.left) / 4 for board in boards(pdf)[2:]]
    assert len(sides) == 12
    # A board is measured over its frame, which adds a little to a quarter of it.
    assert max(sides) < 1.02 * cells.largest
    assert min(sides) > cells.smallest_in_answers


def test_cells_too_small_beside_their_clues_are_told():
    many = [clue(-1, 0, "s", "9"), clue(1, -1, "e", "8")]
    book = clued_book(many, 6)
    with pytest.raises(Misfits) as raised:
        printed(book, "paperback", replace(SIX_BY_NINE, width=70.0, height=105.0))
    told = [misfit.message for misfit in raised.value.found]
    assert any("cells of" in message for message in told)
