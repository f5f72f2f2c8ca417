"""Published counts, reached by enumeration."""

from math import factorial

import networkx
import pytest

from tests.support.boards import plain
from tests.support.counting import formula_answers
from verify.proof.propagate import penciled


def count(puzzle):
    houses = puzzle.houses()
    return sum(1 for _ in formula_answers(puzzle.board.digits, penciled(puzzle), (), houses=houses))


def test_grids_of_four_by_four_are_288():
    # OEIS A107739.
    assert count(plain(4, (2, 2))) == 288


def test_grids_of_six_by_six_are_28200960():
    """The top row is 123456 in one of 6! cases.

    The second row then has 4, 5, 6 on the left in an order p and 1, 2, 3 on the right in an
    order q. Shuffling the columns of a stack and renaming three digits so that the top row is
    whole again takes p to s p t' and q to t q s', so the number of grids depends only on the
    cycles of q after p: of the 36 pairs, 6 leave all in place, 18 swap two, 12 turn three.
    """
    # Pettersen; Russell and Jarvis: 28,200,960 (from memory, and counted again by others).
    seconds = {(1, 2, 3): 6, (1, 3, 2): 18, (2, 3, 1): 12}
    found = sum(
        cases * count(plain(6, (2, 3), [1, 2, 3, 4, 5, 6, 4, 5, 6, *right] + [0] * 24))
        for right, cases in seconds.items()
    )
    assert found * factorial(6) == 28_200_960


@pytest.mark.parametrize(("order", "squares"), [(1, 1), (2, 2), (3, 12), (4, 576), (5, 161280)])
def test_latin_squares(order, squares):
    # OEIS A002860. First row and first column are in order in one of n! (n-1)! cases.
    givens = [0] * order**2
    for index in range(order):
        givens[index] = givens[index * order] = index + 1
    found = count(plain(order, None, givens))
    assert found * factorial(order) * factorial(order - 1) == squares


@pytest.mark.parametrize(("order", "edges"), [(2, 56), (3, 810), (4, 4992)])
def test_houses_are_the_sudoku_graph(order, edges):
    # networkx.sudoku_graph; 810 unequal pairs of cells on a 9x9.
    puzzle = plain(order**2, (order, order))
    ours = {
        frozenset((one, other))
        for house in puzzle.houses()
        for one in house
        for other in house
        if one != other
    }
    theirs = {frozenset(edge) for edge in networkx.sudoku_graph(order).edges}
    assert ours == theirs
    assert len(ours) == edges
