"""Puzzles that share a page: constructors under the boards, what holds for all once at the foot."""

from itertools import pairwise

import pytest

from tests.support.books import book_of, manifest, printed

LONG = "The Ebb and Flow Society of the Lower Sluice"


@pytest.fixture(scope="module")
def made():
    texts = [manifest(n, f"Reed {n}", LONG if n == 2 else "Ida Marsh") for n in range(6)]
    return printed(book_of([("Low Water", "", texts, 6)]))


@pytest.fixture(scope="module")
def page(made):
    pdf, laid = made
    return pdf, pdf.labels().index(laid.labels["puzzle-reed-1"])


def test_the_rule_of_all_puzzles_stands_once_under_them(page):
    pdf, at = page
    rules = [row for text, row in pdf.lines(at) if "Eachrow,columnandbox" in text]
    assert len(rules) == 1
    assert rules[0][0].origin[1] > max(board.bottom for board in pdf.boards(at)) + 5


def test_constructors_stand_under_their_boards_and_titles_have_one_size(page):
    pdf, at = page
    assert pdf.text(at).count("Ida Marsh") == 5
    assert LONG.replace(" ", "") in "".join(text for text, _ in pdf.lines(at))
    titles = [row for text, row in pdf.lines(at) if "Reed" in text and "Almanac" not in text]
    assert len({round(row[1].size, 3) for row in titles}) == 1


def test_a_tall_page_has_two_boards_across_and_three_down(page):
    pdf, at = page
    boards = pdf.boards(at)
    assert len({round(board.left) for board in boards}) == 2
    tops = sorted({round(board.top) for board in boards})
    assert len(tops) == 3
    assert tops[1] - tops[0] == pytest.approx(tops[2] - tops[1], abs=1.5)


def test_one_reference_in_the_foot_leads_to_all_answers(made, page):
    pdf, at = page
    labels = made[1].labels
    pages = list(dict.fromkeys(labels[f"answer-reed-{n}"] for n in range(1, 7)))
    told = " and ".join(pages)
    assert f"answers on pages {told}" in pdf.text(at).replace("\u00a0", " ")


def test_answers_say_on_their_title_line_where_the_puzzle_stands(made):
    pdf, laid = made
    at = pdf.labels().index(laid.labels["answer-reed-1"])
    lines = [text for text, _ in pdf.lines(at) if "Reed" in text]
    assert lines
    assert all(text.count("page") == text.count("Reed") for text in lines)
    tops = sorted({round(board.top, 1) for board in pdf.boards(at)})
    assert all(below - above > 40 for above, below in pairwise(tops))
