"""Neighbours that are never consecutive: a count known from elsewhere, and what is struck."""

import pytest

from tests.support.boards import plain
from tests.support.counting import formula_answers
from verify.board import Board
from verify.manifest.read import puzzle_from_text
from verify.pencil import bit, digits_of, every_digit
from verify.proof.propagate import propagate
from verify.proof.verdict import prove
from verify.reading.problems import Unreadable
from verify.rule import Use
from verify.rules.cells import non_consecutive


# Hertzsprung's problem (1887): permutations of 1 to n in which no two neighbours are
# consecutive; Sloane's encyclopedia, sequence A002464.
@pytest.mark.parametrize(("n", "count"), [(2, 0), (3, 0), (4, 2), (5, 14), (6, 90), (7, 646)])
def test_count_of_rows(n, count):
    marks = non_consecutive.of_board(Board(1, n, n))
    row = tuple(range(n))
    assert len(list(formula_answers(n, [every_digit(n)] * n, marks, (row,)))) == count


def test_two_rows_are_not_enough_for_a_square_of_four():
    marks = non_consecutive.of_board(plain(4).board)
    assert prove(plain(4, None, (), Use(non_consecutive.RULE, marks))).word == "none"


@pytest.mark.parametrize("n", [1, 2, 6, 9])
def test_every_edge_once(n):
    board = plain(n).board
    stars = non_consecutive.of_board(board)
    edges = [(star.cells[0], other) for star in stars for other in star.cells[1:]]
    assert len(edges) == len(set(edges)) == 2 * n * (n - 1)
    assert all(board.share_edge(*edge) for edge in edges)


@pytest.mark.parametrize(
    ("left", "struck"), [([5], "46"), ([1], "2"), ([9], "8"), ([4, 6], "5"), ([4, 5], "")]
)
def test_what_one_cell_takes_from_the_next(left, struck):
    pencil = [every_digit(9), sum(map(bit, left))]
    assert propagate(non_consecutive.of_board(Board(1, 2, 9)), pencil)
    gone = digits_of(every_digit(9) & ~pencil[0])
    assert "".join(map(str, gone)) == struck


def test_marks_other_than_true_are_refused_in_their_place():
    with pytest.raises(Unreadable) as refused:
        puzzle_from_text("kind: latin\nsize: 5\nrules:\n  non-consecutive: yes\n", "a.yaml")
    (problem,) = refused.value.problems
    assert (problem.place.line, problem.place.column) == (4, 20)
