"""Grids that somebody has filled in part: how they may be written, and each slip in its place."""

from contextlib import suppress
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from verify.manifest.read import puzzle_from_text
from verify.manifest.so_far import LONGEST, can_be_grid, read_so_far
from verify.reading.problems import MOST_PROBLEMS, Unreadable

SMALL = puzzle_from_text(
    "kind: sudoku\nsize: 4\ngivens: |\n  1 . . .\n  . . . .\n  . . . .\n  . . . ."
)
LETTERS = puzzle_from_text("kind: latin\nsize: 3\nsymbols: ABC")
WORDS = puzzle_from_text("kind: latin\nsize: 3\nsymbols: [ebb, flo, 10]")
ZERO = puzzle_from_text("kind: latin\nsize: 3\nsymbols: '012'")
HOLES = puzzle_from_text("kind: blank\nsize: 3\nholes: r1c3 r2c2")
BIG = puzzle_from_text("kind: sudoku\nsize: 9")


def problems(text, puzzle):
    with pytest.raises(Unreadable) as caught:
        read_so_far(text, "so-far", puzzle)
    return [str(problem) for problem in caught.value.problems]


@pytest.mark.parametrize(
    "text",
    [
        "12..\n34..\n....\n....",
        "1 2 . .\n3 4 . .\n. . . .\n. . . .\n",
        "1 2 | 0 0\n3 4 | . .\n----+----\n. . | . .\n. . | . .",
        "\n\n12..34..........\n\n",
        "1200340000000000",
        "12 .. 34 .. .... ....",
        "1 2 . . 3 4 . . . . . . . . . .",
        "  12..|34..|....|....  ",
        ".2..34..........",
        "\ufeff12..\r\n34..\r\n....\r\n....\r\n",
    ],
)
def test_many_ways_to_write_one_grid(text):
    assert read_so_far(text, "so-far", SMALL) == (1, 2, 0, 0, 3, 4, *[0] * 10)


def test_letters_words_and_a_zero_that_is_a_symbol():
    assert read_so_far("AB. ..C 0..", "so-far", LETTERS) == (1, 2, 0, 0, 0, 3, 0, 0, 0)
    assert read_so_far("ebb . 10 . flo 0 . . .", "so-far", WORDS) == (1, 0, 3, 0, 2, 0, 0, 0, 0)
    assert read_so_far("01...2...", "so-far", ZERO) == (1, 2, 0, 0, 0, 3, 0, 0, 0)


def test_holes_are_written_as_in_a_manifest():
    assert read_so_far("12_ 3_. ...", "so-far", HOLES) == (1, 2, 0, 3, 0, 0, 0, 0, 0)
    assert problems("12. 3_. ...", HOLES) == [
        'so-far:1:3: found ".", expected _, for here is no cell'
    ]
    assert problems("12_\n3_.\n._.", HOLES) == ['so-far:3:2: found "_", expected . or one of 1 2 3']


@given(st.lists(st.integers(0, 9), min_size=81, max_size=81), st.sampled_from([".", "0"]))
def test_what_is_written_is_read(digits, open_cell):
    line = "".join(str(digit) if digit else open_cell for digit in digits)
    rows = "\n".join(line[at : at + 9] for at in range(0, 81, 9))
    puzzle = replace(BIG, givens=tuple(digit if digit > 5 else 0 for digit in digits))
    for text in (line, rows, " ".join(line)):
        assert read_so_far(text, "so-far", puzzle) == tuple(digits)
        assert can_be_grid(text, puzzle)


SLIPS = [
    ("", SMALL, ["so-far:1:1: found nothing, expected the grid so far: 4 rows of 4 cells"]),
    (" \n ", SMALL, ["so-far:1:1: found nothing, expected the grid so far: 4 rows of 4 cells"]),
    ("1" * 15, SMALL, ["so-far:1:15: found 15 cells, expected 16 cells in 4 rows"]),
    ("1" * 17, SMALL, ["so-far:1:17: found 17 cells, expected 16 cells in 4 rows"]),
    ("1", SMALL, ["so-far:1:1: found 1 cell, expected 16 cells in 4 rows"]),
    ("12..\n34..", SMALL, ["so-far:2:1: found 2 rows, expected 4"]),
    ("12..\n34..\n....\n....\n....", SMALL, ["so-far:5:1: found 5 rows, expected 4"]),
    ("12..\n34.\n....\n....", SMALL, ["so-far:2:1: found 3 cells in row 2, expected 4"]),
    ("1x..............", SMALL, ['so-far:1:2: found "x", expected . or one of 1 2 3 4']),
    ("1 5 . .\n. . . .\n. . . .\n. . 7 .", SMALL, [
        'so-far:1:3: found "5", expected . or one of 1 2 3 4',
        'so-far:4:5: found "7", expected . or one of 1 2 3 4',
    ]),
    ("3...............", SMALL, ['so-far:1:1: found "3" in r1c1, expected the given "1"']),
    ("a........", LETTERS, ['so-far:1:1: found "a", expected . or one of A B C']),
    ("ebb . 11 . . . . . .", WORDS, ['so-far:1:7: found "11", expected . or one of ebb flo 10']),
    ("1\x1b[2J", SMALL, ["so-far:1:2: found the control character U+001B, expected plain text"]),
]  # fmt: skip


@pytest.mark.parametrize(("text", "puzzle", "told"), SLIPS, ids=[repr(slip[0]) for slip in SLIPS])
def test_every_slip_in_its_place(text, puzzle, told):
    assert problems(text, puzzle) == told


def test_hostile_sizes_are_bounded():
    assert problems("1" * (LONGEST + 1), SMALL) == [
        f"so-far:1:1: found more than {LONGEST} characters, expected 16 cells in 4 rows"
    ]
    for text in ("x" * LONGEST, "\n" * LONGEST, "x\n" * (LONGEST // 2), "|" * LONGEST):
        assert 0 < len(problems(text, BIG)) <= MOST_PROBLEMS


@given(st.text(max_size=100))
def test_any_text_is_a_grid_or_a_problem(text):
    for puzzle in (SMALL, LETTERS, WORDS, HOLES):
        with suppress(Unreadable):
            assert len(read_so_far(text, "so-far", puzzle)) == len(puzzle.givens)


@pytest.mark.parametrize("text", ["so-far.txt", "grid-4.txt", "/tmp/17", "", "desk/so far"])
def test_names_are_no_grids(text):
    assert not can_be_grid(text, BIG)


@pytest.mark.parametrize("text", ["12", "1x..............", ".", "a\nb", "----"])
def test_what_is_mostly_cells_is_a_grid(text):
    assert can_be_grid(text, SMALL)
