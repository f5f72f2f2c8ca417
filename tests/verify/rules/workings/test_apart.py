"""How many cells lie a chess move apart, and what a placed digit strikes there."""

import pytest

from tests.support.boards import plain
from verify.manifest.read import puzzle_from_text
from verify.pencil import bit, digits_of, every_digit
from verify.proof.propagate import propagate
from verify.proof.verdict import prove
from verify.reading.problems import Unreadable
from verify.rule import Use
from verify.rules.houses import anti_king, anti_knight


def pairs(leaps):
    return {frozenset((star.cells[0], other)) for star in leaps for other in star.cells[1:]}


# Edges of the graphs of a knight's and of a king's moves on n x n cells. A knight has two moves
# in each of the 2(n - 1)(n - 2) rectangles of 2 x 3 and 3 x 2 cells; a king one for each of the
# 2n(n - 1) shared edges and two for each of the (n - 1)^2 inner corners.
@pytest.mark.parametrize("n", [1, 2, 3, 4, 6, 9, 16])
def test_count_of_pairs(n):
    board = plain(n).board
    knight, king = anti_knight.of_board(board), anti_king.of_board(board)
    assert len(pairs(knight)) == 4 * (n - 1) * (n - 2)
    assert len(pairs(king)) == 2 * n * (n - 1) + 2 * (n - 1) ** 2
    for leaps in (knight, king):
        assert sum(len(star.cells) - 1 for star in leaps) == len(pairs(leaps)), "no pair twice"


@pytest.mark.parametrize(
    ("rule", "cell", "reached"),
    [
        (anti_knight, "r5c5", "r3c4 r3c6 r4c3 r4c7 r6c3 r6c7 r7c4 r7c6"),
        (anti_knight, "r1c1", "r2c3 r3c2"),
        (anti_king, "r5c5", "r4c4 r4c5 r4c6 r5c4 r5c6 r6c4 r6c5 r6c6"),
        (anti_king, "r9c9", "r8c8 r8c9 r9c8"),
    ],
)
def test_a_placed_digit_leaves_the_cells_that_it_reaches(rule, cell, reached):
    board = plain(9).board
    pencil = [every_digit(9)] * 81
    (placed,) = [at for at in board.cells if board.name(at) == cell]
    pencil[placed] = bit(7)
    assert propagate(rule.of_board(board), pencil)
    without = [board.name(at) for at in board.cells if 7 not in digits_of(pencil[at])]
    assert without == reached.split()


def test_two_digits_a_leap_apart_leave_no_answer():
    givens = [0] * 81
    givens[0] = givens[11] = 5
    marks = anti_knight.of_board(plain(9).board)
    assert prove(plain(9, None, givens, Use(anti_knight.RULE, marks))).word == "none"


@pytest.mark.parametrize("name", ["anti-king", "anti-knight"])
def test_marks_other_than_true_are_refused_in_their_place(name):
    with pytest.raises(Unreadable) as refused:
        puzzle_from_text(f"kind: latin\nsize: 5\nrules:\n  {name}: r1c1\n", "a.yaml")
    (problem,) = refused.value.problems
    assert (problem.place.line, problem.place.column) == (4, len(name) + 5)


@pytest.mark.parametrize("name", ["anti-king", "anti-knight"])
def test_a_board_of_one_cell_has_no_moves_but_the_rule_is_told(name):
    use = puzzle_from_text(f"kind: blank\nsize: 1\nrules:\n  {name}: true\n", "a.yaml").uses[0]
    assert use.constraints == ()
    assert [saying.key for saying in use.sayings()] == [name]
