"""The contents of a book, read back from its PDF: what stands apart, and what together."""

from dataclasses import replace
from itertools import pairwise

import pytest

from layout.style.style import read_style
from tests.support.books import book_of, manifest, printed

LEADING = read_style("paperback").page.faces.prose.leading


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
