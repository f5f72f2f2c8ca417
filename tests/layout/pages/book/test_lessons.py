"""Lessons: how many share a page, and what their examples show."""

from dataclasses import replace

import pytest

from tests.support.books import book_of, printed
from verify.rules import BY_NAME

TAUGHT = ("cage", "thermometer", "arrow", "even")


@pytest.fixture(scope="module")
def book():
    examples = [BY_NAME[name].example for name in TAUGHT]
    return book_of([("Low Water", "", examples, 1)])


def lesson_pages(book):
    pdf, laid = printed(book)
    anchors = [name for name in laid.labels if name.startswith("rule-")]
    return pdf, [pdf.labels().index(laid.labels[name]) for name in anchors]


def test_lessons_share_pages_as_the_job_says(book):
    counts = {}
    for way in ("one", "two-up", "compact"):
        pdf, pages = lesson_pages(replace(book, lessons=way))
        assert pages == sorted(pages)
        counts[way] = [pages.count(at) for at in dict.fromkeys(pages)]
        assert all(pdf.overlaps(at) == [] and pdf.words_over_boards(at) == [] for at in pages)
        assert all(len(pdf.boards(at)) == 2 * pages.count(at) for at in pages)
    assert set(counts["one"]) == {1}
    assert max(counts["two-up"][1:]) == 2
    assert len(counts["compact"]) <= len(counts["two-up"])


def test_a_lesson_alone_on_its_page_has_a_larger_example(book):
    pdf, pages = lesson_pages(replace(book, lessons="two-up"))
    widths = {1: [], 2: []}
    for at in pages:
        widths[pages.count(at)] += [board.right - board.left for board in pdf.boards(at)]
    assert min(widths[1]) > 1.1 * max(widths[2])


def test_a_book_may_teach_nothing(book):
    pdf, pages = lesson_pages(replace(book, lessons="none"))
    assert pages == []
    assert not any("How to solve" in pdf.text(at) for at in range(len(pdf)))


def test_the_sum_of_a_cage_stands_in_its_answer_too(book):
    pdf, laid = printed(replace(book, lessons="one"))
    at = pdf.labels().index(laid.labels["rule-cage"])
    puzzle, answer = pdf.boards(at)
    sizes = [
        min(char.size for char in pdf.chars(at) if board.holds(char.centre))
        for board in (puzzle, answer)
    ]
    largest = max(char.size for char in pdf.chars(at) if answer.holds(char.centre))
    assert sizes[1] < 0.7 * largest
