"""What steps cost a listener, and what they stand on."""

import pytest

from verify.pencil import bit
from verify.walk.facts.step import PLAIN_SINGLES, Because, Consequence, Step, Technique
from verify.walk.told.event import COST, Based, Event, cost_of


def a_step(technique, cells=(0,), **more):
    return Step(technique, Because(tuple(cells)), removes=((0, 2),), **more)


def test_each_technique_has_a_cost_and_singles_the_least():
    assert set(COST) == set(Technique)
    least = sorted(COST, key=lambda each: COST[each])[:3]
    assert set(least) == PLAIN_SINGLES


def test_more_cells_and_longer_chains_cost_more():
    plain = cost_of(a_step(Technique.SHORT_IF))
    chain = (Consequence(1, 2), Consequence(2, 3))
    assert cost_of(a_step(Technique.SHORT_IF, (0, 1, 2))) > plain
    assert cost_of(a_step(Technique.SHORT_IF, chain=chain[:1])) > plain
    assert cost_of(a_step(Technique.SHORT_IF, chain=chain)) > cost_of(
        a_step(Technique.SHORT_IF, chain=chain[:1])
    )
    assert cost_of(a_step(Technique.EITHER_WAY, ways=(chain, chain))) == pytest.approx(
        cost_of(a_step(Technique.EITHER_WAY)) + 2
    )


def test_a_step_stands_where_all_that_it_needs_is_gone():
    based = Based(a_step(Technique.MARK), ((0, bit(1) | bit(2)), (1, bit(3))))
    gone = [bit(3), bit(1)]
    assert based.stands_on(gone)
    assert not based.stands_on([bit(3) | bit(2), bit(1)])
    assert not based.stands_on([bit(3), bit(3)])


def test_a_step_that_places_is_a_placing():
    single = Step(Technique.NAKED_SINGLE, Because((0,)), ((0, 1),))
    assert Event(single, (), 0).is_placing
    assert not Event(a_step(Technique.MARK), (), 0).is_placing
