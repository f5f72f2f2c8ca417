"""What a walk calls cells, digits, houses and marks."""

from dataclasses import replace

import pytest

from layout.language.words import languages, read_words
from layout.telling.names import Names
from tests.support.boards import plain
from verify.board import Board
from verify.manifest.read import puzzle_from_text
from verify.rules import RULES
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import House

NINE = plain(9, (3, 3))
SIX = plain(6, (2, 3))
BRACES = set("{}")


def names(puzzle, language="en"):
    return Names(puzzle, read_words(language))


def digits(*some):
    return sum(1 << digit for digit in some)


def example(name):
    (rule,) = (rule for rule in RULES if rule.name == name)
    return puzzle_from_text(rule.example)


def test_cells_all_of_them_and_one_of_them():
    assert names(NINE).cells([0, 1, 80]) == "r1c1, r1c2 and r9c9"
    assert names(NINE).spots([0, 1, 80]) == "r1c1, r1c2 or r9c9"
    assert names(NINE, "de").spots([0, 80]) == "r1c1 oder r9c9"


@pytest.mark.parametrize(
    ("mask", "all_of"),
    [
        (digits(5), "5"),
        (digits(4, 5), "4 and 5"),
        (digits(1, 2, 3, 7), "1-3 and 7"),
        (digits(1, 2, 4, 5, 6, 9), "1, 2, 4-6 and 9"),
    ],
)
def test_digits(mask, all_of):
    assert names(NINE).all_of(mask) == all_of


def test_symbols_that_are_no_numbers_are_told_one_by_one():
    letters = replace(SIX, symbols=tuple("ABCDEF"))
    assert names(letters).all_of(digits(1, 2, 3, 6)) == "A, B, C and F"


def house_of(puzzle, kind, number):
    return [house for house in Notes(puzzle).houses if house.kind == kind][number]


@pytest.mark.parametrize(
    ("puzzle", "kind", "number", "told"),
    [
        (NINE, "row", 2, "in row 3"),
        (NINE, "column", 4, "in column 5"),
        (NINE, "box", 0, "in the top left box"),
        (NINE, "box", 7, "in the bottom middle box"),
        (SIX, "box", 3, "in the box of r3c4"),
    ],
)
def test_houses(puzzle, kind, number, told):
    assert names(puzzle).house(house_of(puzzle, kind, number)) == told


def test_lines_of_several_grids_are_told_by_their_ends():
    several = replace(NINE, board=Board(13, 13, 9, (3, 3), ((0, 0), (4, 4))))
    row = House("row", tuple(range(4 * 13 + 4, 4 * 13 + 13)), True)
    assert names(several).house(row) == "in the row from r5c5 to r5c13"
    column = House("column", tuple(range(0, 9 * 13, 13)), True)
    assert names(several).house(column) == "in the column from r1c1 to r9c1"


@pytest.mark.parametrize("language", languages())
@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_every_house_and_mark_of_the_catalogue_has_a_name(rule, language):
    puzzle = puzzle_from_text(rule.example)
    notes, told = Notes(puzzle), names(puzzle, language)
    places = [told.house(house) for house in notes.houses]
    marks = [told.mark(link) for link in notes.links]
    for name in (*places, *marks):
        assert name
        assert not BRACES & set(name)
        assert name[0].islower()
        assert not name.endswith((" ", "."))


@pytest.mark.parametrize(
    ("rule", "told"),
    [
        ("thermometer", "the thermometer from r6c2"),
        ("cage", "the cage at r1c1"),
        ("greater", "the sign between r1c1 and r1c2"),
    ],
)
def test_marks(rule, told):
    puzzle = example(rule)
    assert told in [names(puzzle).mark(link) for link in Notes(puzzle).links]


def test_clues_outside_are_told_by_their_side():
    puzzle = example("skyscraper")
    told = {names(puzzle).mark(link) for link in Notes(puzzle).links}
    assert "the skyscraper number above column 5" in told
    assert all(" column " in name or " row " in name for name in told)
    diagonal = {
        names(example("diagonal-sum")).mark(link) for link in Notes(example("diagonal-sum")).links
    }
    assert "the number with the arrow outside r6c3" in diagonal
