"""What each technique says, word for word, on a sheet made by hand."""

from dataclasses import replace

import pytest

from layout.language.words import languages, read_words
from layout.telling.knowledge import Knowledge
from layout.telling.names import Names
from layout.telling.placings import Placings
from layout.telling.pushes import Pushes
from layout.telling.sentences import Teller
from tests.support.boards import plain
from verify.pencil import bit
from verify.rule import Use
from verify.rules.cells import cage
from verify.rules.cells.cage import Cage
from verify.rules.lines import thermometer
from verify.rules.lines.thermometer import Thermometer
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Because, Consequence, Step, Technique
from verify.walk.told.event import Based

SHAPE = Thermometer((0, 10, 20))
CAGES = (Cage((0, 1), 3, 9), Cage((2, 3), 17, 9), Cage((40, 41, 42), 10, 9))
PUZZLE = plain(9, (3, 3), (), Use(thermometer.RULE, (SHAPE,)), Use(cage.RULE, CAGES))
NOTES = Notes(PUZZLE)
ROWS = [house for house in NOTES.houses if house.kind == "row"]
COLUMNS = [house for house in NOTES.houses if house.kind == "column"]
BOXES = [house for house in NOTES.houses if house.kind == "box"]
WARM, FIRST, SECOND, THIRD = NOTES.links


def digits(*some):
    return sum(map(bit, some))


def only(cells, mask):
    """A sheet on which some cells alone hold some digits in the first row."""
    notes = Notes(PUZZLE)
    for cell in ROWS[0].cells:
        if cell not in cells:
            notes.strike(cell, mask)
    return notes


def names(language="en"):
    return Names(PUZZLE, read_words(language))


def strike(step, notes=None, language="en"):
    return Teller(names(language), notes or Notes(PUZZLE)).strike(step)


def push(based, notes=None, language="en"):
    return Pushes(names(language), notes or Notes(PUZZLE)).tell(based)


def a_step(technique, removes, because, **more):
    return Step(technique, because, removes=tuple(removes.items()), **more)


def mark(technique, link, removes, *houses, chosen=0, needs=()):
    because = Because(tuple(sorted(link.constraint.cells)), chosen, houses, (link,))
    return Based(a_step(technique, removes, because, rule=link.rule), tuple(needs))


def sheet(placed=(), **left):
    """A sheet with digits placed, and on which cells, by their names, hold so much."""
    notes = Notes(PUZZLE)
    cells = {PUZZLE.board.name(cell): cell for cell in PUZZLE.board.cells}
    for cell, digit in placed:
        notes.place(cell, digit)
    for name, mask in left.items():
        notes.strike(cells[name], ~mask)
    return notes


EVERY = digits(*range(1, 10))


# --- pushes

BY_ITSELF = mark(Technique.MARK, WARM, {0: digits(8, 9), 10: digits(1, 9), 20: digits(1, 2)})
PUSHED = mark(Technique.MARK, WARM, {10: digits(2, 3)}, needs=[(0, digits(1, 2))])
READ_OFF = mark(
    Technique.MARK,
    WARM,
    {0: EVERY & ~digits(5), 10: EVERY & ~digits(6), 20: EVERY & ~digits(7)},
    needs=[(0, digits(1, 2, 3, 4)), (20, digits(8, 9))],
)


def test_what_a_shape_does_by_its_length_alone():
    assert push(BY_ITSELF) == (
        "The thermometer from r1c1 rises over 3 cells: r1c1 is at most 7, r2c2 is 2 to 8"
        " and r3c3 is at least 3."
    )
    assert push(BY_ITSELF, language="de") == (
        "Das Thermometer von r1c1 an steigt über 3 Zellen: r1c1 ist höchstens 7, r2c2 liegt bei"
        " 2 bis 8 und r3c3 ist mindestens 3."
    )


def test_a_push_names_what_pushes_and_where_it_is_seen():
    notes = sheet([(8, 1), (18, 2)])
    assert push(PUSHED, notes) == (
        "r1c1 is at least 3 (1 in its row, 2 in its column)."
        " The thermometer from r1c1 rises over 3 cells: r2c2 is 4 to 8."
    )
    assert push(PUSHED, notes, "de") == (
        "r1c1 ist mindestens 3 (1 in der Zeile, 2 in der Spalte)."
        " Das Thermometer von r1c1 an steigt über 3 Zellen: r2c2 liegt bei 4 bis 8."
    )


def test_what_was_struck_and_not_seen_has_no_place():
    assert push(PUSHED, sheet(r1c1=EVERY & ~digits(1, 2))).startswith("r1c1 is at least 3. The")


def test_a_shape_is_read_off_at_once():
    assert push(READ_OFF, sheet(r1c1=digits(5, 6))) == (
        "r1c1 is at least 5 and r3c3 is at most 7. The thermometer from r1c1 rises over 3 cells:"
        " r1c1 is 5, r2c2 is 6 and r3c3 is 7."
    )
    assert push(READ_OFF, language="de").endswith(
        ": in r1c1 steht die 5, in r2c2 steht die 6 und in r3c3 steht die 7."
    )


def test_a_sum_with_the_ways_to_make_it():
    step = mark(Technique.MARK, FIRST, {0: EVERY & ~digits(1, 2), 1: EVERY & ~digits(1, 2)})
    assert push(step) == (
        "The cage at r1c1 adds up to 3, with 1 + 2 for r1c1 and r1c2:"
        " r1c1 and r1c2 are each 1 or 2."
    )
    assert push(step, language="de") == (
        "Der Käfig bei r1c1 hat die Summe 3, mit 1 + 2 für r1c1 und r1c2:"
        " in r1c1 und r1c2 steht jeweils 1 oder 2."
    )


def test_a_sum_of_which_a_digit_is_known():
    step = mark(Technique.MARK, THIRD, {41: digits(8, 9)}, needs=[(40, EVERY & ~digits(2))])
    assert push(step, sheet([(40, 2)])).startswith(
        "r5c5 is 2. The cage at r5c5 adds up to 10, with 1 + 7 or 3 + 5 for r5c6 and r5c7: r5c6 is "
    )


def test_arrangements_and_arrangements_in_a_house():
    within = mark(Technique.ARRANGEMENTS, FIRST, {0: EVERY & ~digits(1, 2)}, ROWS[0])
    assert push(within) == (
        "The cage at r1c1 adds up to 3, with 1 + 2 for r1c1 and r1c2, and in row 1 no digit stands"
        " twice: r1c1 is 1 or 2."
    )
    struck = {5: digits(1), 6: digits(1)}
    needs = mark(Technique.ARRANGEMENTS, FIRST, struck, ROWS[0], chosen=digits(1))
    assert push(needs) == (
        "The cage at r1c1 adds up to 3, with 1 + 2 for r1c1 and r1c2: it takes 1 in row 1,"
        " so r1c6 and r1c7 are at least 2."
    )
    assert push(needs, language="de").endswith(
        ": Gebraucht wird die 1 in Zeile 1; daraus folgt: r1c6 und r1c7 sind mindestens 2."
    )


def test_order_within_a_house():
    because = Because((0, 10, 20), 0, (BOXES[0],), (WARM,))
    step = Based(a_step(Technique.ORDER, {0: digits(8, 9)}, because, rule="thermometer"), ())
    assert push(step) == (
        "In the top left box, r2c2 and r3c3 are both larger than r1c1, and differ:"
        " r1c1 is at most 7."
    )
    assert push(step, language="de") == (
        "Im Block oben links sind r2c2 und r3c3 beide größer als r1c1 und verschieden:"
        " r1c1 ist höchstens 7."
    )
    above = Based(a_step(Technique.ORDER, {20: digits(1, 2)}, because, rule="thermometer"), ())
    assert "r1c1 and r2c2 are both smaller than r3c3, and differ" in push(above)


def test_a_house_sum_has_its_arithmetic():
    left = tuple(range(4, 9))
    because = Because(left, 0, (ROWS[0], BOXES[2]), (FIRST, SECOND))
    step = Based(
        a_step(Technique.HOUSE_SUM, {4: digits(9)}, because, rule="cage", summed=(ROWS[0],)), ()
    )
    assert push(step) == (
        "In row 1, the known sums leave 45 - 3 - 17 = 25 for r1c5, r1c6, r1c7, r1c8 and r1c9:"
        " r1c5 is at most 8."
    )
    assert push(step, language="de") == (
        "In Zeile 1 lassen die bekannten Summen 45 - 3 - 17 = 25 für r1c5, r1c6, r1c7, r1c8 und"
        " r1c9: r1c5 ist höchstens 8."
    )


def test_a_house_sum_says_which_cells_are_taken_away_or_count_twice():
    pushes = Pushes(names(), Notes(PUZZLE))
    assert pushes._weighed([(0, 1), (1, 1)]) == "r1c1 and r1c2"
    assert pushes._weighed([(0, -1), (1, 1), (2, 2)]) == "r1c2 + 2 × r1c3 - r1c1"


# --- what is known


@pytest.mark.parametrize(
    ("left", "told", "german"),
    [
        ((5,), "r1c1 is 5", "in r1c1 steht die 5"),
        ((6, 7, 8, 9), "r1c1 is at least 6", "r1c1 ist mindestens 6"),
        ((1, 2, 3), "r1c1 is at most 3", "r1c1 ist höchstens 3"),
        ((3, 4, 5, 6), "r1c1 is 3 to 6", "r1c1 liegt bei 3 bis 6"),
        ((8, 9), "r1c1 is 8 or 9", "in r1c1 steht 8 oder 9"),
        ((1, 5, 9), "r1c1 is 1, 5 or 9", "in r1c1 steht 1, 5 oder 9"),
        ((1, 2, 3, 5, 6, 7, 8, 9), "r1c1 is not 4", "r1c1 ist nicht 4"),
        ((2, 4, 6, 8), "r1c1 is even", "r1c1 ist gerade"),
        ((1, 3, 5, 7, 9), "r1c1 is odd", "r1c1 ist ungerade"),
        ((1, 2, 4, 8, 9), "r1c1 is 1, 2, 4, 8 or 9", "in r1c1 steht 1, 2, 4, 8 oder 9"),
    ],
)
def test_what_is_left_in_the_plainest_way(left, told, german):
    for language, words in (("en", told), ("de", german)):
        known = Knowledge(names(language), Notes(PUZZLE))
        assert known.facts([(0, digits(*left))]) == words


def test_cells_that_know_the_same_are_told_together():
    known = Knowledge(names(), Notes(PUZZLE))
    told = known.facts([(0, digits(5)), (1, digits(8, 9)), (2, digits(8, 9))])
    assert told == "r1c1 is 5 and r1c2 and r1c3 are each 8 or 9"


def test_of_many_digits_that_a_cell_sees_none_is_named():
    notes = sheet([(8, 1), (7, 2), (18, 3), (27, 4), (36, 5)])
    assert Knowledge(names(), notes).seen(0, digits(1, 2, 3, 4, 5)) == "by all that it sees"
    assert (
        Knowledge(names(), notes).seen(0, digits(1, 2, 4)) == "1 and 2 in its row, 4 in its column"
    )


# --- placements


def place(technique, cell, digit, *houses, missing=0):
    step = Step(technique, Because((cell,), bit(digit), houses), ((cell, digit),))
    return Based(step, ((cell, missing or EVERY & ~bit(digit)),))


HIDDEN = place(Technique.HIDDEN_SINGLE, 80, 5, BOXES[7])
NEXT = place(Technique.HIDDEN_SINGLE, 79, 4, BOXES[7])
OTHER = place(Technique.LAST_CELL, 1, 4, COLUMNS[1])
NAKED = place(Technique.NAKED_SINGLE, 12, 7)


def placed(*based, language="en", told=(), notes=None):
    placings = Placings(names(language), notes or Notes(PUZZLE))
    return placings.sentence([placings.placed(each, dict(told)) for each in based])


@pytest.mark.parametrize(
    ("based", "told", "german"),
    [
        (
            [HIDDEN],
            "In the bottom middle box, 5 goes to r9c9.",
            "Im Block unten in der Mitte geht die 5 nach r9c9.",
        ),
        (
            [HIDDEN, NEXT, OTHER],
            "In the bottom middle box, 5 goes to r9c9 and 4 to r9c8; in column 2, 4 goes to r1c2.",
            "Im Block unten in der Mitte geht die 5 nach r9c9 und die 4 nach r9c8;"
            " in Spalte 2 geht die 4 nach r1c2.",
        ),
        ([NAKED], "Only 7 is left for r2c4.", "In r2c4 geht nur die 7."),
        (
            [NAKED, NAKED],
            "Only 7 is left for r2c4 and 7 for r2c4.",
            "In r2c4 geht nur die 7 und in r2c4 nur die 7.",
        ),
    ],
)
def test_placements(based, told, german):
    assert placed(*based) == told
    assert placed(*based, language="de") == german


def test_what_a_push_left_and_a_cell_also_sees():
    notes = sheet([(17, 5)])
    only = place(Technique.NAKED_SINGLE, 12, 4)
    assert placed(only, told=[(12, digits(4, 5))], notes=notes) == ("r2c4 also sees 5, so it is 4.")
    assert placed(only, told=[(12, digits(4, 5))], notes=notes, language="de") == (
        "r2c4 sieht außerdem 5, dort geht also nur die 4."
    )
    assert placed(only, told=[(12, digits(3, 4, 5))], notes=notes) == "Only 4 is left for r2c4."


def test_what_a_push_has_read_off_needs_no_more_words_but_has_some_of_its_own():
    assert placed(NAKED, told=[(12, digits(7))]) == ""
    for language, told in (("en", "So r2c4 is 7."), ("de", "Also steht in r2c4 die 7.")):
        placings = Placings(names(language), Notes(PUZZLE))
        assert placings.alone(placings.placed(NAKED, {12: digits(7)})) == told
    placings = Placings(names(), Notes(PUZZLE))
    assert placings.alone(placings.placed(NAKED, {})) == "Only 7 is left for r2c4."


def test_the_rest_names_its_first_digits_and_what_is_pushed():
    rest = Placings(names(), Notes(PUZZLE)).rest([HIDDEN, NEXT, OTHER], 2, ["r1c1 is 5."])
    assert rest == (
        "From here on plain singles fill the grid, beginning with 5 in r9c9 and 4 in r9c8."
        " On the way: r1c1 is 5."
    )
    one = Placings(names("de"), Notes(PUZZLE)).rest([HIDDEN], 2, [])
    assert one == "Damit bleibt eine einzige Zelle: die 5 für r9c9."


# --- houses


def test_locked_candidates():
    because = Because(ROWS[0].cells, digits(5), (ROWS[0], BOXES[0]))
    step = a_step(Technique.LOCKED, {9: digits(5), 19: digits(5)}, because)
    assert strike(step, only((0, 2), digits(5))) == (
        "In row 1, 5 can only stand in r1c1 or r1c3, so not in r2c1 or r3c2."
    )
    assert strike(step, only((0, 2), digits(5)), "de") == (
        "In Zeile 1 geht die 5 nur in r1c1 oder r1c3, also nicht in r2c1 oder r3c2."
    )


def test_pairs():
    naked = a_step(Technique.NAKED_PAIR, {5: digits(2)}, Because((0, 1), digits(1, 2), (ROWS[0],)))
    assert strike(naked) == (
        "In row 1, r1c1 and r1c2 hold 1 and 2 between them, which rules out 2 in r1c6."
    )
    because = Because(ROWS[0].cells, digits(1, 2), (ROWS[0],))
    hidden = a_step(Technique.HIDDEN_PAIR, {3: digits(5, 7)}, because)
    assert strike(hidden, only((3, 4), digits(1, 2))) == (
        "In row 1, 1 and 2 have no other cells than r1c4 or r1c5, which rules out 5 and 7 in r1c4."
    )


def test_a_fish_tells_its_lines_before_those_across():
    houses = (ROWS[1], ROWS[6], COLUMNS[2], COLUMNS[4])
    step = a_step(Technique.TWO_LINE_FISH, {2: digits(4)}, Because((), digits(4), houses))
    assert strike(step) == (
        "In rows 2 and 7, 4 stands only in columns 3 and 5, which rules it out in r1c3."
    )


def test_a_wing_of_two_and_of_three_cells():
    step = a_step(Technique.WING, {9: digits(4)}, Because((10, 0, 18), digits(4)))
    held = {"r1c1": digits(1, 4), "r3c1": digits(2, 4)}
    assert strike(step, sheet(r2c2=digits(1, 2, 4), **held)) == (
        "There are left 1, 2 or 4 in r2c2, 1 or 4 in r1c1 and 2 or 4 in r3c1."
        " Whatever r2c2 holds, 4 stands in r1c1, r2c2 or r3c1, so not in r2c1."
    )
    told = strike(step, sheet(r2c2=digits(1, 2), **held))
    assert told.endswith("Whatever r2c2 holds, 4 stands in r1c1 or r3c1, so not in r2c1.")
    german = strike(step, sheet(r2c2=digits(1, 2), **held), "de")
    assert german.endswith(
        "Was auch in r2c2 steht: die 4 steht in r1c1 oder r3c1, also nicht in r2c1."
    )


def test_a_colour_chain_begins_with_a_link_and_not_with_what_sees_it():
    because = Because((), digits(5), (COLUMNS[8], ROWS[0]))
    step = a_step(Technique.COLOUR_CHAIN, {40: digits(5)}, because)
    assert strike(step, only((0, 2), digits(5))) == (
        "In row 1 there are two places each for 5. Followed from one to the next it takes every"
        " other one, which rules out 5 in r5c5."
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
        " damit fällt weg: die 2 für r1c6."
    )


@pytest.mark.parametrize("language", languages())
@pytest.mark.parametrize("technique", Technique)
def test_every_technique_has_its_words_in_every_language(technique, language):
    words = read_words(language).walk
    key = technique.value.replace(" ", "-")
    assert words.techniques[key].name
    assert len(words.techniques) == len(Technique)
