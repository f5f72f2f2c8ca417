"""Whatever takes long looks at its deadline, and ends when it is over."""

import pytest

from tests.support.boards import plain
from verify.budget import NEVER, Budget, BudgetSpent, Deadline
from verify.check import check
from verify.formula import formula as formulas
from verify.formula import scan as scans
from verify.formula.formula import BETWEEN_LOOKS, Formula
from verify.formula.scan import Scan, diagram
from verify.ladder import ladder
from verify.manifest.read import puzzle_from_text
from verify.pencil import every_digit
from verify.proof.propagate import penciled, propagate
from verify.proof.solver import Allowance, Base
from verify.proof.verdict import prove
from verify.rules import BY_NAME
from verify.walk.facts.notes import Notes
from verify.walk.report.grade import GRADED
from verify.walk.suppose.trial import Trial
from verify.walk.techniques.deep_ifs import deep_ifs
from verify.walk.walk import walk
from verify.walk.ways.strikers import strikers_of


class Clock:
    """A clock that goes on by a second whenever somebody looks at it."""

    def __init__(self):
        self.looks = 0

    def __call__(self):
        self.looks += 1
        return float(self.looks)


def after_looks(looks):
    """A deadline that is over after so many looks."""
    return Deadline(looks + 0.5, Clock())


def add_without_end(formula):
    while True:
        formula.distinct(range(len(formula.pencil)))


def test_a_deadline_is_over_when_its_seconds_are():
    now = [10.0]
    deadline = Deadline.after(2, lambda: now[0])
    now[0] = 12.0
    deadline.check()
    assert deadline.left == 0
    now[0] = 12.001
    with pytest.raises(BudgetSpent):
        deadline.check()


def test_without_a_deadline_nothing_is_ever_over():
    NEVER.check()
    assert NEVER.left == float("inf")


def test_no_more_clauses_than_fit_between_two_looks_are_made_after_the_deadline():
    formula = Formula(25, [every_digit(25)] * 25, after_looks(3))
    with pytest.raises(BudgetSpent):
        add_without_end(formula)
    assert len(formula.clauses) <= 4 * BETWEEN_LOOKS


def test_a_formula_ends_where_there_is_no_room_for_more(monkeypatch):
    monkeypatch.setattr(formulas, "MOST_LITERALS", 5_000)
    formula = Formula(9, [every_digit(9)] * 9)
    with pytest.raises(BudgetSpent):
        add_without_end(formula)
    assert sum(map(len, formula.clauses)) <= 5_000 + BETWEEN_LOOKS + 18


def scan_of_nine_cells() -> Scan[tuple[int, ...]]:
    """Keeps every digit in mind, so that no two ways meet."""
    return Scan(tuple(range(9)), (), lambda so_far, _, digit: (*so_far, digit), lambda _: True)


def test_a_diagram_ends_where_there_is_no_room_for_more(monkeypatch):
    monkeypatch.setattr(scans, "MOST_EDGES", 1_000)
    every = scan_of_nine_cells()
    with pytest.raises(BudgetSpent):
        diagram(every, [every_digit(9)] * 9)


def test_a_diagram_looks_at_its_deadline_before_each_state():
    every = scan_of_nine_cells()
    deadline = after_looks(50)
    with pytest.raises(BudgetSpent):
        diagram(every, [every_digit(9)] * 9, deadline)
    assert deadline.clock.looks == 51


def test_propagation_looks_at_its_deadline_before_each_mark():
    puzzle = puzzle_from_text(BY_NAME["thermometer"].example)
    deadline = after_looks(4)
    with pytest.raises(BudgetSpent):
        propagate(list(puzzle.constraints()), penciled(puzzle), deadline)
    assert deadline.clock.looks == 5


def test_clauses_are_handed_to_the_solver_with_an_eye_on_the_deadline():
    clock = Clock()
    formula = Formula(9, [every_digit(9)] * 9, Deadline(10**6, clock))
    for _ in range(20):
        formula.distinct(range(9))
    clock.looks = 0
    Base(9, (), formula.pencil).open(formula)
    assert clock.looks >= len(formula.clauses) // 1_000


def test_a_base_has_room_for_so_many_houses_and_no_more():
    rows = [tuple(range(at, at + 25)) for at in range(0, 625, 25)]
    pencil = [every_digit(25)] * 625
    Base(25, tuple(rows), pencil)
    with pytest.raises(BudgetSpent):
        Base(25, tuple(rows * 97), pencil)


def test_a_house_that_a_manifest_tells_again_and_again_is_one():
    again = "rules: {extra-region: [" + ", ".join(["r1c1..r3c3"] * 5) + "]}"
    puzzle = puzzle_from_text(f"{{kind: latin, size: 9, {again}}}", "x.yaml")
    assert len(puzzle.houses()) == 9 + 9 + 1


def test_a_purse_is_empty_after_its_deadline():
    with pytest.raises(BudgetSpent):
        Allowance(100, after_looks(0)).slice()


@pytest.mark.parametrize("looks", [0, 1, 5])
def test_a_proof_without_time_is_undecided(looks):
    puzzle = puzzle_from_text(BY_NAME["cage"].example)
    assert prove(puzzle, deadline=after_looks(looks)).word == "undecided"


def test_a_proof_with_time_enough_has_the_verdict_of_one_without_a_clock():
    puzzle = puzzle_from_text(BY_NAME["cage"].example)
    timed = prove(puzzle, deadline=after_looks(10**9))
    assert timed.answers == prove(puzzle, deadline=NEVER).answers


def test_after_a_proof_without_time_the_next_one_has_its_verdict():
    puzzle = puzzle_from_text(BY_NAME["cage"].example)
    expected = prove(puzzle).answers
    for looks in range(0, 200, 7):
        prove(puzzle, deadline=after_looks(looks))
        assert prove(puzzle).answers == expected


HARD = """\
kind: sudoku
size: 9
givens: |
  1 . . . . . . . .
  . . . . . . . . .
  . . . . 5 . . . .
  . . . . . . . . .
  . . 9 . . . . . .
  . . . . . . . . .
  . . . . . 7 . . .
  . 4 . . . . . . .
  . . . . . . . . 2
"""


@pytest.mark.parametrize("looks", [0, 1, 10, 100, 300, 1000])
def test_a_walk_without_time_ends_where_it_is(looks):
    puzzle = puzzle_from_text(BY_NAME["cage"].example)
    whole = walk(puzzle)
    short = walk(puzzle, deadline=after_looks(looks))
    assert short.rounds == whole.rounds[: len(short.rounds)]
    assert short.cut_short == (not short.finished)


def test_a_walk_that_its_techniques_end_is_not_cut_short():
    path = walk(plain(4, (2, 2)))
    assert not path.finished
    assert not path.cut_short


def test_suppositions_are_followed_part_by_part(monkeypatch):
    notes = Notes(puzzle_from_text(HARD))
    candidates = tuple(notes.candidates())
    whole = Trial.of(notes, candidates)
    monkeypatch.setattr("verify.walk.suppose.trial.MOST_NUMBERS", 5_000)
    parts = Trial.of(notes, candidates)
    for _ in range(3):
        assert sorted(parts.advance()) == sorted(whole.advance())
    assert (parts.sheets == whole.sheets).all()


def test_a_look_stands_between_the_parts_of_a_trial(monkeypatch):
    monkeypatch.setattr("verify.walk.suppose.trial.MOST_NUMBERS", 1)
    notes = Notes(puzzle_from_text(HARD), deadline=after_looks(20))
    strikers_of(notes).refresh()
    with pytest.raises(BudgetSpent):
        Trial.of(notes, tuple(notes.candidates())).advance()


def test_deep_ifs_end_with_their_time():
    notes = Notes(puzzle_from_text(HARD), deadline=after_looks(3))
    with pytest.raises(BudgetSpent):
        list(deep_ifs(notes))


def test_a_ladder_ends_with_its_time():
    puzzle = puzzle_from_text(BY_NAME["thermometer"].example)
    (answer,) = prove(puzzle).answers
    with pytest.raises(BudgetSpent):
        ladder(puzzle, answer, GRADED[:3], after_looks(30))


def test_a_finding_without_time_is_undecided():
    puzzle = puzzle_from_text(BY_NAME["cage"].example)
    (finding,) = check([puzzle], Budget(seconds=1e-9))
    assert finding.verdict == "undecided"
