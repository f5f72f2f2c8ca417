"""The inside margin of finished books: what their length does to it, and that it settles."""

from dataclasses import replace
from itertools import pairwise

import pytest

from layout.language.words import read_words
from layout.pages.book import pagination
from layout.pages.book.book_part import BookPart
from layout.pages.book.pagination import paginate
from layout.pages.common.page import Page, fixed
from layout.style.page import Binding
from layout.style.style import read_style
from layout.writers.pdf import pdf_of_document
from tests.support.books import SIX_BY_NINE, book_of, manifest, printed

STYLE = read_style("paperback")


def book_with(puzzles):
    """A book with a page for each of so many puzzles."""
    return book_of([("Low Water", "", [manifest(n % 4) for n in range(puzzles)], 1)])


def inside_margins(pdf, laid):
    """What each puzzle's board, in the middle of its text area, leaves at the spine."""
    outside = STYLE.page.margins.outside * SIX_BY_NINE.width
    pages = {page for anchor, page in laid.labels.items() if anchor.startswith("puzzle-")}
    for at, label in enumerate(pdf.labels()):
        if label in pages:
            (board,) = pdf.boards(at)
            middle = (board.left + board.right) / 2
            from_spine = middle if at % 2 == 0 else SIX_BY_NINE.width - middle
            yield outside + 2 * from_spine - SIX_BY_NINE.width


def test_longer_books_have_wider_inside_margins():
    lengths, margins = [], []
    for puzzles in (2, 20, 60, 150):
        pdf, laid = printed(book_with(puzzles))
        found = list(inside_margins(pdf, laid))
        assert len(found) == puzzles
        assert max(found) - min(found) < 0.01
        lengths.append(len(pdf))
        margins.append(found[0])
    binding = STYLE.page.binding
    for (fewer, more), (narrow, wide) in zip(pairwise(lengths), pairwise(margins), strict=True):
        leaves = (more - fewer) / 2
        assert wide - narrow == pytest.approx(leaves * binding.leaf * binding.hidden, abs=0.01)
    assert margins[0] == pytest.approx(0.115 * SIX_BY_NINE.width, abs=0.5)
    assert margins[-1] - margins[0] > 2


def test_a_sheet_that_says_that_nothing_is_hidden_gets_its_own_margin_whole():
    flat = replace(STYLE.page.binding, hidden=0.0)
    laid = paginate(book_with(60), bound(flat), read_words("en"), "en", SIX_BY_NINE)
    thin = paginate(book_with(2), STYLE, read_words("en"), "en", SIX_BY_NINE)
    assert left_of_rectos(laid) == pytest.approx(left_of_rectos(thin), abs=0.6)
    assert left_of_rectos(laid) == 0.115 * SIX_BY_NINE.width


def bound(binding):
    """The style with another binding."""
    return replace(STYLE, page=replace(STYLE.page, binding=binding))


def left_of_rectos(laid):
    """Where the text area of the first recto with words on it begins."""
    group = next(item for item in laid.document.leaves[0].items if hasattr(item, "items"))
    return group.x


def test_a_narrower_column_that_needs_fewer_pages_does_not_send_the_margin_to_and_fro(monkeypatch):
    # the more pages, the narrower the column; and this book has fewer pages in a narrow column
    wide = SIX_BY_NINE.width * (1 - 0.115 - 0.13)
    asked = []

    def parts(book, hinted, design):
        asked.append(design.measure)
        pages = (Page(fixed(())),) * (40 if design.measure > wide - 0.6 else 38)
        return (BookPart(lambda _: pages),)

    monkeypatch.setattr(pagination, "book_parts", parts)
    laid = paginate(book_with(1), STYLE, read_words("en"), "en", SIX_BY_NINE)
    assert asked == [pytest.approx(wide), pytest.approx(wide - 40 / 2 * 0.12 * 0.285)]
    assert len(laid.document.leaves) == 38


def test_books_of_much_prose_settle_under_the_strangest_binding():
    words = "The creeks have drained, and the herons stand about like posts. " * 500
    book = book_of([(f"Part {n}", words, [manifest(n)], 1) for n in range(4)])
    strange = bound(Binding(leaf=0.4, hidden=0.5, most=25.0))
    one, two = (paginate(book, strange, read_words("en"), "en", SIX_BY_NINE) for _ in range(2))
    assert pdf_of_document(one.document) == pdf_of_document(two.document)
    pages = len(one.document.leaves)
    usual = paginate(book, STYLE, read_words("en"), "en", SIX_BY_NINE)
    assert pages > len(usual.document.leaves)
    grown = left_of_rectos(one) - 0.115 * SIX_BY_NINE.width
    assert grown == pytest.approx(min(pages / 2 * 0.2, 25))
