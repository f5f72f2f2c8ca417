"""Where things stand in a finished book: answers in their order, links on what they lead to."""

from io import BytesIO
from itertools import pairwise

import pytest
from pypdf import PdfReader

from layout.pages.common.format import page_format
from layout.style.style import read_style
from tests.support.books import POINT, SIX_BY_NINE, book_of, manifest, printed

BOOK = book_of(
    [
        ("Low Water", "", [manifest(at, f"Reed {at}") for at in range(1, 4)], 1),
        ("High Water", "", [manifest(at, f"Sedge {at}") for at in range(4, 14)], 4),
    ],
    answers=6,
)


@pytest.fixture(scope="module")
def made():
    pdf, laid = printed(BOOK)
    return pdf, laid, PdfReader(BytesIO(pdf.data))


def place(words, pdf, at):
    """How far from the top of the trim a line with these words stands on a page."""
    words = words.replace(" ", "")
    return next(row[0].origin[1] for text, row in pdf.lines(at) if words in text)


def links(reader):
    """Each link: its page, its box, the page that it leads to, and how far down that page."""
    numbers = {page.indirect_reference.idnum: at for at, page in enumerate(reader.pages)}
    height = SIX_BY_NINE.height + SIX_BY_NINE.bleed
    for at, page in enumerate(reader.pages):
        for note in page.get("/Annots") or ():
            target, kind, _, top, *_ = note.get_object()["/Dest"]
            assert kind == "/XYZ"
            left, low, right, high = (float(side) * POINT for side in note.get_object()["/Rect"])
            box = (
                left - SIX_BY_NINE.bleed,
                height - high,
                right - SIX_BY_NINE.bleed,
                height - low,
            )
            yield at, box, numbers[target.idnum], height - float(top) * POINT


def test_answers_stand_in_the_order_of_their_puzzles(made):
    pdf, laid, _ = made
    pages = dict.fromkeys(laid.labels[each.answer_anchor] for each in BOOK.puzzles())
    found = []
    for at in map(pdf.labels().index, pages):
        found += [tuple(pdf.grid(at, board, 4)) for board in pdf.boards(at)]
    wanted = [tuple(each.puzzle.rows_of(each.answer)) for each in BOOK.puzzles()]
    assert found == wanted
    assert all(one != two for one, two in pairwise(wanted))


def test_an_answer_stands_under_its_own_number_and_title(made):
    pdf, laid, _ = made
    for each in BOOK.puzzles():
        at = pdf.labels().index(laid.labels[each.answer_anchor])
        board = next(
            board
            for board in pdf.boards(at)
            if tuple(pdf.grid(at, board, 4)) == tuple(each.puzzle.rows_of(each.answer))
            and f"{each.number}{each.puzzle.title}".replace(" ", "") in above(pdf, at, board)
        )
        assert board


def above(pdf, at, board):
    """The words just above a board."""
    near = [
        char
        for char in pdf.chars(at)
        if board.left - 1 < char.left < board.right and board.top - 8 < char.top < board.top
    ]
    return "".join(
        char.text for char in sorted(near, key=lambda c: (round(c.origin[1], 1), c.left))
    )


def test_a_link_lies_over_the_words_that_name_its_page_and_lands_where_it_says(made):
    pdf, _, reader = made
    seen = 0
    for at, box, there, _ in links(reader):
        over = [
            char.text
            for char in pdf.chars(at)
            if box[0] - 0.1 < char.centre[0] < box[2] + 0.1 and box[1] < char.centre[1] < box[3]
        ]
        words = "".join(over)
        if "page" in words:
            assert words.endswith(pdf.label(there)), words
            seen += 1
    # Each answer leads to its puzzle, and each page of puzzles to their answers.
    assert seen >= len(list(BOOK.puzzles())) + 3 + 3


def test_a_link_to_a_puzzle_or_an_answer_lands_just_above_its_title(made):
    pdf, laid, reader = made
    landings = {(there, down) for _, _, there, down in links(reader)}
    alone = {each.puzzle_anchor for each in BOOK.sections[0].puzzles}
    shared = {each.answer_anchor for each in BOOK.sections[1].puzzles}
    for each in BOOK.puzzles():
        for anchor in (each.puzzle_anchor, each.answer_anchor):
            if anchor in shared:
                continue  # A page of several puzzles leads to the first of their answers.
            at = pdf.labels().index(laid.labels[anchor])
            title = place(each.puzzle.title, pdf, at)
            # A puzzle alone on its page stands in its middle, and the page is shown from its top.
            top = TEXT_TOP + 2 if anchor in alone else title
            assert [down for there, down in landings if there == at and 1 < top - down < NEAR]


NEAR = 4.0
"""How far above the baseline of its title, in millimetres, a reader may land."""

TEXT_TOP = page_format(SIX_BY_NINE, read_style("paperback").page, 20).top
