"""A finished book against its job: what is printed otherwise than it was proved is named."""

from dataclasses import replace
from functools import cache

import pytest

from layout.preflight.against.against import Ordered, against
from layout.preflight.against.naming import Sayings
from layout.preflight.against.placing import Expected
from layout.preflight.checks.finding import WITH_JOB
from layout.preflight.reading.geometry import Box
from layout.preflight.reading.grids import Grid, in_rows
from layout.preflight.reading.opening import read_bytes
from tests.support.spoiling import (
    PRINTED,
    add,
    finished,
    move,
    page_with,
    paths,
    read,
    say,
    shift,
    spoiled,
    write,
)
from verify.manifest.read import puzzle_from_text
from verify.proof.verdict import prove
from verify.rules import RULES

REEDS, GATES, COOTS, LUNCH = "Two reeds", "Lock gates", "Terns, coots", "Packed lunch"
ANSWERED = "puzzle on page 6"
"""On the first page of answers."""

CELL = 44.95
"""Points of a cell of the puzzles that have a page to themselves."""


def is_left_reed(points):
    return len(points) in (5, 13) and points[0][0] < 180


def move_a_given(pdf):
    move(pdf, page_with(pdf, REEDS), "3", CELL)


def misprint_a_given(pdf):
    say(pdf, page_with(pdf, REEDS), "5", "3")


def set_a_given_askew(pdf):
    move(pdf, page_with(pdf, REEDS), "3", 0.3 * CELL)


def whiten_a_given(pdf):
    page = page_with(pdf, REEDS)
    instructions = read(page)
    begin = max(at for at, (_, name) in enumerate(instructions) if name == "BT")
    grey = next(at for at in range(begin, len(instructions)) if instructions[at][1] == "g")
    instructions[grey] = [1], "g"
    write(pdf, page, instructions)


def give_one_digit_more(pdf):
    page = page_with(pdf, REEDS)
    move(pdf, page, "1", -250, -200)


def misprint_an_answer(pdf):
    say(pdf, page_with(pdf, ANSWERED), "6", "3", nth=4)


def swap_two_digits(pdf):
    page = page_with(pdf, ANSWERED)
    say(pdf, page, "5", "4", nth=3)
    say(pdf, page, "4", "5", nth=6)


def swap_two_titles(pdf):
    page = page_with(pdf, ANSWERED)
    say(pdf, page, REEDS, "Two gates")
    say(pdf, page, GATES, REEDS)
    say(pdf, page, "Two gates", GATES)


def swap_two_pages(pdf):
    one, other = page_with(pdf, REEDS), page_with(pdf, GATES)
    one.Contents, other.Contents = other.Contents, one.Contents


def lose_the_answers(pdf):
    del pdf.pages[16:18]


def shift_a_thermometer(pdf):
    assert shift(pdf, page_with(pdf, REEDS), is_left_reed, CELL, 0) == 8


def turn_a_thermometer_round(pdf):
    page = page_with(pdf, REEDS)
    bulbs = shift(pdf, page, lambda points: len(points) == 13 and is_left_reed(points), 0, 4 * CELL)
    assert bulbs == 5


def draw_one_line_more(pdf):
    add(pdf, page_with(pdf, REEDS), f"0 G 3 w 250 200 m {250 + CELL} {200 + CELL} l S")


def lose_a_cage(pdf):
    page = page_with(pdf, GATES)
    begin, end = paths(page)[8]
    instructions = read(page)
    write(pdf, page, instructions[:begin] + instructions[end + 1 :])


def misprint_a_sum(pdf):
    say(pdf, page_with(pdf, GATES), "12", "13")


def move_a_sum(pdf):
    move(pdf, page_with(pdf, GATES), "12", CELL)


def shift_a_dot(pdf):
    page = page_with(pdf, COOTS)
    assert shift(pdf, page, lambda points: abs(points[0][0] - 226.106) < 1, 34.9, 0) == 4


def misprint_a_clue(pdf):
    say(pdf, page_with(pdf, LUNCH), "9", "6")


def move_a_clue(pdf):
    move(pdf, page_with(pdf, LUNCH), "9", 0, 27.6)


def thin_a_box(pdf):
    page = page_with(pdf, REEDS)
    instructions = read(page)
    widths = [at for at, (_, name) in enumerate(instructions) if name == "w"]
    instructions[widths[-2]] = instructions[widths[-3]]
    write(pdf, page, instructions)


def cut_a_line(pdf):
    page = page_with(pdf, REEDS)
    begin, _ = paths(page)[-3]
    instructions = read(page)
    instructions[begin + 1] = (
        [float(instructions[begin + 1][0][0]) + CELL, instructions[begin + 1][0][1]],
        "m",
    )
    write(pdf, page, instructions)


def renumber_an_answer(pdf):
    say(pdf, page_with(pdf, GATES), "answer on page 11", "answer on page 13")


def renumber_a_puzzle(pdf):
    say(pdf, page_with(pdf, ANSWERED), ANSWERED, "puzzle on page 10")


SPOILED = {
    move_a_given: ("givens", "“Two reeds”: found nothing in r1c4, expected 3"),
    misprint_a_given: ("givens", "“Two reeds”: found 3 in r3c5, expected 5"),
    set_a_given_askew: ("givens", "stands askew in r1c4"),
    whiten_a_given: ("givens", "“Two reeds”: found nothing in"),
    give_one_digit_more: ("marks", "“Two reeds”: found 1 at r"),
    misprint_an_answer: ("answers", "found 3 in"),
    swap_two_digits: ("answers", "found 4 in"),
    swap_two_titles: ("titles", "“Two reeds” stands by the grid of another puzzle"),
    swap_two_pages: ("grids", "“Lock gates” has no grid of its size"),
    lose_the_answers: ("grids", "the answer of “Packed lunch” has no grid"),
    shift_a_thermometer: ("shapes", "a step of a thermometer is not drawn on r6c2"),
    turn_a_thermometer_round: ("shapes", "the bulb of a thermometer is not drawn on r6c2"),
    draw_one_line_more: ("shapes", "found a line in"),
    lose_a_cage: ("shapes", "the outline of a cage is not drawn on r1c1"),
    misprint_a_sum: ("marks", "expected 12"),
    move_a_sum: ("marks", "expected 12"),
    shift_a_dot: ("shapes", "is not drawn on r1c5 r2c5"),
    misprint_a_clue: ("clues", "found 6 at the clue"),
    move_a_clue: ("clues", "expected 9"),
    thin_a_box: ("frames", "found a thin line between"),
    cut_a_line: ("frames", "no line between r1c1 and r2c1"),
    renumber_an_answer: ("cross references", "page 11 is not named"),
    renumber_a_puzzle: ("cross references", "page 6 is not named"),
}
"""What is done to the file, the check that names it, and how."""


@cache
def ordered():
    """What the book should hold, proved here."""
    examples = [rule.example for rule in RULES if rule.name in PRINTED]
    examples.sort(key=lambda text: [REEDS, GATES, COOTS, LUNCH].index(text.splitlines()[0][7:]))
    puzzles = [puzzle_from_text(text) for text in examples]
    expected = [Expected(puzzle, prove(puzzle).answers[0]) for puzzle in puzzles]
    sayings = Sayings(("answer on page {page}",), ("puzzle on page {page}",))
    return Ordered(expected, "Low Water", sayings)


def findings(data):
    return list(against(read_bytes(data, "book.pdf"), ordered()))


def test_a_finished_book_prints_what_was_proved():
    assert findings(finished()) == []


def test_a_section_may_have_the_name_of_a_puzzle():
    named = replace(ordered(), section=GATES)
    assert list(against(read_bytes(finished(), "book.pdf"), named)) == []


@pytest.mark.parametrize("spoil", SPOILED, ids=lambda spoil: spoil.__name__)
def test_what_is_printed_otherwise_is_named(spoil):
    check, words = SPOILED[spoil]
    found = findings(spoiled(spoil))
    assert any(each.check == check and words in each.words for each in found), found


def test_each_check_has_something_that_it_finds():
    assert {check for check, _ in SPOILED.values()} >= set(WITH_JOB) - {"diagrams"}


def test_grids_are_read_row_by_row_where_clues_above_push_one_down():
    page = read_bytes(finished(), "book.pdf").leaves[0]

    def grid(left, top):
        return Grid(page, Box(left, top - 100, left + 100, top), 9, 9, (), ())

    upper, lower = [grid(0, 488), grid(150, 500)], [grid(0, 350), grid(150, 338)]
    assert list(in_rows([lower[1], upper[1], lower[0], upper[0]])) == upper + lower
