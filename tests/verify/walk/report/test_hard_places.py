"""Hard places: those in the band of the hardest technique, each in a place of its own."""

from verify.walk.facts.step import Because, House, Step, Technique
from verify.walk.report.hard_places import hard_places
from verify.walk.walk import Round, Walk

ROWS = tuple(House("row", tuple(range(9 * row, 9 * row + 9)), True) for row in range(9))


def strikes(technique, row, cell):
    """A step that no later one needs is left out, so these end unfinished: there all matter."""
    return Step(technique, Because((cell,), 2, (ROWS[row],)), removes=((cell, 2),))


def places(technique, row, cell):
    return Step(technique, Because(ROWS[row].cells, 2, (ROWS[row],)), ((cell, 1),))


def walked(*steps, ways=None):
    ways = ways or [1] * len(steps)
    rounds = (Round(step.technique, (step,), n) for step, n in zip(steps, ways, strict=True))
    return Walk(tuple(rounds), (), False)


PAIR = strikes(Technique.NAKED_PAIR, 0, 1)
LOCKED = strikes(Technique.LOCKED, 1, 10)
WING = strikes(Technique.WING, 2, 20)
ANOTHER_WING = strikes(Technique.WING, 3, 30)
SINGLE = places(Technique.HIDDEN_SINGLE, 4, 40)


def test_singles_before_the_first_hard_place_are_passed_over():
    assert hard_places(walked(SINGLE, PAIR, SINGLE), 1) == (PAIR,)


def test_what_is_as_hard_as_the_hardest_comes_before_what_is_easier():
    assert hard_places(walked(PAIR, SINGLE, WING), 1) == (WING,)
    assert hard_places(walked(LOCKED, SINGLE, PAIR), 1) == (LOCKED,)


def test_easier_places_fill_up_and_all_stand_in_the_order_of_the_walk():
    assert hard_places(walked(PAIR, WING, LOCKED), 2) == (PAIR, WING)
    assert hard_places(walked(PAIR, WING, LOCKED), 5) == (PAIR, WING, LOCKED)


def test_neighbours_of_one_technique_are_one_place():
    assert hard_places(walked(WING, ANOTHER_WING), 2) == (WING,)
    assert hard_places(walked(WING, SINGLE, ANOTHER_WING), 2) == (WING, ANOTHER_WING)


def test_no_place_is_told_twice():
    assert hard_places(walked(WING, SINGLE, WING), 2) == (WING,)
    assert hard_places(walked(WING, SINGLE, WING, ANOTHER_WING), 2) == (WING, ANOTHER_WING)


def test_where_digits_are_only_placed_the_fewest_ways_on_are_the_hardest():
    last = places(Technique.LAST_CELL, 5, 50)
    singles = [places(Technique.HIDDEN_SINGLE, row, 9 * row) for row in range(3)]
    walk = walked(*singles, last, ways=[3, 1, 2, 1])
    assert hard_places(walk, 1) == (singles[1],)
    assert hard_places(walk, 2) == (singles[1], singles[2])
    assert hard_places(walked(last), 2) == (last,)


def test_a_full_grid_has_none():
    assert hard_places(Walk((), (), True), 3) == ()
