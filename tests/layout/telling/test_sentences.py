"""What each technique says, word for word, on a sheet made by hand."""

from dataclasses import replace

import pytest

from layout.language.words import languages, read_words
from layout.telling.names import Names
from layout.telling.sentences import MOST_ASIDES, Teller
from tests.support.boards import plain
from verify.pencil import bit
from verify.rule import Use
from verify.rules.cells import cage
from verify.rules.cells.cage import Cage
from verify.rules.lines import thermometer
from verify.rules.lines.thermometer import Thermometer
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Aside, Because, Consequence, DeadEnd, Step, Technique

SHAPE = Thermometer((0, 10, 20))
CAGES = (Cage((0, 1), 3, 9), Cage((2, 3), 17, 9))
PUZZLE = plain(9, (3, 3), (), Use(thermometer.RULE, (SHAPE,)), Use(cage.RULE, CAGES))
NOTES = Notes(PUZZLE)
ROWS = [house for house in NOTES.houses if house.kind == "row"]
COLUMNS = [house for house in NOTES.houses if house.kind == "column"]
BOXES = [house for house in NOTES.houses if house.kind == "box"]
WARM, FIRST, SECOND = NOTES.links


def digits(*some):
    return sum(map(bit, some))


def only(cells, mask):
    """A sheet on which some cells alone hold some digits in the first row."""
    notes = Notes(PUZZLE)
    for cell in ROWS[0].cells:
        if cell not in cells:
            notes.strike(cell, mask)
    return notes


def strike(step, notes=None, language="en"):
    return Teller(Names(PUZZLE, read_words(language)), notes or Notes(PUZZLE)).strike(step)


def placed(*steps, language="en"):
    return Teller(Names(PUZZLE, read_words(language)), Notes(PUZZLE)).placements(steps)


def place(technique, cell, digit, *houses):
    return Step(technique, Because((cell,), bit(digit), houses), ((cell, digit),))


LAST = place(Technique.LAST_CELL, 0, 5, ROWS[0])
HIDDEN = place(Technique.HIDDEN_SINGLE, 80, 5, BOXES[7])
NAKED = place(Technique.NAKED_SINGLE, 12, 7)


@pytest.mark.parametrize(
    ("steps", "told"),
    [
        ([LAST], "In row 1, the last open cell is r1c1; it takes 5."),
        ([LAST, LAST], "One cell is open in row 1 for 5 (r1c1) and in row 1 for 5 (r1c1)."),
        ([HIDDEN], "In the bottom middle box, only r9c9 can take 5."),
        (
            [HIDDEN, place(Technique.HIDDEN_SINGLE, 1, 4, COLUMNS[1])],
            "One cell is left in the bottom middle box for 5 (r9c9) and in column 2 for 4 (r1c2).",
        ),
        ([NAKED], "Only 7 is left for r2c4."),
        ([NAKED, NAKED, NAKED], "Nothing else is left than 7 in r2c4, 7 in r2c4 and 7 in r2c4."),
    ],
)
def test_placements(steps, told):
    assert placed(*steps) == told


def a_step(technique, removes, because, **more):
    return Step(technique, because, removes=tuple(removes.items()), **more)


def mark(technique, link, removes, *houses, chosen=0):
    because = Because(tuple(sorted(link.constraint.cells)), chosen, houses, (link,))
    return a_step(technique, removes, because, rule=link.rule)


def test_the_range_of_a_thermometer():
    struck = {0: digits(8, 9), 10: digits(1, 9), 20: digits(1, 2)}
    told = "The thermometer from r1c1 has 3 cells, which run 1-7, 2-8, 3-9."
    assert strike(mark(Technique.MARK, WARM, struck)) == told


def test_a_thermometer_with_gaps_is_told_as_any_mark():
    struck = {0: digits(8, 9), 10: digits(1, 4, 9), 20: digits(1, 2)}
    told = strike(mark(Technique.MARK, WARM, struck))
    assert told == "The thermometer from r1c1 leaves 1-7 in r1c1; 2, 3 or 5-8 in r2c2; 3-9 in r3c3."


@pytest.mark.parametrize(
    ("struck", "told"),
    [
        ({0: digits(*range(3, 10)), 1: digits(*range(3, 10))}, "leaves 1 or 2 in r1c1 and r1c2."),
        ({0: digits(5)}, "rules out 5 in r1c1."),
        ({0: digits(5), 1: digits(4, 6)}, "rules out 5 in r1c1; 4 and 6 in r1c2."),
        ({0: digits(*range(1, 10))}, "rules out 1-9 in r1c1."),
    ],
)
def test_what_stays_or_what_goes_whichever_is_shorter(struck, told):
    assert strike(mark(Technique.MARK, FIRST, struck)) == f"The cage at r1c1 {told}"


def test_arrangements():
    keeps = mark(Technique.ARRANGEMENTS, FIRST, {0: digits(*range(3, 10))})
    assert strike(keeps) == (
        "In whatever way it is filled, the cage at r1c1 leaves 1 or 2 in r1c1."
    )
    goes = mark(Technique.ARRANGEMENTS, FIRST, {0: digits(5)})
    assert strike(goes) == "In no way of filling it does the cage at r1c1 hold 5 in r1c1."
    needs = mark(
        Technique.ARRANGEMENTS, FIRST, {5: digits(1), 6: digits(1)}, ROWS[0], chosen=digits(1)
    )
    assert strike(needs) == (
        "The cage at r1c1 needs 1 in row 1, which rules out 1 in r1c6 and r1c7."
    )


def test_all_that_a_mark_takes_in_a_house_in_one_sentence():
    steps = [
        mark(Technique.ARRANGEMENTS, FIRST, {6: digits(1)}, ROWS[0], chosen=digits(1)),
        mark(
            Technique.ARRANGEMENTS,
            FIRST,
            {5: digits(2), 6: digits(2)},
            ROWS[0],
            chosen=digits(2),
        ),
    ]
    teller = Teller(Names(PUZZLE, read_words("en")), Notes(PUZZLE))
    removes = [pair for step in steps for pair in step.removes]
    assert teller.together(steps, removes, teller.left(removes)) == (
        "The cage at r1c1 needs 1 and 2 in row 1, which rules out 2 in r1c6; 1 and 2 in r1c7."
    )


def test_order_within_a_house():
    because = Because((0, 10, 20), 0, (BOXES[0],), (WARM,))
    step = a_step(Technique.ORDER, {0: digits(8, 9)}, because, rule="thermometer")
    assert strike(step) == (
        "In the top left box, the cells beyond r1c1 need room for as many digits,"
        " which leaves 1-7 in r1c1."
    )


def test_a_house_sum_names_the_houses_that_are_summed_and_no_others():
    left = tuple(range(4, 9))
    because = Because(left, 0, (ROWS[0], BOXES[2]), (FIRST, SECOND))
    summed = (ROWS[0],)
    step = a_step(Technique.HOUSE_SUM, {4: digits(9)}, because, rule="cage", summed=summed)
    assert strike(step) == (
        "Take the known sums from the sum of all that stands in row 1: that leaves 1-8 in r1c5."
    )


def test_locked_candidates():
    because = Because(ROWS[0].cells, digits(5), (ROWS[0], BOXES[0]))
    step = a_step(Technique.LOCKED, {9: digits(5), 19: digits(5)}, because)
    assert strike(step, only((0, 2), digits(5))) == (
        "In row 1, 5 must stand in r1c1 or r1c3, so not in r2c1 or r3c2."
    )


def test_pairs():
    naked = a_step(Technique.NAKED_PAIR, {5: digits(2)}, Because((0, 1), digits(1, 2), (ROWS[0],)))
    assert strike(naked) == (
        "In row 1, r1c1 and r1c2 hold 1 and 2 between them, which rules out 2 in r1c6."
    )
    because = Because(ROWS[0].cells, digits(1, 2), (ROWS[0],))
    hidden = a_step(Technique.HIDDEN_PAIR, {3: digits(5, 7)}, because)
    assert strike(hidden, only((3, 4), digits(1, 2))) == (
        "In row 1, 1 and 2 can only stand in r1c4 or r1c5, which rules out 5 and 7 in r1c4."
    )


def test_a_fish_tells_its_lines_before_those_across():
    houses = (ROWS[1], ROWS[6], COLUMNS[2], COLUMNS[4])
    step = a_step(Technique.TWO_LINE_FISH, {2: digits(4)}, Because((), digits(4), houses))
    assert strike(step) == (
        "In row 2 and in row 7, 4 stands only in column 3 and in column 5,"
        " which rules it out in r1c3."
    )


def test_a_wing_of_two_and_of_three_cells():
    step = a_step(Technique.WING, {9: digits(4)}, Because((10, 0, 18), digits(4)))
    told = "Whatever r2c2 holds, 4 stands in r1c1, r2c2 or r3c1, so not in r2c1."
    assert strike(step) == told
    notes = Notes(PUZZLE)
    notes.strike(10, digits(4))
    assert strike(step, notes) == told.replace("r1c1, r2c2 or", "r1c1 or")


def test_a_colour_chain_begins_with_a_link_and_not_with_what_sees_it():
    because = Because((), digits(5), (COLUMNS[8], ROWS[0]))
    step = a_step(Technique.COLOUR_CHAIN, {40: digits(5)}, because)
    assert strike(step, only((0, 2), digits(5))) == (
        "Follow 5 through the houses that have two places for it, first in row 1:"
        " it takes every other one, which rules out 5 in r5c5."
    )


def an_if(chain, dead_end, technique=Technique.SHORT_IF):
    chain = tuple(Consequence(*each) for each in chain)
    return Step(
        technique, Because((0,), bit(5)), removes=((0, bit(5)),), chain=chain, dead_end=dead_end
    )


@pytest.mark.parametrize(
    ("chain", "dead_end", "told"),
    [
        ([], DeadEnd(9), "then nothing is left for r2c1."),
        (
            [(9, 3), (10, 4)],
            DeadEnd(digit=7, house=ROWS[1]),
            "then follows 3 in r2c1 and 4 in r2c2, and in row 2 no cell is left for 7.",
        ),
        ([(9, 3), (10, 4)], DeadEnd(10, 4), "then follows 3 in r2c1, and r2c2 must take 4"),
        (
            [(9 + index, index % 9 + 1) for index in range(12)],
            DeadEnd(40),
            "then follows 1 in r2c1, 2 in r2c2, 3 in r2c3, 4 in r2c4, 5 in r2c5, 6 in r2c6,"
            " 7 in r2c7, 8 in r2c8, 9 in r2c9 and 3 in r3c3, and nothing is left for r5c5.",
        ),
    ],
)
def test_an_if_is_supposed_followed_and_refuted(chain, dead_end, told):
    sentence = strike(an_if([(0, 5), *chain], dead_end))
    assert sentence.startswith(f"Suppose 5 in r1c1: {told}")
    assert sentence.endswith(" So 5 is not in r1c1.")


def test_a_long_if_says_that_it_is_long():
    assert strike(an_if([(0, 5), (9, 3)], DeadEnd(20), Technique.LONG_IF)).startswith(
        "Suppose 5 in r1c1: then follows, step by step, 3 in r2c1, and"
    )


def a_deep_if(*asides):
    chain = [(0, 5), (9, 3), (10, 4), (11, 6)]
    return replace(an_if(chain, DeadEnd(20), Technique.DEEP_IF), asides=asides)


def aside(after, *chain):
    return Aside(after, tuple(Consequence(*each) for each in chain), DeadEnd(30))


def test_a_deep_if_tells_what_is_tried_on_the_way_in_order():
    asides = aside(2, (1, 7)), aside(3, (2, 7), (3, 8))
    assert strike(a_deep_if(*asides)) == (
        "Suppose 5 in r1c1. From there, one after the other: 3 in r2c1;"
        " not 7 in r1c2 (else nothing is left for r4c4); 4 in r2c2;"
        " not 7 in r1c3 (else 8 in r1c4, and nothing is left for r4c4); 6 in r2c3."
        " In the end nothing is left for r3c3. So 5 is not in r1c1."
    )


def test_of_many_asides_only_the_first_are_told_with_their_ends():
    told = strike(a_deep_if(*(aside(4, (cell, 7)) for cell in range(1, 8))))
    assert told.count("(else") == MOST_ASIDES
    assert "; nor, in the same way, 7 in r1c7 and 7 in r1c8. In the end" in told


def test_a_deep_if_without_asides():
    assert strike(a_deep_if()) == (
        "Suppose 5 in r1c1: followed to the very end, that means 3 in r2c1, 4 in r2c2"
        " and 6 in r2c3, and nothing is left for r3c3. So 5 is not in r1c1."
    )


def test_either_way():
    step = a_step(Technique.EITHER_WAY, {40: digits(5)}, Because((0, 1), digits(5)))
    ways = ((Consequence(0, 5),), (Consequence(1, 5), Consequence(9, 3), Consequence(44, 5)))
    assert strike(replace(step, ways=ways)) == (
        "One of these ways is right: 5 in r1c1; 5 in r1c2, so 3 in r2c1 and 5 in r5c9."
        " Whichever it is, out go 5 in r5c5."
    )


def test_the_same_in_german():
    step = a_step(Technique.NAKED_PAIR, {5: digits(2)}, Because((0, 1), digits(1, 2), (BOXES[4],)))
    assert strike(step, language="de") == (
        "Im mittleren Block teilen sich r1c1 und r1c2 die beiden Werte 1 und 2;"
        " damit fällt weg: 2 für r1c6."
    )
    assert (
        placed(LAST, language="de") == "In Zeile 1 ist als letzte Zelle r1c1 offen; dort steht 5."
    )


@pytest.mark.parametrize("language", languages())
@pytest.mark.parametrize("technique", Technique)
def test_every_technique_has_its_words_in_every_language(technique, language):
    words = read_words(language).walk
    key = technique.value.replace(" ", "-")
    assert words.techniques[key].name
    assert len(words.techniques) == len(Technique)
