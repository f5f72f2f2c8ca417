"""Rules against what is counted in books: digits of cages, magic squares, chessmen."""

from itertools import combinations
from typing import Any

import pytest

from tests.support.boards import plain
from tests.support.counting import formula_answers
from verify.manifest.read import puzzle_from_text
from verify.pencil import bit, digits_of, every_digit
from verify.proof.propagate import penciled, propagate
from verify.proof.verdict import prove
from verify.rules.cells.cage import Cage
from verify.rules.houses import anti_king, anti_knight
from verify.rules.workings.distinct import Distinct
from verify.rules.workings.sums import digit_sets

# The sums of two cells and more that one set of digits alone has: common practice, no source.
ONE_SET = {
    2: {3: "12", 4: "13", 16: "79", 17: "89"},
    3: {6: "123", 7: "124", 23: "689", 24: "789"},
    4: {10: "1234", 11: "1235", 29: "5789", 30: "6789"},
    5: {15: "12345", 16: "12346", 34: "46789", 35: "56789"},
    6: {21: "123456", 22: "123457", 38: "356789", 39: "456789"},
    7: {28: "1234567", 29: "1234568", 41: "2456789", 42: "3456789"},
    8: {45 - left: "123456789".replace(str(left), "") for left in range(1, 10)},
    9: {45: "123456789"},
}
CAGES = pytest.mark.parametrize("cells", ONE_SET)


def sets_of(cells, total):
    return {"".join(map(str, digits_of(mask))) for mask in digit_sets(cells, total, 9)}


def gaussian(whole, part):
    """Coefficients of the Gaussian binomial of two numbers, by their triangle.

    That of q^s counts the sets of `part` of the numbers 1 to `whole` whose sum is s more than
    the least one (P. A. MacMahon, Combinatory Analysis; from memory).
    """
    if part in (0, whole):
        return [1]
    with_it, without = gaussian(whole - 1, part), gaussian(whole - 1, part - 1)
    lifted = [0] * part + with_it
    return [
        (lifted[at] if at < len(lifted) else 0) + (without[at] if at < len(without) else 0)
        for at in range(max(len(lifted), len(without)))
    ]


@CAGES
def test_sums_with_one_set_of_digits(cells):
    single = {total: sets_of(cells, total) for total in range(46)}
    assert {t: found.pop() for t, found in single.items() if len(found) == 1} == ONE_SET[cells]


@CAGES
def test_as_many_sets_as_the_gaussian_binomials_count(cells):
    least = sum(range(cells + 1))
    counts = gaussian(9, cells)
    assert [len(sets_of(cells, least + more)) for more in range(len(counts))] == counts


@CAGES
def test_sets_mirror_each_other_and_fill_each_other_up(cells):
    for total in range(46):
        found = sets_of(cells, total)
        mirrored = {"".join(str(10 - int(d)) for d in reversed(digits)) for digits in found}
        assert mirrored == sets_of(cells, 10 * cells - total)
        if cells < 9:
            others = {"".join(d for d in "123456789" if d not in digits) for digits in found}
            assert others == sets_of(9 - cells, 45 - total)


@CAGES
def test_a_cage_of_open_cells_leaves_the_digits_of_its_sets(cells):
    for total in range(sum(range(cells + 1)), sum(range(10 - cells, 10)) + 1):
        pencil = [every_digit(9)] * cells
        assert propagate([Cage(tuple(range(cells)), total, 9)], pencil)
        together = {
            digit
            for chosen in combinations(range(1, 10), cells)
            if sum(chosen) == total
            for digit in chosen
        }
        assert pencil == [sum(map(bit, together))] * cells


MAGIC = """\
title: Flood marks
kind: blank
size: 9
holes: [r1c1..r3c1, r1c5..r3c9, r4c1..r9c9]
rules:
  extra-region: [r1c2..r3c4]
  cage:
    - {cells: r1c2..r1c4, sum: 15}
    - {cells: r2c2..r2c4, sum: 15}
    - {cells: r3c2..r3c4, sum: 15}
  edge-sum: {cells: 3, sums: {top c2: 15, top c3: 15, top c4: 15}}
  diagonal-sum: {top c1 se: 15, top c5 sw: 15}
givens: |
"""


def magic(first):
    """A square of nine digits with one sum in rows, columns and diagonals; its first row told."""
    rows = [f"_ {first} _ _ _ _ _", *["_ . . . _ _ _ _ _"] * 2, *[" ".join("_" * 9)] * 6]
    return puzzle_from_text(MAGIC + "".join(f"  {row}\n" for row in rows), "magic.yaml")


def test_magic_squares_of_order_three_are_one_in_eight_positions():
    # 4 9 2, 3 5 7, 8 1 6, turned and reflected: handbooks, no single source.
    puzzle = magic(". . .")
    found = {
        tuple(answer[9 * row + 1 : 9 * row + 4] for row in range(3))
        for answer in formula_answers(9, penciled(puzzle), list(puzzle.constraints()))
    }
    square: tuple[tuple[int, ...], ...] = ((4, 9, 2), (3, 5, 7), (8, 1, 6))
    turned = {square}
    for _ in range(3):
        square = tuple(zip(*square[::-1], strict=True))
        turned.add(square)
    assert found == turned | {tuple(row[::-1] for row in each) for each in turned}
    assert len(found) == 8


@pytest.mark.parametrize(
    ("first", "word"),
    [("4 9 2", "one"), ("2 . .", "many"), (". 1 .", "many"), (". 2 .", "none"), ("9 . .", "none")],
)
def test_verdicts_on_magic_squares(first, word):
    """Even digits stand in the corners, odd ones between; a corner is in two squares."""
    verdict = prove(magic(first))
    assert verdict.word == word
    if word == "one":
        assert [digit for digit in verdict.answers[0] if digit] == [4, 9, 2, 3, 5, 7, 8, 1, 6]


class InEachRow:
    """A 1 in each of some rows."""

    def __init__(self, rows):
        self.rows = rows

    def clauses(self, formula):
        for row in self.rows:
            formula.some(formula.literal(cell, 1) for cell in row)


# One digit of a Latin square stands as rooks do that attack no other, and with a rule of chess
# moves as a rook that is a king as well, or a knight. Hertzsprung (1887) counted the first; OEIS
# A002464 and A137774. All of this from memory.
@pytest.mark.parametrize(
    ("rule", "ways"),
    [(anti_king, [1, 0, 0, 2, 14, 90]), (anti_knight, [1, 2, 2, 8, 20, 94])],
    ids=["king", "knight"],
)
def test_one_digit_stands_as_chessmen_do(rule, ways):
    for size, counted in enumerate(ways, start=1):
        board = plain(size).board
        rows, columns = list(board.row_lines()), list(board.column_lines())
        # Each cell holds a 1 or a digit that no other cell has, so that the 1 alone is bound.
        pencil = [bit(1) | bit(cell + 2) for cell in board.cells]
        asked: list[Any] = [Distinct("line", line) for line in (*rows, *columns)]
        asked += [InEachRow(rows), *rule.of_board(board)]
        assert sum(1 for _ in formula_answers(size**2 + 1, pencil, asked)) == counted
