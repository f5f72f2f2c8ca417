"""What a step rests on: just what must be missing, by techniques."""

import pytest

from tests.support.boards import plain
from tests.support.told import unproved
from verify.pencil import bit
from verify.rule import Use
from verify.rules.cells import cage
from verify.rules.cells.cage import Cage
from verify.rules.lines import thermometer
from verify.rules.lines.thermometer import Thermometer
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Because, Consequence, Step, Technique
from verify.walk.techniques.arrangements import arrangements
from verify.walk.techniques.house_sums import house_sums
from verify.walk.techniques.order import order
from verify.walk.told.event import Event
from verify.walk.told.premises import Premises, step_needs, struck_by

SHAPE = Thermometer((0, 10, 20))
CAGES = (Cage((0, 1), 3, 9), Cage((2, 3), 17, 9))
WARM = plain(9, (3, 3), (), Use(thermometer.RULE, (SHAPE,)))
CAGED = plain(9, (3, 3), (), Use(cage.RULE, CAGES))


def digits(*some):
    return sum(map(bit, some))


def but(*some):
    return digits(*range(1, 10)) & ~digits(*some)


def sheet(puzzle, **left):
    """A sheet on which cells, by their names, hold so much."""
    notes = Notes(puzzle)
    cells = {puzzle.board.name(cell): cell for cell in puzzle.board.cells}
    for name, mask in left.items():
        notes.strike(cells[name], ~mask & but())
    return notes


def based(notes, step, removes=None, dear=lambda cell, digit: 0.0):
    event = Event(step, tuple(notes.pencil), notes.placed)
    found = Premises(notes).based(event, removes or step.removes, dear)
    assert unproved(notes.puzzle, found) == []
    assert found.stands_on(notes.pencil)
    return dict(found.needs)


def by_mark(notes, *removes):
    link = notes.links[0]
    because = Because(tuple(link.constraint.cells), 0, (), (link,))
    return Step(Technique.MARK, because, removes=removes, rule=link.rule)


def test_a_push_names_the_digit_that_pushes_and_no_others():
    notes = sheet(WARM, r1c1=but(1, 2, 9), r3c3=but(1, 2, 5))
    assert based(notes, by_mark(notes, (10, digits(3)))) == {0: digits(1, 2)}


def test_a_push_that_the_mark_does_by_itself_needs_nothing():
    notes = sheet(WARM, r1c1=but(1))
    assert based(notes, by_mark(notes, (10, digits(1)), (20, digits(1, 2)))) == {}


def test_of_what_would_do_the_dear_one_is_done_without():
    """Either end keeps the 5 out of the middle: nothing below it, or nothing above it."""
    notes = sheet(WARM, r1c1=but(1, 2, 3, 4), r3c3=but(6, 7, 8, 9))
    step = by_mark(notes, (10, digits(5)))
    assert based(notes, step, dear=lambda cell, digit: float(cell == 0)) == {20: digits(6, 7, 8, 9)}
    assert based(notes, step, dear=lambda cell, digit: float(cell == 20)) == {0: digits(1, 2, 3, 4)}


def test_only_so_many_of_the_strikes_are_reasoned_for():
    notes = sheet(WARM, r1c1=but(1, 2))
    step = by_mark(notes, (10, digits(2, 3)))
    assert based(notes, step, [(10, digits(2))]) == {0: digits(1)}


def test_order_needs_what_is_missing_beyond():
    notes = Notes(WARM)
    notes.strike(10, digits(9))
    notes.strike(20, digits(8, 9))
    (step, *_) = order(notes)
    needs = based(notes, step)
    assert needs
    assert set(needs) <= {10, 20}


def test_a_house_sum_needs_what_leaves_too_few_ways():
    puzzle = plain(4, (2, 2), (), Use(cage.RULE, (Cage((0, 1, 2), 6, 4),)))
    notes = Notes(puzzle)
    (step,) = [each for each in house_sums(notes) if dict(each.removes).keys() == {3}]
    assert based(notes, step) == {}


def test_arrangements_need_what_rules_them_out():
    puzzle = plain(9, (3, 3), (), Use(cage.RULE, (Cage((0, 1, 9), 6, 9),)))
    notes = sheet(puzzle, r1c1=digits(1, 2, 3), r1c2=digits(1, 2, 3), r2c1=digits(1, 2))
    steps = list(arrangements(notes))
    assert steps
    for step in steps:
        based(notes, step)


# --- what techniques say themselves

ROW = next(house for house in Notes(WARM).houses if house.kind == "row")


def needs_of(step, notes=None):
    notes = notes or Notes(WARM)
    return step_needs(step, Event(step, tuple(notes.pencil), notes.placed))


def in_row(technique, *some, cells=ROW.cells, **does):
    return Step(technique, Because(cells, digits(*some), (ROW,)), **does)


def test_a_place_in_a_house_needs_the_digit_gone_from_all_others():
    step = in_row(Technique.HIDDEN_SINGLE, 5, places=((3, 5),))
    assert needs_of(step) == {cell: digits(5) for cell in range(9) if cell != 3}


def test_a_single_left_needs_all_other_digits_gone():
    (needs,) = needs_of(Step(Technique.NAKED_SINGLE, Because((3,), 32), ((3, 5),))).items()
    assert needs[0] == 3
    assert needs[1] & but() == but(5)


@pytest.mark.parametrize(
    ("technique", "chosen"),
    [(Technique.NAKED_PAIR, (1, 2)), (Technique.NAKED_TRIPLE, (1, 2, 3))],
)
def test_a_naked_set_needs_all_but_its_digits_gone(technique, chosen):
    cells = tuple(range(len(chosen)))
    needs = needs_of(in_row(technique, *chosen, cells=cells, removes=((8, 2),)))
    assert {cell: mask & but() for cell, mask in needs.items()} == {
        cell: but(*chosen) for cell in cells
    }


def test_a_hidden_set_needs_its_digits_gone_where_they_are():
    notes = Notes(WARM)
    for cell in range(2, 9):
        notes.strike(cell, digits(1, 2))
    needs = needs_of(in_row(Technique.HIDDEN_PAIR, 1, 2, removes=((0, digits(5)),)), notes)
    assert {cell: mask for cell, mask in needs.items() if mask} == {
        cell: digits(1, 2) for cell in range(2, 9)
    }


def test_a_supposition_needs_what_it_counts_on():
    chain = (Consequence(0, 5), Consequence(1, 6))
    step = Step(
        Technique.SHORT_IF,
        Because((0,), digits(5)),
        removes=((0, digits(5)),),
        chain=chain,
        counts=((4, digits(3)), (5, digits(1, 2))),
    )
    assert needs_of(step) == {4: digits(3), 5: digits(1, 2)}


def test_a_mark_strikes_until_it_strikes_no_more():
    held = [but()] * 81
    held[0] = but(1, 2, 3)
    assert struck_by(SHAPE.strikes, held, [(20, digits(1, 2, 3, 4, 5))])
    assert not struck_by(SHAPE.strikes, held, [(20, digits(6))])
    assert held[20] == but()
