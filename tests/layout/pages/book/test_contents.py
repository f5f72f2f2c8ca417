"""The contents of a book, read back from its PDF: what stands apart, and what together."""

from dataclasses import replace
from itertools import pairwise

import pytest

from layout.language.words import read_words
from layout.pages.book.book_part import BookPart, ContentsEntry
from layout.pages.book.contents import contents_part
from layout.pages.common.design import Design
from layout.pages.common.format import page_format
from layout.picture.items import Link
from layout.style.style import read_style
from tests.support.books import SIX_BY_NINE, book_of, manifest, printed

STYLE = read_style("paperback")
LEADING = STYLE.page.faces.prose.leading
DESIGN = Design(
    page_format(SIX_BY_NINE, STYLE.page, 0), STYLE.page, STYLE.board, read_words("en"), "en"
)


def rows_to_the_next(book):
    """How many rows of the baseline grid lie from each line of the contents to the one below."""
    pdf, laid = printed(book)
    lines = pdf.lines(pdf.labels().index(laid.labels["contents"]))
    return {
        (one.lstrip("0123456789"), other.lstrip("0123456789")): round(
            (below[0].origin[1] - above[0].origin[1]) / LEADING
        )
        for (one, above), (other, below) in pairwise(lines)
    }


@pytest.fixture(scope="module")
def book():
    return book_of([("Low Water", "", [manifest(n) for n in range(3)], 1)])


def test_every_part_stands_apart(book):
    rows = rows_to_the_next(replace(book, hints=2))
    assert rows["Rows,columnsandboxes", "LowWater"] == 2
    assert rows["puzzles1to3,calm", "Hints"] == 2
    assert rows["Hints", "Answers"] == 2
    assert rows["Answers", "Constructors"] == 2


def test_what_belongs_to_a_part_stands_right_under_it(book):
    rows = rows_to_the_next(book)
    assert rows["Howtosolve", "Rows,columnsandboxes"] == 1
    assert rows["LowWater", "puzzles1to3,calm"] == 1


def test_tiers_of_hints_stand_in_the_outline_alone(book):
    pdf, laid = printed(replace(book, hints=2))
    tiers = ["First hints", "Second hints"]
    assert [entry.title for entry in laid.document.outline if "hints" in entry.title] == tiers
    contents = pdf.text(pdf.labels().index(laid.labels["contents"]))
    assert not any(tier in contents for tier in tiers)


def test_walks_go_with_the_hints(book):
    walks = tuple(book.puzzles())[:1]
    rows = rows_to_the_next(replace(book, hints=2, walks=walks))
    assert rows["Hints", "Walks"] == 1
    assert rows["Answers", "Constructors"] == 2
    rows = rows_to_the_next(replace(book, walks=walks))
    assert rows["puzzles1to3,calm", "Walks"] == 2


@pytest.mark.parametrize(("walks", "rows"), [(0, 2), (1, 1), (2, None)])
def test_parts_at_the_back_close_up_where_that_saves_a_page(book, walks, rows):
    """Nine sections and one walk have no room apart; with two there is a second page anyway."""
    many = replace(book, hints=2, sections=book.sections * 9, walks=tuple(book.puzzles())[:walks])
    assert rows_to_the_next(many).get(("Answers", "Constructors")) == rows


def drawn(page):
    """What stands on a page, whatever labels it is drawn with."""
    return list(page.draw({}))


@pytest.mark.parametrize(("count", "rows"), [(11, 11), (12, 6), (13, 7)])
def test_many_short_lines_of_a_part_stand_in_two_columns(count, rows):
    """They are read downwards, and lead where they say; the last row may be alone on its left."""
    lessons = [ContentsEntry(f"Rule {number}", f"rule-{number}", 1) for number in range(count)]
    part = BookPart(lambda labels: (), (ContentsEntry("How to solve", "solve"), *lessons))
    (page,) = contents_part([part], DESIGN).set_pages({each.anchor: "7" for each in lessons})
    links = {item.target: item for item in drawn(page) if isinstance(item, Link)}
    left = links["rule-0"]
    heights = {round(links[f"rule-{number}"].y, 3) for number in range(count)}
    assert len(heights) == rows
    for number in range(count):
        link = links[f"rule-{number}"]
        assert (link.x > left.x) == (number >= rows)
        assert link.y == pytest.approx(links[f"rule-{number % rows}"].y)


def test_long_lines_stay_one_below_the_other():
    lessons = [ContentsEntry("Of this and of that " * 3, f"{n}", 1) for n in range(20)]
    part = BookPart(lambda labels: (), tuple(lessons))
    pages = contents_part([part], DESIGN).set_pages({})
    links = [item for page in pages for item in drawn(page) if isinstance(item, Link)]
    assert len({(link.target, round(link.y, 3)) for link in links}) >= 20
    assert max(link.x for link in links) < DESIGN.measure / 4
