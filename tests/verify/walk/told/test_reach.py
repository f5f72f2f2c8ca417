"""How far a mark reaches by what is told of its cells alone."""

from tests.support.boards import plain
from verify.pencil import bit
from verify.rule import Use
from verify.rules.lines import thermometer
from verify.rules.lines.thermometer import Thermometer
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Because, Step, Technique
from verify.walk.told.event import Based
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
