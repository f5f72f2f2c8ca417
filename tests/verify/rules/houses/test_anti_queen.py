"""Digits that move like queens: reading, and the old question of how they can stand."""

import pytest

from tests.support.boards import plain
from verify.formula.formula import Formula
from verify.manifest.read import puzzle_from_text
from verify.pencil import bit, every_digit
from verify.proof.solver import Allowance, Base
from verify.proof.verdict import prove
from verify.reading.problems import Unreadable
from verify.rule import Use
from verify.rules.houses import anti_queen
from verify.rules.houses.anti_queen import AntiQueen, diagonals


def places_of_the_last_digit(size):
    """In how many ways the largest digit of a Latin square can keep the rule."""
    ground = plain(size)
    pencil = [every_digit(size)] * size * size
    formula = Formula(size, pencil)
    for cells in diagonals(ground.board):
        AntiQueen(cells, bit(size)).clauses(formula)
    session = Base(size, ground.houses(), pencil).open(formula)
    allowance, ways = Allowance(10**6), 0
    while (answer := session.answer(allowance)) is not None:
        session.differ(answer, [cell for cell in ground.board.cells if answer[cell] == size])
        ways += 1
    return ways


# Queens on an n x n chessboard of which none attacks another: Nauck gave the 92 ways for n = 8
# in 1850; the others are in Sloane's encyclopedia, sequence A000170. Any one of them can be
# the cells of one digit, for a permutation can always be completed to a Latin square.
@pytest.mark.parametrize(("size", "ways"), [(4, 2), (5, 10), (6, 4), (7, 40), (8, 92)])
def test_a_digit_stands_as_queens_do(size, ways):
    assert places_of_the_last_digit(size) == ways


# With 2 ways for 4 digits and 4 ways for 6 there is none left for some digit; a cyclic square of
# order 5 whose rows move on by two keeps every digit off its diagonals.
@pytest.mark.parametrize(("size", "word"), [(4, "none"), (5, "many"), (6, "none")])
def test_every_digit_as_a_queen(size, word):
    every = every_digit(size)
    marks = tuple(AntiQueen(cells, every) for cells in diagonals(plain(size).board))
    assert prove(plain(size, None, (), Use(anti_queen.RULE, marks))).word == word


def test_diagonals_of_every_length():
    board = plain(4).board
    lengths = sorted(len(cells) for cells in diagonals(board))
    assert lengths == [2, 2, 2, 2, 3, 3, 3, 3, 4, 4]
    names = [[board.name(cell) for cell in cells] for cells in diagonals(board)]
    assert ["r1c3", "r2c4"] in names
    assert ["r2c4", "r3c3", "r4c2"] in names


def use_of(marks, board="kind: latin\nsize: 8"):
    return puzzle_from_text(f"{board}\nrules:\n  anti-queen: {marks}\n", "a.yaml").uses[-1]


@pytest.mark.parametrize(
    ("marks", "count", "chosen"), [("8", 1, (8,)), ("[8, 1]", 2, (1, 8)), ("[3]", 1, (3,))]
)
def test_one_digit_or_a_list(marks, count, chosen):
    (saying,) = use_of(marks).sayings()
    assert (saying.count, saying.digits) == (count, chosen)


@pytest.mark.parametrize(
    ("marks", "column", "message"),
    [
        ("9", 15, 'found "9", expected a whole number from 1 to 8'),
        ("[8, 0]", 19, 'found "0", expected a whole number from 1 to 8'),
        ("[8, 7, 8]", 22, "found 8 again, expected each digit once"),
        ("[]", 15, "found an empty list, expected a digit, or a list of digits"),
        ("true", 15, 'found "true", expected a whole number from 1 to 8'),
    ],
)
def test_what_is_no_digit_is_refused_in_its_place(marks, column, message):
    with pytest.raises(Unreadable) as refused:
        use_of(marks)
    (problem,) = refused.value.problems
    assert (problem.place.line, problem.place.column) == (4, column)
    assert message in problem.message


def test_a_board_of_one_cell_has_no_diagonal_to_speak_of():
    use = use_of("1", "kind: blank\nsize: 1")
    assert use.constraints == ()
    assert use.sayings() == ()
