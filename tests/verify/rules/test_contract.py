"""What every rule owes the house, run over the whole list of rules."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.support.counting import formula_answers, plain_answers, stamped_answers
from tests.support.draws import cases, moves
from tests.support.effort import effort
from tests.support.models import model_answers, puzzle_answers
from tests.support.rules import support
from tests.support.sowing import sown
from verify.manifest.read import puzzle_from_text
from verify.move import TURNS, Disguise, Move
from verify.pencil import every_digit
from verify.proof.verdict import prove
from verify.rules import BY_NAME, RULES
from verify.rules.workings.distinct import Distinct

NAMES = [rule.name for rule in RULES]
EVERY_RULE = pytest.mark.parametrize("name", NAMES)


def test_no_name_stands_twice():
    assert len(BY_NAME) == len(RULES)


@EVERY_RULE
@effort(2)
@given(data=st.data())
def test_clauses_plain_check_and_model_agree(name, data):
    case = data.draw(cases(name))
    by_formula = list(formula_answers(case.board.digits, case.pencil, case.constraints))
    by_check = list(plain_answers(case.pencil, case.constraints))
    by_model = model_answers(case.board, case.pencil, case.constraints, most=10**6)
    assert sorted(by_formula) == by_check
    assert sorted(by_model) == by_check


@EVERY_RULE
@given(data=st.data())
def test_stamped_clauses_in_houses_agree_with_the_plain_check(name, data):
    """Rows and columns as houses, where there are as many cells as digits in each."""
    case = data.draw(cases(name))
    board = case.board
    rows = [
        tuple(at for at in board.cells if board.place(at)[0] == row) for row in range(board.rows)
    ]
    columns = [tuple(line) for line in zip(*rows, strict=True)]
    houses = tuple(line for line in (*rows, *columns) if len(line) == board.digits)
    distinct = [Distinct("row", house) for house in houses]
    by_formula = sorted(stamped_answers(board.digits, case.pencil, case.constraints, houses))
    assert by_formula == list(plain_answers(case.pencil, [*case.constraints, *distinct]))


@EVERY_RULE
@effort(2)
@given(data=st.data())
def test_strikes_are_entailed_by_the_mark_alone(name, data):
    case = data.draw(cases(name, most_marks=1))
    (constraint,) = case.constraints
    allowed = list(plain_answers(case.pencil, case.constraints))
    for strike in constraint.strikes(case.pencil):
        assert set(strike.because) <= set(constraint.cells)
        for cell, mask in strike.removes:
            assert mask, "a strike that strikes nothing"
            assert mask & ~case.pencil[cell] == 0, "a strike of what is not there"
            assert not any(mask >> answer[cell] & 1 for answer in allowed)


@EVERY_RULE
@given(data=st.data())
def test_the_reasons_of_a_strike_suffice(name, data):
    """Where all but the cells that it names may hold any digit, it still follows."""
    case = data.draw(cases(name, most_marks=1))
    (constraint,) = case.constraints
    for because, removes in by_reasons(constraint.strikes(case.pencil)).items():
        every = (2 << case.board.digits) - 2
        some = 2  # nothing is asked of a cell that is not the mark's
        known = [every if cell in constraint.cells else some for cell in case.board.cells]
        for cell in because:
            known[cell] = case.pencil[cell]
        for answer in plain_answers(known, case.constraints):
            assert not any(mask >> answer[cell] & 1 for cell, mask in removes)


def by_reasons(strikes):
    """What is struck, by the cells whose marks are the reason."""
    found = {}
    for strike in strikes:
        found.setdefault(frozenset(strike.because), []).extend(strike.removes)
    return found


@EVERY_RULE
@given(data=st.data())
def test_a_placed_board_that_breaks_the_rule_is_struck_or_left_to_the_clauses(name, data):
    """On a full grid the clauses alone must decide as the plain check does."""
    case = data.draw(cases(name))
    grid = tuple(data.draw(st.integers(1, case.board.digits)) for _ in case.pencil)
    placed = [1 << digit for digit in grid]
    kept = all(constraint.holds(grid) for constraint in case.constraints)
    assert list(formula_answers(case.board.digits, placed, case.constraints)) == [grid] * kept


@EVERY_RULE
def test_the_example_has_one_answer_and_uses_the_rule(name):
    puzzle = puzzle_from_text(BY_NAME[name].example, f"{name}.yaml")
    assert name in [use.rule.name for use in puzzle.uses]
    verdict = prove(puzzle)
    assert verdict.word == "one"
    assert puzzle_answers(puzzle) == [verdict.answers[0]]


@EVERY_RULE
def test_a_rule_tells_what_it_is(name):
    rule = BY_NAME[name]
    assert rule.meaning.endswith(".")
    assert rule.marks
    puzzle = puzzle_from_text(rule.example, f"{name}.yaml")
    (use,) = [use for use in puzzle.uses if use.rule.name == name]
    assert use.sayings()
    assert all(saying.count > 0 for saying in use.sayings())


@EVERY_RULE
@given(data=st.data())
def test_a_rule_survives_the_disguises_that_it_names(name, data):
    """A grid that keeps the marks keeps them moved; one that a single cell breaks does not.

    Where no grid at all keeps the marks, none keeps them moved.
    """
    case = data.draw(cases(name))
    every = (every_digit(case.board.digits),) * len(case.pencil)
    digits, marks = case.board.digits, case.constraints
    kept = answer_of(digits, case.pencil, marks) or answer_of(digits, every, marks)
    move = data.draw(moves(case.board, BY_NAME[name].survives))
    moved = [constraint.moved(move) for constraint in case.constraints]
    if kept is None:
        assert answer_of(digits, every, moved) is None
        return
    assert all(constraint.holds(kept) for constraint in case.constraints)
    assert all(constraint.holds(move.grid(kept)) for constraint in moved)
    broken = [grid for grid in off_by_one(case, kept) if not keeps(case.constraints, grid)]
    for grid in broken:
        before = [constraint.holds(grid) for constraint in case.constraints]
        assert [constraint.holds(move.grid(grid)) for constraint in moved] == before


def answer_of(digits, pencil, constraints):
    return next(formula_answers(digits, pencil, constraints), None)


def keeps(constraints, grid):
    return all(constraint.holds(grid) for constraint in constraints)


def off_by_one(case, grid):
    """The grids with another digit in one cell."""
    for cell in case.board.cells:
        for digit in range(1, case.board.digits + 1):
            if digit != grid[cell]:
                yield (*grid[:cell], digit, *grid[cell + 1 :])


@EVERY_RULE
def test_marks_of_a_whole_puzzle_survive_every_turn_and_break_by_one_cell(name):
    """Marks sown in a full 6x6 grid, which no turn of the board lays on itself."""
    puzzle, answer = sown(name, 6, seed=1)
    assert len({move.grid(answer) for move in all_turns(puzzle.board)}) == len(TURNS)
    marks = next(use.constraints for use in puzzle.uses if use.rule.name == name)
    turns = all_turns(puzzle.board) if Disguise.TURN in BY_NAME[name].survives else ()
    for move in turns:
        moved = [mark.moved(move) for mark in marks]
        assert all(mark.holds(move.grid(answer)) for mark in moved)
        assert any(not mark.holds(move.grid(grid)) for mark in moved for grid in near(answer, 6))
        for grid in near(answer, 6):
            before = [mark.holds(grid) for mark in marks]
            assert [mark.holds(move.grid(grid)) for mark in moved] == before


def near(answer, digits):
    """The grid with each cell in turn one digit on."""
    for cell, digit in enumerate(answer):
        yield (*answer[:cell], digit % digits + 1, *answer[cell + 1 :])


def all_turns(board):
    """The board turned and reflected, and nothing else."""
    rows, columns = tuple(range(board.rows)), tuple(range(board.columns))
    return [Move(board, rows, columns, turn, tuple(range(board.digits + 1))) for turn in TURNS]


@EVERY_RULE
def test_sown_marks_hold_in_the_answer_that_they_were_sown_from(name):
    puzzle, answer = sown(name, 6, seed=1)
    assert all(constraint.holds(answer) for constraint in puzzle.constraints())
    assert any(use.rule.name == name for use in puzzle.uses)
    assert hasattr(support(name), "sow") != hasattr(support(name), "before")
