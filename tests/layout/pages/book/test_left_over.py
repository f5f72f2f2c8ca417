"""Puzzles that don't share: one left over, one with many words, and page references under rules."""

import pytest

from layout.pages.common.format import Trim
from tests.support.books import book_of, manifest, printed

WORDY = "words: " + "Each row holds every digit once. " * 9


def boards_of(pdf):
    """The width of the board on each page that has one board, or of all boards, by page."""
    return [[board.right - board.left for board in pdf.boards(at)] for at in range(len(pdf))]


def puzzle_pages(pdf, laid, count):
    at = [pdf.labels().index(laid.labels[f"puzzle-reed-{n}"]) for n in range(1, count + 1)]
    return at, boards_of(pdf)


@pytest.mark.parametrize(("per_page", "count"), [(4, 5), (6, 7)])
def test_a_puzzle_left_over_has_a_large_board_and_its_rules_under_it(per_page, count):
    texts = [manifest(n) for n in range(count)]
    pdf, laid = printed(book_of([("Low Water", "", texts, per_page)]))
    at, boards = puzzle_pages(pdf, laid, count)
    assert len(set(at)) == 2
    (alone,) = boards[at[-1]]
    assert alone > 1.3 * max(boards[at[0]])
    foot = max(board.bottom for board in pdf.boards(at[-1]))
    rules = min(char.top for char in pdf.chars(at[-1]) if char.text == "E" and char.top > foot)
    assert rules < foot + 20


def test_one_with_many_words_makes_the_others_no_smaller():
    wide = Trim(148, 210, 3.0)
    texts = [manifest(n) for n in range(3)]
    plain, laid = printed(book_of([("Low Water", "", texts, 1)]), "large-print", wide)
    at, boards = puzzle_pages(plain, laid, 3)
    usual = [boards[page][0] for page in at]
    texts[1] = f"{texts[1]}\n{WORDY}\n"
    wordy, laid = printed(book_of([("Low Water", "", texts, 1)]), "large-print", wide)
    at, boards = puzzle_pages(wordy, laid, 3)
    assert [boards[page][0] for page in at][::2] == pytest.approx(usual[::2])
    assert boards[at[1]][0] < 0.8 * usual[1]


def test_page_references_keep_off_the_rules_beside_a_grid():
    texts = [f"{manifest(n)}\n{WORDY}\n" for n in range(2)]
    pdf, laid = printed(book_of([("Low Water", "", texts, 2)]))
    (at, _), _ = puzzle_pages(pdf, laid, 2)
    column = [char for char in pdf.chars(at) if char.left > 90 and char.top > 30]
    lines = sorted({round(char.origin[1], 1) for char in column})
    named = min(char.origin[1] for char in column if "Italic" in char.font and char.top > 60)
    above = max(line for line in lines if line < named - 0.2)
    assert named - above > 5.5
