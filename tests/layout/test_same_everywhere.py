"""The same input gives the same bytes in every Python.

Since 3.12 the built-in `sum` of floats makes up for lost digits, so that its last digits differ
from those of 3.11 (what's new in Python 3.12, "Other Language Changes"); `math.fsum` is exact in
all of them.
"""

import builtins
import sys
from contextlib import nullcontext

import pytest

from layout.board.board import draw_board
from layout.jobs.common.making import Making
from layout.jobs.make import make
from layout.style.style import named_style
from layout.writers.pdf import pdf_of_picture
from layout.writers.svg import svg_of_picture
from tests.support.books import book_of, printed, rule_examples
from tests.support.columns import day_of, picture_of
from tests.support.worksheets import write_worksheet
from verify.manifest.read import puzzle_from_text

plain_sum = builtins.sum


def strict_sum(items, start=0):
    items = list(items)
    caller = sys._getframe(1).f_globals.get("__name__", "")
    if caller.startswith(("layout.", "verify.")):
        assert not any(isinstance(item, float) for item in (*items, start)), caller
    return plain_sum(items, start)


def progress_nowhere(label, total):
    return nullcontext(lambda done: None)


@pytest.fixture(autouse=True)
def no_sum_of_floats(monkeypatch):
    monkeypatch.setattr(builtins, "sum", strict_sum)


def test_no_built_in_sum_of_lengths_in_pictures():
    style = named_style("paperback")
    for text in rule_examples():
        puzzle = puzzle_from_text(text)
        svg_of_picture(draw_board(puzzle, style.board, 90.0))


def test_no_built_in_sum_of_lengths_in_a_column():
    pdf_of_picture(picture_of(day_of(), width=90.0), "en")


def test_no_built_in_sum_of_lengths_in_a_book():
    printed(book_of([("Low", "Some *words*.", rule_examples()[:12], 2)]))


def test_no_built_in_sum_of_lengths_in_a_worksheet(tmp_path):
    make(write_worksheet(tmp_path), Making(None, 1, progress_nowhere))
