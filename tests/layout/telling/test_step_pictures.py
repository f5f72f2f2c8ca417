"""Which diagram each paragraph of a walk stands beside."""

from itertools import pairwise

import pytest

from layout.language.words import read_words
from layout.telling.level import Level
from layout.telling.step_pictures import (
    cut_walk,
    divisible,
    least_needed,
    paragraph_scenes,
)
from layout.telling.telling import tell_walk
from verify.manifest.read import puzzle_from_text
from verify.rules import BY_NAME
from verify.walk.told.head import head_of
from verify.walk.told.path import told_path

RULES = ["arrow", "thermometer", "skyscraper", "sandwich"]


def telling_of(rule, level=Level.WHOLE):
    puzzle = puzzle_from_text(BY_NAME[rule].example)
    return puzzle, tell_walk(puzzle, told_path(puzzle), read_words("en"), level)


@pytest.mark.parametrize("level", Level)
@pytest.mark.parametrize("rule", RULES)
def test_every_paragraph_stands_once_beside_a_diagram_in_order(rule, level):
    puzzle, telling = telling_of(rule, level)
    pieces = [piece for shown in cut_walk(puzzle, telling).pictures() for piece in shown.pieces]
    assert [(piece.number, piece.words) for piece in pieces] == [
        (each.number, each.words) for each in telling.paragraphs
    ]


@pytest.mark.parametrize("level", [Level.MOMENTS, Level.EVERY])
def test_a_diagram_shows_the_sheet_before_its_paragraph_whatever_is_left_out(level):
    puzzle, telling = telling_of("skyscraper", level)
    placed = {}
    for told in telling.steps:
        placed.setdefault(told.paragraph, []).extend(told.step.places)
    for shown in cut_walk(puzzle, telling).pictures():
        before = {
            cell: digit
            for number, places in placed.items()
            if number < shown.last.number
            for cell, digit in places
        }
        found = {
            cell: digit
            for cell, digit in enumerate(shown.scene.written)
            if digit and not puzzle.givens[cell]
        }
        assert found == before


@pytest.mark.parametrize("rule", RULES)
def test_only_plain_placements_wait_for_the_next_diagram(rule):
    puzzle, telling = telling_of(rule, Level.EVERY)
    plain = {each.number: all(step.places for step in each.steps) for each in telling.paragraphs}
    for shown in cut_walk(puzzle, telling).pictures():
        assert all(plain[piece.number] for piece in shown.pieces[:-1])
        assert not plain[shown.last.number] or shown.last.number == telling.paragraphs[-1].number


def test_a_paragraph_without_a_diagram_stands_beside_the_next_one():
    puzzle, telling = telling_of("skyscraper")
    numbers = [each.number for each in telling.paragraphs]
    shown = cut_walk(puzzle, telling).pictures(numbers[:-1])
    assert [each.last.number for each in shown] == numbers[-1:]
    (bare,) = cut_walk(puzzle, telling).pictures(numbers)
    assert bare.scene is None
    assert [piece.number for piece in bare.pieces] == numbers


def test_break_in_and_crux_are_the_last_to_lose_their_diagrams():
    puzzle, telling = telling_of("skyscraper")
    head = head_of([told.kept for told in telling.steps])
    wanted = {telling.steps[at].paragraph for at in (head.break_in, head.crux)}
    order = least_needed(telling)
    assert sorted(order) == [each.last.number for each in cut_walk(puzzle, telling).pictures()]
    assert set(order[-len(wanted) :]) == wanted


@pytest.mark.parametrize("parts", [1, 2, 3, 99])
def test_a_paragraph_in_parts_tells_each_of_its_steps_once(parts):
    puzzle, telling = telling_of("skyscraper")
    number = max(telling.paragraphs, key=lambda each: len(each.steps)).number
    told = [each for each in telling.steps if each.paragraph == number]
    shown = [
        each
        for each in cut_walk(puzzle, telling, {number: parts}).each()
        if each.last.number == number
    ]
    assert len(shown) == min(parts, divisible(puzzle, telling)[number])
    assert [each.last.part for each in shown] == list(range(len(shown)))
    if len(shown) > 1:
        words = " ".join(each.last.words for each in shown)
        assert all(each.said in words for each in told if not each.step.places)
    placed = [place for each in shown for place in each.scene.placed]
    assert placed == [place for each in told for place in each.step.places]


def test_by_sentence_pushes_stand_alone_and_digits_in_a_row_together():
    puzzle, telling = telling_of("thermometer")
    shown = cut_walk(puzzle, telling, by_sentence=True).each()
    last = telling.paragraphs[-1]
    for each in shown:
        steps = [*each.scene.placed, *each.scene.speaking]
        assert steps
        if each.last.number != last.number and each.scene.speaking:
            left = {cell: mask for cell, mask in each.scene.told if cell in each.scene.concluded}
            assert all(left[cell] == 1 << digit for cell, digit in each.scene.placed)
    assert shown[-1].last.words == last.words


@pytest.mark.parametrize("rule", RULES)
def test_no_part_begins_with_a_digit_that_the_part_before_has_left(rule):
    puzzle, telling = telling_of(rule)
    parts = divisible(puzzle, telling)
    for before, after in pairwise(cut_walk(puzzle, telling, parts).each()):
        left = {(cell, mask) for cell, mask in before.scene.told if cell in before.scene.concluded}
        first = [(cell, 1 << digit) for cell, digit in after.scene.placed[:1]]
        assert after.scene.speaking or left.isdisjoint(first)


def test_the_singles_at_the_end_are_told_in_one_part_whatever_is_asked_for():
    puzzle, telling = telling_of("skyscraper")
    last = telling.paragraphs[-1]
    shown = cut_walk(puzzle, telling, {last.number: 5}, by_sentence=True).each()
    assert [each.last.words for each in shown if each.last.number == last.number] == [last.words]
    assert last.number not in divisible(puzzle, telling)


def test_scenes_of_paragraphs_are_known_by_their_numbers_at_any_level():
    puzzle, telling = telling_of("skyscraper", Level.MOMENTS)
    _, whole = telling_of("skyscraper")
    assert paragraph_scenes(puzzle, telling) == paragraph_scenes(puzzle, whole)
