"""Verdicts: the four words, the cells that differ, budgets, and the check of each answer."""

import random
from dataclasses import dataclass, replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.support import maker
from tests.support.boards import NEEDS_A_SEARCH, classic, plain
from tests.support.counting import formula_answers
from tests.support.effort import effort
from tests.support.models import puzzle_answers
from verify.budget import Budget, BudgetSpent
from verify.formula.formula import Formula
from verify.manifest.read import puzzle_from_text
from verify.pencil import every_digit
from verify.proof.propagate import penciled, propagate
from verify.proof.solver import Base, forget, shared_base
from verify.proof.verdict import ProofFault, prove
from verify.rule import Use
from verify.rules import BY_NAME
from verify.rules.lines import thermometer
from verify.rules.lines.thermometer import Thermometer
from verify.rules.workings.parts import nothing_drawn

ANSWER = (1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 1)


def four(givens):
    return plain(4, (2, 2), givens)


def test_one():
    verdict = prove(four([*ANSWER[:12], 0, 0, 0, 0]))
    assert (verdict.word, verdict.answers, verdict.printable) == ("one", (ANSWER,), True)


def test_a_full_board_is_its_own_answer():
    assert prove(four(ANSWER)).answers == (ANSWER,)


def test_none():
    assert prove(four([1, 1, *[0] * 14])).word == "none"
    assert prove(four([1, 2, 3, 0, 0, 0, 0, 4, *[0] * 8])).word == "none"


def test_undecided_when_the_budget_is_spent():
    hard = classic(NEEDS_A_SEARCH)
    assert prove(hard).word == "one"
    assert prove(hard, Budget(conflicts=0)).word == "undecided"
    assert prove(hard, Budget(seconds=0.0)).word == "undecided"


def test_the_constructors_answer_is_held_against_ours():
    givens = [*ANSWER[:12], 0, 0, 0, 0]
    other = (*ANSWER[:12], 4, 3, 1, 2)
    assert prove(replace(four(givens), answer=ANSWER)).printable
    verdict = prove(replace(four(givens), answer=other))
    assert (verdict.word, verdict.contradicts, verdict.printable) == ("one", (14, 15), False)


@given(st.data())
def test_word_and_differing_cells_agree_with_every_answer(data):
    paths = [[0, 1, 5], [15, 11, 10], [3, 6], [12, 13]]
    path = data.draw(st.sampled_from(paths))
    use = Use(thermometer.RULE, (Thermometer(tuple(path)),))
    kept = data.draw(st.lists(st.booleans(), min_size=16, max_size=16))
    givens = [digit if keep else 0 for digit, keep in zip(ANSWER, kept, strict=True)]
    puzzle = plain(4, (2, 2), givens, use)
    every = list(formula_answers(4, penciled(puzzle), use.constraints, houses=puzzle.houses()))
    verdict = prove(puzzle)
    assert verdict.word == ("none", "one", "many")[min(len(every), 2)]
    assert set(verdict.answers) <= set(every)
    if verdict.word == "many":
        assert len(set(verdict.answers)) == 2
        differs = tuple(cell for cell in range(16) if len({answer[cell] for answer in every}) > 1)
        assert verdict.differs == differs


@effort(0.6)
@given(st.integers(0, 10**6))
def test_random_puzzles_agree_with_the_independent_model(seed):
    dice = random.Random(seed)
    puzzle = maker.make(plain(6, (2, 3)), seed, keep=dice.randrange(3))
    assert puzzle_answers(puzzle) == list(prove(puzzle).answers)
    open_again = [0 if dice.random() < 0.2 else digit for digit in puzzle.givens]
    fewer = maker.with_givens(puzzle, open_again)
    assert prove(fewer).word == ("one" if len(puzzle_answers(fewer)) == 1 else "many")


def test_verdicts_do_not_depend_on_the_puzzles_before():
    many = four([1, 2, 3, 4, *[0] * 12])
    alone = prove(many)
    for seed in range(30):
        prove(maker.make(plain(4, (2, 2)), seed))
        assert replace(prove(many), seconds=0) == replace(alone, seconds=0)


@pytest.mark.parametrize("digits", [1, 2, 3, 4])
def test_a_digit_in_a_cell_leaves_the_other_digits_and_the_other_cells_of_its_house(digits):
    house = tuple(range(digits))
    formula = Formula(digits, [every_digit(digits)] * digits)
    session = Base(digits, (house,), formula.pencil).open(formula)
    sound, follows = session.follows(formula.literal(0, 1))
    assert sound
    gone = [(0, digit) for digit in range(2, digits + 1)] + [(cell, 1) for cell in house[1:]]
    assert {-formula.literal(*each) for each in gone} <= set(follows)


def test_a_base_is_given_up_before_its_guards_run_out():
    houses = plain(4, (2, 2)).houses()
    for _ in range(600):
        assert prove(four([*ANSWER[:12], 0, 0, 0, 0])).word == "one"
    assert not shared_base(four(ANSWER).board, houses).spent


@pytest.mark.parametrize("name", sorted(n for n in BY_NAME if BY_NAME[n].draw is nothing_drawn))
def test_what_rules_say_of_the_whole_board_is_known_to_the_base(name):
    """The first puzzle of a board is decided alone, the next ones on a base that is kept."""
    puzzle = puzzle_from_text(BY_NAME[name].example)
    (answer,) = prove(puzzle).answers
    forget()
    assert [prove(puzzle).answers for _ in range(3)] == [(answer,)] * 3
    fewer = maker.with_givens(puzzle, [0] * len(puzzle.givens))
    assert prove(fewer).word == "many"
    wrong = [digit % puzzle.board.digits + 1 for digit in answer[:1]] + list(answer[1:])
    assert prove(maker.with_givens(puzzle, wrong)).word == "none"
    formula = Formula(puzzle.board.digits, penciled(fewer))
    for constraint in puzzle.constraints():
        constraint.clauses(formula)
    assert formula.fresh() == Formula(puzzle.board.digits, penciled(fewer)).fresh()


@pytest.mark.parametrize("name", ["boxes", "regions", "windows", "thermometer"])
def test_a_long_search_comes_to_the_same(name, monkeypatch):
    """Nothing is decided by a short search, as if it had spent its conflicts."""
    puzzle = puzzle_from_text(BY_NAME[name].example)
    answer = prove(puzzle).answers[0]
    digits = puzzle.board.digits
    few = [digit if cell % 5 == 0 else 0 for cell, digit in enumerate(answer)]
    wrong = [answer[0] % digits + 1, *answer[1:]]
    puzzles = [puzzle, *(maker.with_givens(puzzle, each) for each in (few, wrong, answer))]
    expected = [prove(each) for each in puzzles]
    monkeypatch.setattr("verify.proof.verdict.first_answers", spend)
    for before, each in zip(expected, map(prove, puzzles), strict=True):
        assert (each.word, each.differs) == (before.word, before.differs)
        assert each.word == "many" or each.answers == before.answers
    assert prove(puzzle, Budget(seconds=-1.0)).word == "undecided"


def test_a_long_search_finds_that_there_is_none(monkeypatch):
    hard = classic(NEEDS_A_SEARCH)
    (answer,) = prove(hard).answers
    monkeypatch.setattr("verify.proof.verdict.first_answers", spend)
    wrong = [
        maker.with_givens(hard, [*hard.givens[:cell], digit, *hard.givens[cell + 1 :]])
        for cell in hard.board.cells
        for digit in range(1, 10)
        if not hard.givens[cell] and digit != answer[cell]
    ]
    unseen = [each for each in wrong if propagate(list(each.constraints()), penciled(each))]
    assert len(unseen) > 100
    assert {prove(each).word for each in unseen[::8]} == {"none"}


def spend(*_):
    raise BudgetSpent


@dataclass(frozen=True)
class Lie:
    """A constraint whose clauses ask for less than its plain check."""

    cells: tuple[int, ...] = (0,)

    def clauses(self, formula):
        pass

    def holds(self, grid):
        return grid[0] != ANSWER[0]

    def strikes(self, pencil):
        return ()


def test_no_answer_is_believed_that_fails_the_plain_check():
    lying = plain(4, (2, 2), ANSWER, Use(thermometer.RULE, (Lie(),)))
    with pytest.raises(ProofFault):
        prove(lying)


@pytest.mark.parametrize("given_digit", [1, 2, 4])
def test_no_answer_is_believed_that_changes_a_given(given_digit, monkeypatch):
    """Every rule holds in it, but the first cell was given as something else."""
    answer = (3, 4, 1, 2, 1, 2, 3, 4, 4, 3, 2, 1, 2, 1, 4, 3)
    monkeypatch.setattr("verify.proof.verdict._decide", lambda *_: ("one", (answer,), (), True))
    assert prove(four([3, *[0] * 15])).answers == (answer,)
    with pytest.raises(ProofFault):
        prove(four([given_digit, *[0] * 15]))
