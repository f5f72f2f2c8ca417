"""Groups of cages that can't be, their letters, and the sums that are left to them."""

import pytest

from verify.manifest.read import puzzle_from_text
from verify.marks import Cage
from verify.pencil import digits_of, every_digit
from verify.proof.propagate import propagate
from verify.reading.problems import Unreadable
from verify.rules.cells.equal_cages import EqualCages

HEAD = "kind: sudoku\nsize: 6\nrules:\n  equal-cages:\n"


def read(*groups):
    puzzle = puzzle_from_text(HEAD + "".join(f"    - {group}\n" for group in groups), "e.yaml")
    (use,) = [use for use in puzzle.uses if use.rule.name == "equal-cages"]
    return puzzle.board, use


def test_each_group_has_its_letter():
    board, use = read("[r1c1 e, r2c1 e]", "[r3c1, r4c1, r5c1]")
    assert use.constraints == (EqualCages(((0, 1), (6, 7))), EqualCages(((12,), (18,), (24,))))
    assert use.marks(board) == tuple(
        Cage("equal-cages", cells, letter)
        for cells, letter in [
            ((0, 1), "A"),
            ((6, 7), "A"),
            ((12,), "B"),
            ((18,), "B"),
            ((24,), "B"),
        ]
    )


@pytest.mark.parametrize(
    ("groups", "place", "message"),
    [
        (["r1c1 e"], (5, 7), 'found "r1c1 e", expected a list of two cages or more'),
        (["[r1c1 e]"], (5, 7), "found a list, expected a list of two cages or more"),
        (["[r1c1 e, r1c2 s]"], (5, 16), "found r1c2 in a second cage"),
        (["[r1c1, r2c1]", "[r3c1, r2c1]"], (6, 14), "found r2c1 in a second cage"),
        (["[r1c1 r2c2, r3c3 e]"], (5, 8), "found a cage in several parts"),
        (["[r1c1..r2c4, r3c3 e]"], (5, 8), "found a cage of 8 cells, expected at most 6"),
        (["[r1c1 e, r2c1 4e]"], (5, 7), "found cages of 2 and of 5 cells"),
    ],
)
def test_slips_are_told_at_their_place(groups, place, message):
    with pytest.raises(Unreadable) as refused:
        read(*groups)
    (problem,) = refused.value.problems
    assert (problem.place.line, problem.place.column) == place
    assert problem.message.startswith(message)


def test_four_cells_that_sum_to_what_two_can():
    # On six digits two cells make at most 11, four at least 10: 46 or 56 beside 1234 or 1235.
    _, use = read("[r1c1 e, r2c1 3e]")
    pencil = [every_digit(6)] * 36
    assert propagate(use.constraints, pencil)
    left = ["".join(map(str, digits_of(pencil[cell]))) for cell in use.constraints[0].cells]
    assert left == ["456", "456", "12345", "12345", "12345", "12345"]


def test_sums_of_equal_digits_do_not_count():
    # Two cells of 2 and 3 sum to 5 alone, where they must differ.
    pencil = [0b1100, 0b1100, 0b111110, 0b111110]
    assert propagate([EqualCages(((0, 1), (2, 3)))], pencil)
    assert ["".join(map(str, digits_of(mask))) for mask in pencil[2:]] == ["1234", "1234"]


def test_cages_of_too_many_sets_are_summed_as_if_digits_could_repeat():
    # On 16 digits eight cells have 12,870 sets; eight digits of 1 and above reach 8, and one 16.
    pencil = [every_digit(16)] * 9
    cages = EqualCages((tuple(range(8)), (8,)))
    struck = {cell: mask for strike in cages.strikes(pencil) for cell, mask in strike.removes}
    assert [list(digits_of(struck[cell])) for cell in (0, 7)] == [list(range(10, 17))] * 2
    assert list(digits_of(struck[8])) == list(range(1, 8))
