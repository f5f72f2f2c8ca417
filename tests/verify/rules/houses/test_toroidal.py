"""Which boards can keep all wrapped diagonals: facts from combinatorics."""

import pytest

from tests.support.boards import plain
from verify.manifest.read import puzzle_from_text
from verify.proof.verdict import prove
from verify.reading.problems import Unreadable
from verify.rule import Use
from verify.rules.houses import toroidal


def verdict(size, *directions):
    board = plain(size).board
    marks = tuple(each for direction in directions for each in direction(board))
    return prove(plain(size, None, (), Use(toroidal.RULE, marks))).word


# A. Hedayat, "A complete solution to the existence and nonexistence of Knut Vik designs and
# orthogonal Knut Vik designs", Journal of Combinatorial Theory A 22 (1977) 331-337: a Latin
# square that holds every digit once on every wrapped diagonal of both directions exists just
# for the orders that neither 2 nor 3 divides.
@pytest.mark.parametrize("size", [4, 5, 6, 7, 8, 9, 10, 11])
def test_both_directions_at_once(size):
    there_is_one = size % 2 != 0 and size % 3 != 0
    assert verdict(size, toroidal.falling, toroidal.rising) == ("many" if there_is_one else "none")


# L. Euler, "Recherches sur une nouvelle espèce de quarrés magiques" (1782): the cyclic Latin
# square of even order has no transversal, and so none is orthogonal to it; of odd order one is.
@pytest.mark.parametrize("direction", [toroidal.falling, toroidal.rising])
@pytest.mark.parametrize("size", [3, 4, 5, 6, 7, 8, 9])
def test_one_direction(size, direction):
    assert verdict(size, direction) == ("many" if size % 2 else "none")


def test_a_diagonal_runs_on_from_the_opposite_edge():
    board = plain(5).board
    names = [
        [board.name(cell) for cell in direction(board)[1].cells]
        for direction in (toroidal.falling, toroidal.rising)
    ]
    assert names == [
        ["r1c2", "r2c3", "r3c4", "r4c5", "r5c1"],
        ["r1c2", "r2c1", "r3c5", "r4c4", "r5c3"],
    ]


@pytest.mark.parametrize(("word", "count"), [("both", 14), ("falling", 7), ("rising", 7)])
def test_each_choice_has_a_sentence(word, count):
    text = f"kind: latin\nsize: 7\nrules:\n  toroidal: {word}\n"
    use = puzzle_from_text(text, "a.yaml").uses[-1]
    assert len(use.constraints) == count
    assert [saying.key for saying in use.sayings()] == [f"toroidal-{word}"]


def test_another_word_is_refused_in_its_place():
    with pytest.raises(Unreadable) as refused:
        puzzle_from_text("kind: latin\nsize: 7\nrules:\n  toroidal: fallin\n", "a.yaml")
    (problem,) = refused.value.problems
    assert (problem.place.line, problem.place.column) == (4, 13)
    assert 'did you mean "falling"' in problem.message
