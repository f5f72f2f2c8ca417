"""Boards told in words: what is given, what is drawn, and what is filled in."""

import re

import pytest

from layout.language.words import languages, read_words
from layout.telling.board_in_words import board_in_words
from tests.support.books import OPEN, rule_examples
from verify.manifest.read import puzzle_from_text
from verify.marks import Border
from verify.proof.verdict import prove

SMALL = "kind: sudoku\nsize: 4\nrules:\n  thermometer: [r3c1 n]\n  even: [r1c2]\n"
SMALL += "givens: |\n  " + "\n  ".join(OPEN) + "\n"


def test_a_board_in_english():
    puzzle = puzzle_from_text(SMALL)
    assert board_in_words(puzzle, read_words("en")) == (
        "A grid of 4 rows and 4 columns, in boxes of 2 rows by 2 columns.",
        "Row 1: 1 in column 1, 4 in column 4.",
        "Row 2: 1 in column 3.",
        "Row 3: 2 in column 1.",
        "Row 4: 3 in column 4.",
        "Thermometers: r3c1 r2c1.",
        "Even cells: r1c2.",
    )


def test_an_answer_in_german():
    puzzle = puzzle_from_text(SMALL)
    (answer,) = prove(puzzle).answers
    told = board_in_words(puzzle, read_words("de"), answer)
    assert told[1:] == tuple(
        f"Zeile {number}: {' '.join(row)}."
        for number, row in enumerate(puzzle.rows_of(answer), start=1)
    )


@pytest.mark.parametrize("language", languages())
@pytest.mark.parametrize("text", rule_examples(), ids=lambda text: text[:20])
def test_every_mark_is_told(language, text):
    """Each rule with marks has a sentence, with the names of cells or a place beside them."""
    words = read_words(language)
    puzzle = puzzle_from_text(text)
    told = "\n".join(board_in_words(puzzle, words))
    for use in puzzle.uses:
        marks = [mark for mark in use.marks(puzzle.board) if not isinstance(mark, Border)]
        if marks:
            title = words.rules[use.rule.name].title
            (line,) = (line for line in told.splitlines() if line.startswith(f"{title}: "))
            assert re.search(r"r\d+c\d+|\d", line.removeprefix(title))
    assert "{" not in told
