"""Margins, what a back hides of them, and the places of pages in a book."""

from dataclasses import replace
from itertools import count
from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layout.pages.book.pagination import arrange, labels_of
from layout.pages.common.format import Trim, hidden, page_format
from layout.pages.common.page import Page, PartPages, fixed
from layout.picture.items import Anchor
from layout.style.page import Binding
from layout.style.style import read_style
from layout.type.roman import roman
from tests.support.drawn import STYLES

# what a style sheet may say of a binding: layout/style/page.py
BINDINGS = st.builds(
    Binding, leaf=st.floats(0.03, 0.4), hidden=st.floats(0, 0.5), most=st.floats(0, 25)
)


@given(BINDINGS, st.integers(0, 3000), st.integers(0, 3000))
def test_a_thicker_book_never_hides_less_and_never_more_than_the_most(binding, one, two):
    fewer, more = sorted((one, two))
    assert 0 <= hidden(binding, fewer) <= hidden(binding, more) <= binding.most


@given(BINDINGS, st.integers(0, 3000))
def test_one_more_leaf_moves_a_margin_by_a_hair(binding, pages):
    assert hidden(binding, pages + 2) - hidden(binding, pages) <= 0.2 + 1e-9


@pytest.mark.parametrize("style", STYLES)
def test_in_shipped_styles_a_leaf_moves_it_by_less_than_a_twentieth_of_a_millimetre(style):
    binding = read_style(style).page.binding
    steps = [hidden(binding, n + 2) - hidden(binding, n) for n in range(0, 1200, 2)]
    assert max(steps) < 0.05
    assert steps[0] > 0.02


@pytest.mark.parametrize("style", STYLES)
@given(st.integers(0, 16))
def test_a_thin_booklet_has_the_margin_of_the_sheet(style, pages):
    look = read_style(style).page
    layout = page_format(Trim(152.4, 228.6), look, pages)
    assert layout.inside == pytest.approx(look.margins.inside * 152.4, abs=0.3)


def test_what_a_quarter_round_hides():
    # 250 leaves of 0.1 mm are 25 mm thick. Over half of that, a page that leaves the back upright
    # bends by a quarter of a circle: it is pi/2 * 12.5 mm long there, and reaches 12.5 mm outwards
    binding = read_style("paperback").page.binding
    fold = pi / 2 * 12.5 - 12.5
    assert hidden(replace(binding, leaf=0.1), 500) == pytest.approx(fold, abs=0.02)


@pytest.mark.parametrize("style", STYLES)
@given(st.floats(88, 500), st.floats(88, 500), st.integers(4, 1200))
def test_margins_are_safe_and_mirrored(style, width, height, pages):
    layout = page_format(Trim(width, height), read_style(style).page, pages)
    assert layout.inside >= 6.35 + hidden(read_style(style).page.binding, pages)
    assert min(layout.inside, layout.outside, layout.top, layout.foot) >= 6.35
    assert layout.head <= layout.top
    assert layout.folio >= height - layout.foot
    assert layout.measure > 0.5 * width
    assert layout.left(True) == layout.inside
    assert layout.left(False) == pytest.approx(width - layout.inside - layout.measure)


NAMES = count()


def part(length, front=False):
    pages = tuple(Page(fixed(()), (Anchor(str(next(NAMES)), 0.0),)) for _ in range(length))
    return PartPages(pages, front)


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
