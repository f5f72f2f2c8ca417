"""The order of pages on the sheets of a folded booklet."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layout.press.imposition import Spread, gathering_sizes, sheets

TABLE = {
    8: "8 1/2 7 6 3/4 5",
    16: "16 1/2 15 14 3/4 13 12 5/6 11 10 7/8 9",
    32: "32 1/2 31 30 3/4 29 28 5/6 27 26 7/8 25 24 9/10 23 22 11/12 21 20 13/14 19 18 15/16 17",
}
"""Pages of each sheet, left and right, front/back (common practice, as in printers' handbooks)."""


@pytest.mark.parametrize("pages", TABLE)
def test_the_order_is_that_of_the_handbooks(pages):
    told = " ".join(
        f"{sheet.front.left} {sheet.front.right}/{sheet.back.left} {sheet.back.right}"
        for sheet in sheets(pages)
    )
    assert told == TABLE[pages]


def folded(found):
    """The pages in the order in which they are read, None for blanks: gatherings in a row."""
    read = []
    for number in range(found[-1].gathering + 1):
        own = [sheet for sheet in found if sheet.gathering == number]
        read += [page for sheet in own for page in (sheet.front.right, sheet.back.left)]
        read += [page for sheet in reversed(own) for page in (sheet.back.right, sheet.front.left)]
    return read


@given(st.integers(1, 600), st.one_of(st.none(), st.integers(1, 16).map(lambda n: 4 * n)))
def test_folded_sheets_are_read_in_order_with_blanks_at_the_end(pages, signature):
    read = folded(sheets(pages, signature))
    assert read[:pages] == list(range(1, pages + 1))
    assert read[pages:] == [None] * (-pages % 4)


@given(st.integers(1, 600), st.integers(1, 16).map(lambda n: 4 * n))
def test_gatherings_have_so_many_pages_but_for_the_last(pages, signature):
    *first, last = gathering_sizes(pages, signature)
    assert set(first) <= {signature}
    assert last <= signature
    assert last % 4 == 0
    assert sum(first) + last == pages + -pages % 4


def test_pages_of_inner_sheets_move_by_the_paper_around_them():
    # 32 pages on paper of 0.10 mm: 0, 0.1 ... 0.7 mm
    creeps = [sheet.creep(0.1) for sheet in sheets(32)]
    assert creeps == pytest.approx([0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7])
    assert [sheet.creep(0.1) for sheet in sheets(32, 16)] == pytest.approx(
        [0, 0.1, 0.2, 0.3, 0, 0.1, 0.2, 0.3]
    )


def test_a_single_page_has_a_sheet_of_its_own():
    (sheet,) = sheets(1)
    assert (sheet.front, sheet.back) == (Spread(None, 1), Spread(None, None))
