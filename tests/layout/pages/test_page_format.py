"""Margins, gutters, and the places of pages in a book."""

from itertools import count

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layout.pages.format import Trim, gutter, page_format
from layout.pages.page import Page, Part, fixed
from layout.pages.pagination import arrange, labels_of
from layout.picture.items import Anchor
from layout.style.sheet import read_style
from layout.type.roman import roman
from tests.support.drawn import STYLES


@pytest.mark.parametrize(
    ("pages", "inches"),
    [
        # A printer's table of inside margins by pages: from memory, no source at hand.
        (24, 0.375),
        (150, 0.375),
        (151, 0.5),
        (300, 0.5),
        (301, 0.625),
        (500, 0.625),
        (501, 0.75),
        (700, 0.75),
        (701, 0.875),
        (828, 0.875),
    ],
)
def test_the_gutter_grows_with_the_book(pages, inches):
    assert gutter(pages) == pytest.approx(inches * 25.4)


@pytest.mark.parametrize("style", STYLES)
@given(st.floats(88, 500), st.floats(88, 500), st.integers(4, 1200))
def test_margins_are_safe_and_mirrored(style, width, height, pages):
    layout = page_format(Trim(width, height), read_style(style).page, pages)
    assert layout.inside >= gutter(pages)
    assert min(layout.inside, layout.outside, layout.top, layout.foot) >= 6.35
    assert layout.head <= layout.top
    assert layout.folio >= height - layout.foot
    assert layout.measure > 0.5 * width
    assert layout.left(True) == layout.inside
    assert layout.left(False) == pytest.approx(width - layout.inside - layout.measure)


NAMES = count()


def part(length, front=False):
    pages = tuple(Page(fixed(()), (Anchor(str(next(NAMES)), 0.0),)) for _ in range(length))
    return Part(pages, front)


@given(
    st.lists(st.integers(1, 5), min_size=1, max_size=3),
    st.lists(st.integers(1, 9), min_size=1, max_size=8),
)
def test_parts_open_on_rectos_and_no_page_is_lost(front, main):
    parts = [part(length, True) for length in front] + [part(length) for length in main]
    placed = arrange(parts)
    assert len(placed) % 2 == 0
    assert [each.recto for each in placed] == [index % 2 == 0 for index in range(len(placed))]
    pages = [each.page for each in placed]
    for each in parts:
        assert placed[pages.index(each.pages[0])].recto
    assert [page for page in pages if page.anchors] == [
        page for each in parts for page in each.pages
    ]
    blanks = [index for index, page in enumerate(pages) if not page.anchors]
    assert all(index % 2 for index in blanks)
    begins = pages.index(parts[len(front)].pages[0])
    labels = [each.label for each in placed]
    assert labels == [roman(n + 1) for n in range(begins)] + [
        str(n + 1) for n in range(len(placed) - begins)
    ]
    assert len(labels_of(placed)) == sum(front) + sum(main)
