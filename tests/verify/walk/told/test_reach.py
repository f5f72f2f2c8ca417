"""How far a mark reaches by what is told of its cells alone."""

from dataclasses import dataclass
from itertools import pairwise

from tests.support.boards import plain
from verify.pencil import Strike, bit
from verify.rule import Use
from verify.rules.lines import thermometer
from verify.rules.lines.thermometer import Thermometer
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Because, Link, Step, Technique
from verify.walk.told.event import Based
from verify.walk.told.premises import struck_by
from verify.walk.told.reach import reach

PUZZLE = plain(9, (3, 3), (), Use(thermometer.RULE, (Thermometer((0, 10, 20)),)))
(LINK,) = Notes(PUZZLE).links


def span(low, high):
    return sum(map(bit, range(low, high + 1)))


def reached(*needs):
    because = Because(LINK.constraint.cells, 0, (), (LINK,))
    step = Step(Technique.MARK, because, removes=((10, bit(1)),), rule=LINK.rule)
    return reach(Based(step, needs), 9)


def test_by_its_length_alone():
    assert reached() == {0: span(1, 7), 10: span(2, 8), 20: span(3, 9)}


def test_by_a_push_at_its_end():
    assert reached((0, span(1, 4))) == {0: span(5, 7), 10: span(6, 8), 20: span(7, 9)}


def test_by_pushes_from_both_ends_it_is_read_off():
    found = reached((0, span(1, 4)), (20, span(8, 9)))
    assert found == {0: bit(5), 10: bit(6), 20: bit(7)}


@dataclass(frozen=True)
class Domino:
    """Each cell that lacks a 1 takes the 1 from the next one, in one look after another."""

    cells: tuple[int, ...]

    def strikes(self, pencil):
        held = list(pencil)
        for cell, other in pairwise(self.cells):
            if not held[cell] & bit(1) and held[other] & bit(1):
                yield Strike(((other, bit(1)),), (cell,))


def test_a_mark_that_strikes_step_by_step_is_asked_until_it_strikes_no_more():
    link = Link("domino", Domino((0, 1, 2, 3)))  # type: ignore[arg-type]
    step = Step(Technique.MARK, Because((0,), 0, (), (link,)), removes=((3, bit(1)),))
    found = reach(Based(step, ((0, bit(1)),)), 4)
    assert found == {cell: span(2, 4) for cell in range(4)}
    sheet = [span(2, 4), *[span(1, 4)] * 3]
    assert struck_by(link.constraint.strikes, sheet, [(3, bit(1))])
