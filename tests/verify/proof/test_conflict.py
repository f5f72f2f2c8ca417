"""Conflicts: they leave no answer, and lose that when any one part is taken away, by CP-SAT."""

import random
from dataclasses import replace
from functools import partial
from itertools import count

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.support.boards import NEEDS_A_SEARCH, classic, plain
from tests.support.effort import effort
from tests.support.maker import with_givens
from tests.support.models import answers_with
from verify.budget import NEVER, Budget, Deadline
from verify.manifest.read import puzzle_from_text
from verify.proof.conflict import Conflict, conflict_of
from verify.proof.parts import GivenPart, MarkPart, parts_of
from verify.proof.verdict import prove
from verify.rule import Use
from verify.rules import BY_NAME, GROUND
from verify.rules.cells import odd
from verify.rules.lines import thermometer
from verify.rules.lines.thermometer import Thermometer

ANSWER = (1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 1)


def four(givens, *uses):
    return plain(4, (2, 2), givens, *uses)


def stands(puzzle, parts):
    """Whether CP-SAT finds an answer to the grid with these parts alone."""
    return bool(answers_with(puzzle, parts, most=1))


def is_smallest(puzzle, parts):
    """Whether parts are the puzzle's own, leave no answer, and would with any one taken away."""
    assert set(parts) <= set(parts_of(puzzle))
    assert not stands(puzzle, parts)
    return all(stands(puzzle, [*parts[:at], *parts[at + 1 :]]) for at in range(len(parts)))


def broken(puzzle, dice):
    """The puzzle with one more given, and that a wrong one."""
    (answer,) = prove(puzzle).answers
    cell = dice.choice([cell for cell in puzzle.board.cells if not puzzle.givens[cell]])
    wrong = answer[cell] % puzzle.board.digits + 1
    return with_givens(puzzle, [*puzzle.givens[:cell], wrong, *puzzle.givens[cell + 1 :]])


@pytest.mark.parametrize("name", sorted(BY_NAME))
def test_a_conflict_leaves_no_answer_and_has_no_part_to_spare(name):
    puzzle = broken(puzzle_from_text(BY_NAME[name].example, f"{name}.yaml"), random.Random(name))
    conflict = conflict_of(puzzle)
    assert conflict.smallest
    assert is_smallest(puzzle, conflict.parts)


@effort(0.3)
@given(seed=st.integers(0, 10**6), name=st.sampled_from(sorted(BY_NAME)))
def test_random_givens_in_every_rule(seed, name):
    dice = random.Random(seed)
    puzzle = puzzle_from_text(BY_NAME[name].example, f"{name}.yaml")
    for cell in dice.sample(puzzle.board.cells, 4):
        givens = list(puzzle.givens)
        givens[cell] = dice.randint(1, puzzle.board.digits)
        puzzle = with_givens(puzzle, givens)
    conflict = conflict_of(puzzle)
    assert (conflict is None) == stands(puzzle, parts_of(puzzle))
    assert conflict is None or is_smallest(puzzle, conflict.parts)


def test_two_equal_givens_in_a_house_are_told_before_all_else():
    puzzle = classic("5" + NEEDS_A_SEARCH[1:80] + "5")
    givens = [*puzzle.givens]
    givens[8] = 5
    assert conflict_of(with_givens(puzzle, givens)).parts == (GivenPart(0, 5), GivenPart(8, 5))


def test_a_mark_that_nothing_fits_is_told_before_equal_givens():
    snake = Thermometer((0, 1, 2, 3, 7))
    puzzle = four([1, *[0] * 7, 1, *[0] * 7], Use(thermometer.RULE, (snake,)))
    assert conflict_of(puzzle).parts == (MarkPart("thermometer", (snake,), snake),)


def test_a_mark_is_told_with_the_givens_that_break_it():
    rising = Thermometer((0, 5))
    puzzle = four([4, *[0] * 14, 2], Use(thermometer.RULE, (rising,)))
    conflict = conflict_of(puzzle)
    assert conflict.parts == (GivenPart(0, 4), MarkPart("thermometer", (rising,), rising))


def test_a_rule_without_marks_is_one_part():
    puzzle = puzzle_from_text(
        "kind: latin\nsize: 5\nrules:\n  anti-king: true\n"
        "givens: |\n  1 . . . .\n  . 1 . . .\n  . . . . .\n  . . . . .\n  . . . . .\n"
    )
    one, other, rule = conflict_of(puzzle).parts
    assert (one, other) == (GivenPart(0, 1), GivenPart(6, 1))
    assert (rule.rule, rule.drawn, len(rule.constraints) > 1) == ("anti-king", None, True)


def test_a_mark_that_is_a_house_needs_every_digit():
    """Two ones see every cell of the diagonal, and not each other."""
    puzzle = puzzle_from_text(
        "kind: latin\nsize: 4\nrules:\n  diagonals: falling\n"
        "givens: |\n  . 1 . .\n  . . . .\n  . . . 1\n  . . . .\n"
    )
    one, other, mark = conflict_of(puzzle).parts
    assert (one, other, mark.rule) == (GivenPart(1, 1), GivenPart(11, 1), "diagonals")


def test_a_grid_without_an_answer_needs_no_part():
    rows = ("a a a b", "c a b b", "c d d b", "c c d d")
    text = "kind: sudoku\nsize: 4\nrules:\n  regions: |\n" + "".join(f"    {r}\n" for r in rows)
    puzzle = puzzle_from_text(text)
    assert not stands(puzzle, ())
    assert conflict_of(puzzle) == Conflict(())
    assert conflict_of(with_givens(puzzle, [1, 1, *[0] * 14])) == Conflict(())


def test_a_puzzle_with_an_answer_has_no_conflict():
    assert conflict_of(four(ANSWER)) is None


def test_the_same_puzzle_has_the_same_conflict():
    puzzle = broken(classic(NEEDS_A_SEARCH), random.Random(3))
    assert len({conflict_of(puzzle) for _ in range(3)}) == 1


def test_nothing_is_told_after_the_deadline_but_what_is_plain():
    over = Budget(seconds=-1.0).deadline()
    assert conflict_of(broken(classic(NEEDS_A_SEARCH), random.Random(3)), over) is None
    assert conflict_of(four([1, 1, *[0] * 14]), over).parts == (GivenPart(0, 1), GivenPart(1, 1))


def test_what_can_not_be_made_smaller_in_time_says_so():
    """The clock stands until a first set is found, and is over before its parts are tried."""
    puzzle = broken(classic(NEEDS_A_SEARCH), random.Random(3))
    whole = len(conflict_of(puzzle, NEVER).parts)
    found = []
    for looks in range(1, 400):
        conflict = conflict_of(puzzle, Deadline(float(looks), partial(next, count())))
        if conflict is not None:
            assert not stands(puzzle, conflict.parts)
            found.append(conflict)
        if conflict is not None and conflict.smallest:
            break
    assert [conflict.smallest for conflict in found[-2:]] == [False, True]
    assert len(found[0].parts) > whole


def test_the_grids_own_rules_are_no_parts():
    for name in GROUND:
        puzzle = puzzle_from_text(BY_NAME[name].example)
        assert not [part for part in parts_of(puzzle) if getattr(part, "rule", "") in GROUND]


def test_marks_of_one_rule_are_parts_of_their_own():
    cells = puzzle_from_text("kind: latin\nsize: 4\nrules:\n  odd: [r1c1, r2c2]\n").uses[-1]
    assert cells.rule is odd.RULE
    puzzle = replace(four([2, *[0] * 15]), uses=(*four([]).uses, cells))
    given_two, mark = conflict_of(puzzle).parts
    assert (given_two, mark.cells) == (GivenPart(0, 2), (0,))
