"""Pushes that follow one another, word for word, on a sheet made by hand."""

import pytest

from layout.language.words import read_words
from layout.telling.flow import MOST_TOGETHER, Flow
from layout.telling.names import Names
from layout.telling.pushes import Pushes
from tests.support.boards import plain
from verify.pencil import bit
from verify.rule import Use
from verify.rules.cells import cage, greater, odd
from verify.rules.cells.cage import Cage
from verify.rules.cells.greater import Greater
from verify.rules.lines import thermometer
from verify.rules.lines.thermometer import Thermometer
from verify.rules.workings.parity import Parity
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Because, Step, Technique
from verify.walk.told.event import Based

EVERY = sum(map(bit, range(1, 10)))
SHAPES = (Thermometer((0, 10, 20)), Thermometer((60, 61, 62)), Thermometer((60, 70, 80)))
DISCS = tuple(Parity((cell,), 1) for cell in range(27, 27 + MOST_TOGETHER + 3))
SIGNS = (Greater((45, 46)), Greater((47, 46)))
CAGES = (Cage((54, 55), 3, 9), Cage((56, 57), 17, 9))
PUZZLE = plain(
    9,
    (3, 3),
    (),
    Use(thermometer.RULE, SHAPES),
    Use(odd.RULE, DISCS),
    Use(greater.RULE, SIGNS),
    Use(cage.RULE, CAGES),
)
LINKS = {link.constraint: link for link in Notes(PUZZLE).links}
EVEN = sum(map(bit, (2, 4, 6, 8)))


def digits(*some):
    return sum(map(bit, some))


def push(constraint, removes, technique=Technique.MARK, chosen=0, houses=(), **needs):
    cells = {PUZZLE.board.name(cell): cell for cell in PUZZLE.board.cells}
    link = LINKS[constraint]
    because = Because(tuple(sorted(constraint.cells)), chosen, houses, (link,))
    step = Step(technique, because, removes=tuple(removes.items()), rule=link.rule)
    return Based(step, tuple((cells[name], mask) for name, mask in needs.items()))


WARM = push(SHAPES[0], {10: digits(2, 3)}, r1c1=digits(1, 2))
COLD = push(SHAPES[1], {61: digits(1)})


def is_odd(number):
    return push(DISCS[number], {DISCS[number].cells[0]: EVEN})


class Told:
    """A flow of pushes, each done on the sheet after it was told."""

    def __init__(self, language="en", in_full=False):
        names, self.notes = Names(PUZZLE, read_words(language)), Notes(PUZZLE)
        self.pushes = Pushes(names, self.notes)
        self.flow = Flow(names, self.pushes, in_full=in_full)

    def __call__(self, based):
        tell = self.flow.join if self.flow.joins(based) else self.flow.tell
        told = tell(based, self.pushes.left(based))
        self.notes.apply([based.step])
        return told

    def placed(self, cell, digit, spoken=True):
        self.notes.place(cell, digit)
        self.flow.placed(cell, digit, spoken=spoken)


@pytest.mark.parametrize(
    ("language", "first", "second"),
    [
        ("en", "The thermometer from r7c7 to r7c9 rises", "r1c1 is at least 3, so along the"),
        ("de", "Das Thermometer von r7c7 bis r7c9", "r1c1 ist mindestens 3; am Thermometer folgt"),
    ],
)
def test_a_rule_is_told_in_full_once_and_in_passing_from_there_on(language, first, second):
    told = Told(language)
    assert told(COLD).startswith(first[:20])
    assert told(WARM).startswith(second)
    told.flow.begin()
    assert told(WARM).startswith(second)


def test_to_a_first_timer_each_is_told_in_full():
    told = Told(in_full=True)
    told(COLD)
    assert "The thermometer from r1c1 rises over 3 cells: " in told(WARM)


def test_a_mark_is_named_where_another_lies_on_the_same_cells():
    told = Told()
    told(WARM)
    shared = push(SHAPES[1], {60: digits(9)})
    assert "the thermometer from r7c7 to r7c9" in told(shared).lower()


def test_what_was_just_said_is_not_said_again():
    told, others = Told(), EVERY & ~digits(1, 2)
    told(push(CAGES[0], {54: others}))
    assert told(push(CAGES[0], {55: others}, r7c1=others)) == "So r7c2 is 1 or 2."


def test_what_is_known_otherwise_is_said():
    """Of a cell of which more was said, and of one of which all was said before a run."""
    told = Told()
    told(COLD)
    told(push(SHAPES[0], {0: digits(1, 2, 3)}))
    assert told(WARM) == "r1c1 is at least 3, so r2c2 is 4 to 8."
    told.placed(40, 5)
    assert told(WARM).startswith("r1c1 is at least 3, so ")


@pytest.mark.parametrize("spoken", [True, False])
def test_a_push_goes_on_from_a_digit_just_placed(spoken):
    told = Told()
    told(COLD)
    told.placed(0, 5, spoken)
    needs = EVERY & ~digits(5)
    placed = push(SHAPES[0], {10: digits(4)}, r1c1=needs)
    assert told(placed).startswith("Then along the thermometer, r2c2 is ")


def test_from_the_third_digit_of_a_run_back_it_is_said():
    told = Told()
    told(COLD)
    for cell, digit in ((0, 5), (40, 6), (50, 7)):
        told.placed(cell, digit)
    placed = push(SHAPES[0], {10: digits(4)}, r1c1=EVERY & ~digits(5))
    assert told(placed).startswith("r1c1 is 5, so along the thermometer, ")


def test_a_run_that_is_not_told_is_forgotten():
    told = Told()
    told(COLD)
    told.placed(0, 5)
    told.flow.forget()
    placed = push(SHAPES[0], {10: digits(4)}, r1c1=EVERY & ~digits(5))
    assert told(placed).startswith("r1c1 is 5, so along the thermometer, ")


def test_marks_that_nothing_pushes_are_told_together():
    told = Told()
    assert told(is_odd(0)) == "The grey disc at r4c1 holds an odd one: r4c1 is odd."
    assert told(is_odd(2)) == "In its grey disc, r4c3 is odd."
    assert told(is_odd(1)) == "In their grey discs, r4c2 and r4c3 are odd."
    told.placed(40, 5)
    assert told(is_odd(3)) == "In its grey disc, r4c4 is odd."


def test_no_more_than_so_many_are_told_together():
    told = Told("de")
    sentences = [told(is_odd(number)) for number in range(MOST_TOGETHER + 2)]
    assert sentences[-2].startswith("In den grauen Kreisen folgt: r4c2, r4c3")
    assert sentences[-1] == "Im grauen Kreis folgt: r5c1 ist ungerade."


def test_several_marks_on_one_cell_leave_what_each_leaves():
    told = Told()
    told(push(SIGNS[0], {45: digits(1)}))
    told.flow.begin()
    told(push(SIGNS[0], {45: digits(2)}))
    assert told(push(SIGNS[1], {47: digits(1), 46: digits(9)})).startswith("By their signs, r6c1")


def test_a_sum_in_passing_has_the_ways_to_make_it():
    told = Told()
    told(push(CAGES[0], {54: EVERY & ~digits(1, 2)}))
    assert told(push(CAGES[1], {56: digits(1, 2, 3, 4, 5, 6, 7)})) == (
        "In the cage of 17 (8 + 9), r7c3 is 8 or 9."
    )


def test_a_mark_that_needs_a_digit_in_a_house():
    row = next(house for house in Notes(PUZZLE).houses if 54 in house.cells)
    column = next(h for h in Notes(PUZZLE).houses if 54 in h.cells and h.kind == "column")
    needs = [
        push(CAGES[0], {62: digits(digit)}, Technique.ARRANGEMENTS, digits(digit), (row,))
        for digit in (1, 2)
    ]
    told = Told()
    assert "r7c1 and r7c2: it takes 1 in row 7, so r7c9 is at least 2." in told(needs[0])
    assert "it takes 1 and 2 in row 7, so r7c9 is at least 3." in told(needs[1])
    told.flow.begin()
    assert told(needs[1]).startswith("In the cage of 3 (1 + 2), it takes 2 in row 7: r7c9 is at")
    assert not told.flow.joins(push(CAGES[1], {62: digits(8)}, Technique.ARRANGEMENTS, digits(8)))
    apart = push(CAGES[0], {54: digits(9)}, Technique.ARRANGEMENTS, houses=(column,))
    assert told(apart).startswith("In the cage of 3 (1 + 2; no repeats in column 1), r7c1 is")


def test_where_a_thing_is_seen_is_said_once():
    told = Told(in_full=True)
    for cell, digit in ((8, 1), (18, 2)):
        told.notes.place(cell, digit)
    assert "(1 in its row, 2 in its column)" in told(WARM)
    told.flow.begin()
    assert "(" not in told(WARM)
