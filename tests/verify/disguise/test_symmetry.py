"""The symmetry of givens, and of where marks stand."""

import pytest

from tests.support.boards import plain
from verify.disguise.symmetry import Symmetry, symmetries_of_givens, symmetries_of_marks
from verify.manifest.read import puzzle_from_text

HALF, QUARTER = Symmetry.HALF_TURN, Symmetry.QUARTER_TURN
ACROSS, UPRIGHT = Symmetry.LEFT_RIGHT, Symmetry.TOP_BOTTOM
FALLING, RISING = Symmetry.FALLING, Symmetry.RISING


def of_givens(pattern):
    """The symmetries of a pattern of 1 and 0, row by row."""
    rows = pattern.split()
    return symmetries_of_givens(plain(len(rows), None, [int(each) for each in "".join(rows)]))


@pytest.mark.parametrize(
    ("pattern", "expected"),
    [
        ("1000 0000 0000 0001", {HALF, FALLING, RISING}),
        ("0100 0001 1000 0010", {HALF, QUARTER}),
        ("1001 0000 0000 0000", {ACROSS}),
        ("1000 0000 0000 1000", {UPRIGHT}),
        ("0100 1000 0000 0000", {FALLING}),
        ("0010 0001 0000 0000", {RISING}),
        ("1001 0000 0000 1001", {HALF, QUARTER, ACROSS, UPRIGHT, FALLING, RISING}),
        ("1100 0000 0000 0000", set()),
    ],
)
def test_givens(pattern, expected):
    assert set(of_givens(pattern)) == expected


def test_no_givens_have_no_symmetry_to_speak_of():
    assert of_givens("00 00") is None


def with_rules(rules, more=""):
    grid = "\n".join("  . . . ." for _ in range(4))
    return puzzle_from_text(f"kind: sudoku\nsize: 4\n{more}rules:\n{rules}givens: |\n{grid}\n")


def test_the_boxes_are_no_marks():
    assert symmetries_of_marks(with_rules("  anti-knight: true\n")) is None


def test_which_end_of_a_mark_is_the_first_does_not_count():
    reeds = "  thermometer:\n    - r1c1 r1c2\n    - r4c3 r4c4\n"
    assert symmetries_of_marks(with_rules(reeds)) == (HALF,)


def test_a_mark_of_another_rule_does_not_answer_a_mark():
    assert symmetries_of_marks(with_rules("  even: r1c1\n  odd: r4c4\n")) == (FALLING,)


def test_a_clue_stands_on_its_own_side():
    lookouts = "  skyscraper:\n    top c1: 2\n    bottom c1: 2\n"
    assert symmetries_of_marks(with_rules(lookouts)) == (UPRIGHT,)
    assert symmetries_of_marks(with_rules("  skyscraper:\n    top c1: 2\n")) == ()


def test_a_board_that_is_not_symmetric_itself():
    """Two grids that share a corner lie on themselves by a half turn and about a diagonal."""
    text = (
        "kind: sudoku\nsize: 4\ngrids: [r1c1, r3c3]\n"
        "givens: |\n  1 . . . _ _\n  . . . . _ _\n  . . . . . .\n  . . . . . .\n"
        "  _ _ . . . .\n  _ _ . . . 1\n"
    )
    assert symmetries_of_givens(puzzle_from_text(text)) == (HALF, FALLING, RISING)
    corner = text.replace("1 . . . _", ". . . 1 _").replace(". . . 1\n", "1 . . .\n")
    assert symmetries_of_givens(puzzle_from_text(corner)) == (HALF,)
