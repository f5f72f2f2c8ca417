"""Suppositions in words: what would stand where and why, and how that fails."""

import pytest

from layout.language.words import languages, read_words
from layout.telling.names import Names
from layout.telling.sentences import MOST_ASIDES, Teller
from layout.telling.telling import tell_walk
from tests.support.boards import plain
from tests.support.checkout import BOOKS
from verify.manifest.read import read_puzzle
from verify.pencil import bit
from verify.rule import Use
from verify.rules.cells import cage
from verify.rules.cells.cage import Cage
from verify.rules.lines import thermometer
from verify.rules.lines.thermometer import Thermometer
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import (
    Aside,
    Because,
    Consequence,
    DeadEnd,
    Kind,
    Step,
    Technique,
    kind_of,
)
from verify.walk.told.path import told_path

PUZZLE = plain(
    9,
    (3, 3),
    (),
    Use(thermometer.RULE, (Thermometer((0, 10, 20)),)),
    Use(cage.RULE, (Cage((0, 1), 3, 9),)),
)
NOTES = Notes(PUZZLE)
ROWS = [house for house in NOTES.houses if house.kind == "row"]
WARM, CAGE = NOTES.links


def told(chain, end, technique=Technique.SHORT_IF, links=(), asides=(), language="en", given=()):
    """The sentence of an "if" that begins with 1 in r1c1 and goes on with a chain."""
    chain = (Consequence(0, 1), *chain)
    step = Step(
        technique,
        Because(links=links),
        removes=((0, bit(1)),),
        chain=chain,
        dead_end=end,
        asides=asides,
    )
    notes = Notes(PUZZLE)
    for cell, digit in given:
        notes.place(cell, digit)
    return Teller(Names(PUZZLE, read_words(language)), notes).strike(step)


def both(chain, end, *others, **more):
    return [told(chain, end, *others, **{**more, "language": each}) for each in ("en", "de")]


def test_nothing_left_for_a_cell():
    assert both((), DeadEnd(5)) == [
        "If r1c1 were 1, nothing would be left for r1c6. So r1c1 is not 1.",
        "Stünde in r1c1 die 1, bliebe für r1c6 nichts übrig. Also steht die 1 nicht in r1c1.",
    ]


def test_no_place_in_a_house():
    assert both((), DeadEnd(None, 4, ROWS[2])) == [
        "If r1c1 were 1, there would be no place for 4 in row 3. So r1c1 is not 1.",
        "Stünde in r1c1 die 1, fände die 4 in Zeile 3 keinen Platz."
        " Also steht die 1 nicht in r1c1.",
    ]


def test_what_follows_has_its_reason():
    chain = (Consequence(9, 2, ROWS[1]), Consequence(13, 3), Consequence(20, 5, None, (WARM,)))
    assert both(chain, DeadEnd(30)) == [
        "If r1c1 were 1, that would put 2 in r2c1 (the only place in row 2), 3 in r2c5 and 5 in"
        " r3c3 (the thermometer from r1c1); then nothing would be left for r4c4. So r1c1 is not 1.",
        "Stünde in r1c1 die 1, so stünde die 2 in r2c1 (der einzige Platz in Zeile 2), die 3 in"
        " r2c5 und die 5 in r3c3 (das Thermometer von r1c1 an); dann bliebe für r4c4 nichts übrig."
        " Also steht die 1 nicht in r1c1.",
    ]


def test_marks_are_named_after_the_last_digit_that_follows_by_them():
    chain = (Consequence(10, 2, None, (WARM,)), Consequence(20, 3, None, (WARM,)))
    sentence = told(chain, DeadEnd(30))
    assert "2 in r2c2 and 3 in r3c3 (the thermometer from r1c1); then" in sentence
    longer = (chain[0], Consequence(13, 3), chain[1])
    assert told(longer, DeadEnd(30)).count("thermometer") == 2


def test_what_a_house_means_is_said_once():
    chain = (Consequence(9, 2, ROWS[1]), Consequence(20, 3, ROWS[2]), Consequence(30, 4, ROWS[3]))
    sentence = told(chain, DeadEnd(40), Technique.LONG_IF)
    assert "2 in r2c1 (the only place in row 2), 3 in r3c3 (in row 3) and 4 in r4c4 (in" in sentence


def test_a_cell_that_must_hold_a_digit_beside_another():
    chain = (Consequence(9, 2), Consequence(11, 2, ROWS[1]))
    assert both(chain, DeadEnd(11, 2)) == [
        "If r1c1 were 1, that would put 2 in r2c1; then r2c3 would have to be 2 as well (the only"
        " place in row 2). So r1c1 is not 1.",
        "Stünde in r1c1 die 1, so stünde die 2 in r2c1; dann müsste in r2c3 auch die 2 stehen (der"
        " einzige Platz in Zeile 2). Also steht die 1 nicht in r1c1.",
    ]


def test_a_digit_that_stands_there_and_no_longer_fits():
    assert both((), DeadEnd(20), given=((20, 7),)) == [
        "If r1c1 were 1, the 7 in r3c3 would no longer fit. So r1c1 is not 1.",
        "Stünde in r1c1 die 1, passte die 7 in r3c3 nicht mehr. Also steht die 1 nicht in r1c1.",
    ]
    assert "; then the 2 in r2c1 would no longer fit." in told((Consequence(9, 2),), DeadEnd(9))
    assert "; then the 1 in r1c1 would no longer fit." in told((Consequence(9, 2),), DeadEnd(0))


def test_the_mark_by_which_it_fails():
    assert "the 7 in r3c3 would no longer fit (the thermometer from r1c1). So" in told(
        (), DeadEnd(20), links=(WARM,), given=((20, 7),)
    )
    chain = (Consequence(1, 2, None, (CAGE,)),)
    assert "left for r3c3 (the thermometer from r1c1). So" in told(
        chain, DeadEnd(20), links=(CAGE, WARM)
    )
    for end, links in [(DeadEnd(21), (CAGE, WARM)), (DeadEnd(20), (CAGE,)), (DeadEnd(20), ())]:
        assert "thermometer" not in told(chain, end, links=links)
    assert "thermometer" not in told((), DeadEnd(20), links=(CAGE, WARM))


def test_a_deep_one_with_what_is_tried_on_the_way():
    tried = Aside(2, (Consequence(30, 6), Consequence(31, 7, ROWS[3])), DeadEnd(40))
    at_once = Aside(2, (Consequence(30, 8),), DeadEnd(None, 9, ROWS[0]))
    chain = (Consequence(9, 2), Consequence(30, 5))
    assert both(chain, DeadEnd(50), Technique.DEEP_IF, asides=(tried, at_once)) == [
        "Suppose r1c1 were 1. From there, one after the other: 2 in r2c1; not 6 in r4c4: else 7 in"
        " r4c5 (the only place in row 4), and then nothing would be left for r5c5; not 8 in r4c4:"
        " else there would be no place for 9 in row 1; 5 in r4c4. In the end nothing would be left"
        " for r6c6. So r1c1 is not 1.",
        "Angenommen, in r1c1 stünde die 1. Daraus folgt der Reihe nach: die 2 in r2c1; nicht die 6"
        " in r4c4: sonst stünde die 7 in r4c5 (der einzige Platz in Zeile 4), und dann bliebe für"
        " r5c5 nichts übrig; nicht die 8 in r4c4: sonst fände die 9 in Zeile 1 keinen Platz; die 5"
        " in r4c4. Am Ende bliebe für r6c6 nichts übrig. Also steht die 1 nicht in r1c1.",
    ]
    asides = (at_once,) * (MOST_ASIDES + 2)
    sentence = told(chain, DeadEnd(50), Technique.DEEP_IF, asides=asides)
    assert "nor, in the same way, 8 in r4c4 and 8 in r4c4;" in sentence


def test_a_long_one_and_a_deep_one_say_so():
    chain = (Consequence(9, 2),)
    assert "that would put, step by step, 2 in r2c1; then" in told(
        chain, DeadEnd(20), Technique.LONG_IF
    )
    assert "that would put, followed to the very end, 2 in r2c1; then" in told(
        chain, DeadEnd(20), Technique.DEEP_IF
    )


def test_a_long_chain_is_told_by_its_beginning_and_its_end():
    chain = [Consequence(9 + index, index % 9 + 1) for index in range(12)]
    sentence = told(chain, DeadEnd(40), Technique.LONG_IF)
    assert "8 in r2c8, 9 in r2c9 and 3 in r3c3; then" in sentence
    assert "r3c1" not in sentence


@pytest.mark.parametrize("language", languages())
@pytest.mark.parametrize("name", ["cells/09-local-maximum", "cells/16-in-company"])
def test_each_supposition_of_a_walk_names_what_it_strikes(name, language):
    puzzle = read_puzzle(BOOKS / "gallery" / "puzzles" / f"{name}.yaml")
    steps = tell_walk(puzzle, told_path(puzzle), read_words(language)).steps
    suppositions = [each for each in steps if kind_of(each.step.technique) is Kind.SUPPOSITION]
    assert suppositions
    for each in suppositions:
        ((cell, _),) = each.step.removes
        assert each.words.count(puzzle.board.name(cell)) >= 2
        assert "{" not in each.words
        assert each.words[0].isupper()
