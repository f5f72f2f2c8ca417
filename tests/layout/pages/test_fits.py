"""Nothing runs over the margin or over another thing, whatever the words are."""

import re

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from layout.pages.common.format import Trim, page_format
from layout.pages.common.letters import check_letters
from layout.pages.common.misfit import Misfits
from layout.style.style import read_style
from tests.support.books import SIX_BY_NINE, book_of, manifest, printed, rule_examples
from tests.support.effort import effort
from verify.rules import BY_NAME

A5 = Trim(148, 210)
A4 = Trim(210, 297, 3)
LETTER = Trim(215.9, 279.4, 3)
SQUARE = Trim(210, 210)
WIDE = Trim(228.6, 152.4)


def check_pages(pdf, trim, style="paperback"):
    layout = page_format(trim, read_style(style).page, len(pdf))
    for at in range(len(pdf)):
        left = layout.left(at % 2 == 0)
        for char in pdf.chars(at):
            assert char.left > left - 1.2, (at, char)
            assert char.right < left + layout.measure + 1.2, (at, char)
            assert char.top > 6, (at, char)
            assert char.bottom < trim.height - 4.5, (at, char)
        assert pdf.overlaps(at) == [], at
        assert pdf.words_over_boards(at) == [], at


def mixed_book(
    per_page, answers=4, titles=("Reed", "A Punt on the Mud", "Ebb", "Spring Tide at the Bridge")
):
    texts = [manifest(n, title, f"Constructor {n}") for n, title in enumerate(titles)]
    return book_of([("Low Water", "Words.", texts, per_page)], answers=answers)


@pytest.mark.parametrize("per_page", [1, 2, 4, 6])
@pytest.mark.parametrize(
    ("style", "trim"),
    [
        ("paperback", SIX_BY_NINE),
        ("paperback", A5),
        ("paperback", WIDE),
        ("newsprint", SQUARE),
        ("classroom", A4),
        ("large-print", LETTER),
    ],
)
def test_every_style_and_shape_of_page(per_page, style, trim):
    pdf, _ = printed(mixed_book(per_page), style, trim)
    check_pages(pdf, trim, style)


@pytest.mark.parametrize("answers", [1, 2, 4, 6, 9, 12])
def test_every_number_of_answers(answers):
    pdf, laid = printed(mixed_book(1, answers, [f"Reed Bed {n}" for n in range(14)]))
    check_pages(pdf, SIX_BY_NINE)
    pages = {laid.labels[f"answer-reed-{n}"] for n in range(1, 15)}
    # Under the title there is room for one of two.
    assert len(pages) == (8 if answers == 2 else -(-14 // answers))


def test_every_rule_on_small_and_large_pages():
    for style, trim in (("paperback", A5), ("large-print", LETTER)):
        pdf, _ = printed(book_of([("All", "", rule_examples(), 1)]), style, trim)
        check_pages(pdf, trim, style)


def test_large_print_has_nothing_under_18_points():
    # UKAAF G003: 18 points for large print; labels and page numbers as large as the text
    pdf, _ = printed(book_of([("All", "*Words*", rule_examples(), 1)]), "large-print", LETTER)
    for at in range(len(pdf)):
        for char in pdf.chars(at):
            if not any(belongs_to(board, char.centre) for board in pdf.boards(at)):
                assert char.size * 72 / 25.4 > 17.99, (at, char)
                assert "Italic" not in char.font


def belongs_to(board, point):
    """Whether a point lies in a board or in the strip around it where clues stand.

    Digits and clues are part of the picture: they go with the size of its cells.
    """
    x, y = point
    strip = (board.right - board.left) / 5
    across = board.left - strip < x < board.right + strip
    return across and board.top - strip < y < board.bottom + strip


WORDS = st.text("abcdefghij klmno-pqrstuvwxyzABCÄÖÉß'\".,;:!?–—0123456789", min_size=1, max_size=90)


@effort(0.4)
@given(
    title=WORDS.filter(str.strip),
    name=WORDS.filter(str.strip),
    per_page=st.sampled_from([1, 2, 4, 6]),
    book_title=WORDS.filter(str.strip),
)
@example(title="W" * 60, name="M" * 40, per_page=4, book_title="Q" * 90)
@example(title="a" * 90, name="b", per_page=6, book_title="The " * 22)
def test_wild_words_shrink_wrap_or_are_told(title, name, per_page, book_title):
    clean = str.maketrans({'"': "”"})
    text = manifest(1, title.translate(clean), f'"{name.translate(clean)}"')
    book = book_of([(title, title, [text, manifest(2)], per_page)], book_title)
    pdf, messages = set_or_told(book)
    assert all("too long" in each or "cells of" in each for each in messages)
    if pdf:
        check_pages(pdf, SIX_BY_NINE)


def set_or_told(book):
    try:
        return printed(book)[0], []
    except Misfits as misfits:
        return None, [misfit.message for misfit in misfits.found]


def test_an_ordinary_long_title_is_set_whole():
    title = (
        "The Lock-keeper's Account of the Great Spring Tide, with Herons, Told at the Old Bridge"
    )
    for per_page in (1, 2, 4):
        pdf, laid = printed(mixed_book(per_page, titles=[title, "Ebb"]))
        at = pdf.labels().index(laid.labels["puzzle-reed-1"])
        words = pdf.text(at).replace("\n", " ").replace("- ", "-")
        assert title.replace("'", "’").replace(" ", "") in words.replace(" ", "")


def test_too_long_a_title_is_told_with_its_puzzle():
    book = mixed_book(6, titles=["Reed " * 40, "Ebb"])
    with pytest.raises(Misfits) as raised:
        printed(book)
    (misfit,) = {(m.puzzle.id, m.field) for m in raised.value.found}
    assert misfit == ("reed-1", "title")


def test_cells_too_small_are_told_together():
    # 25x25, six to a page of 6 x 9 in: no pencil could write in the cells
    size = 25
    grid = "\n".join("  " + " ".join(["."] * size) for _ in range(size))
    text = f"title: Vast\nkind: latin\nsize: {size}\ngivens: |\n{grid}\n"
    book = book_of([("Low Water", "", [manifest(1)], 6)])
    vast = unproved(text, book)
    with pytest.raises(Misfits) as raised:
        printed(vast)
    messages = [misfit.message for misfit in raised.value.found]
    assert any(
        "25 columns" in each and "6 to a page" in each and "5 mm" in each for each in messages
    )
    assert any(misfit.path == ("back", "answers", "per-page") for misfit in raised.value.found)


def test_what_is_too_small_is_told_with_what_would_fit():
    wide = re.sub("title: .*", "title: Ebb", BY_NAME["windows"].example)
    with pytest.raises(Misfits) as raised:
        printed(book_of([("Low Water", "", [wide] * 4, 6)], answers=12), trim=Trim(100, 130))
    told = {misfit.path: misfit.message for misfit in raised.value.found}
    assert told["sections", 0, "per-page"].endswith("; 2 to a page fit")
    assert told["back", "answers", "per-page"].endswith("; 6 a page fit")


def unproved(text, book):
    """The book with a puzzle that nobody proved, for its looks alone."""
    from dataclasses import replace

    from verify.manifest.read import puzzle_from_text

    puzzle = puzzle_from_text(text)
    (first,) = book.sections[0].puzzles
    shown = replace(first, number=2, puzzle=puzzle, answer=tuple(1 for _ in puzzle.givens))
    section = replace(book.sections[0], puzzles=(first, shown))
    return replace(book, sections=(section,))


def test_a_letter_that_no_font_has_is_told_with_its_place():
    book = mixed_book(1, titles=["潮", "Ebb"])
    with pytest.raises(Misfits) as raised:
        check_letters(book, read_style("paperback"))
    (misfit,) = raised.value.found
    assert (misfit.puzzle.id, misfit.field) == ("reed-1", "title")
    assert "潮" in misfit.message
    assert "U+6F6E" in misfit.message


def test_greek_and_accents_are_no_trouble():
    book = mixed_book(1, titles=["Ĉe la Ĝardeno – Łódź", "Ebb"])
    check_letters(book, read_style("paperback"))
    check_pages(printed(book)[0], SIX_BY_NINE)
