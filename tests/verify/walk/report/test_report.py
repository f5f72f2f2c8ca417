"""The report on a walk: made-up walks for each part, and whole puzzles."""

import pytest

from tests.support.boards import plain
from tests.support.told import told_example
from verify.manifest.read import puzzle_from_text
from verify.pencil import bit
from verify.rules import BY_NAME
from verify.walk.facts.step import PLAIN_SINGLES, Because, Step, Technique
from verify.walk.report.report import Stop, place_of, report
from verify.walk.report.unused import Written
from verify.walk.told.event import Based
from verify.walk.told.needed import Kept
from verify.walk.told.path import ToldPath, told_path
from verify.walk.walk import Round, Walk, walk

GRID = plain(4, (2, 2), (1, *[0] * 15))
EXAMPLES = ("thermometer", "cage", "diagonals", "anti-king", "sandwich", "regions")


def places(cell, digit, technique=Technique.NAKED_SINGLE):
    return Step(technique, Because((cell,), bit(digit)), ((cell, digit),))


def strikes(cell, digit, *because, technique=Technique.NAKED_PAIR):
    return Step(technique, Because(because), removes=((cell, bit(digit)),))


def rounds(*steps_of_rounds):
    return tuple(Round(steps[0].technique, tuple(steps), 1) for steps in steps_of_rounds)


def told(*steps_of_rounds, finished=True):
    """The report on a walk of such rounds, told step by step as they are."""
    walked = Walk(rounds(*steps_of_rounds), (2,) * 16, finished)
    kept = tuple(Kept(Based(step, ()), ()) for step in walked.every_step)
    return report(GRID, walked, ToldPath(kept, walked.pencil, finished))


def example(name):
    puzzle, path = told_example(name)
    return puzzle, walk(puzzle), path


def reported(puzzle):
    return report(puzzle, walk(puzzle), told_path(puzzle))


# --- break-in


def test_the_break_in_is_where_several_digits_follow():
    steps = (
        [strikes(3, 2)],
        [places(3, 4)],
        [strikes(5, 2)],
        [places(cell, 1) for cell in (5, 6, 7)],
    )
    found = told([places(1, 2)], *steps).break_in
    assert (found.singles, found.step, found.placement) == (2, 3, 4)


def test_where_no_several_digits_follow_it_is_the_first_strike():
    found = told([places(1, 2)], [places(2, 3)], [strikes(3, 2)], [places(3, 4)]).break_in
    assert (found.singles, found.step, found.placement) == (2, 2, 3)


def test_plain_singles_have_no_break_in():
    assert told([places(1, 2)], [places(2, 3, Technique.LAST_CELL)]).break_in is None


def test_a_walk_that_ends_before_another_placement():
    found = told([places(1, 2)], [strikes(3, 2)], finished=False).break_in
    assert found.singles == 1
    assert found.placement is None


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_break_in_of_an_example_is_a_strike_and_a_digit_follows(name):
    puzzle, walked, path = example(name)
    found = report(puzzle, walked, path).break_in
    steps = [kept.step for kept in path.steps]
    if found is None:
        assert all(step.technique in PLAIN_SINGLES for step in steps)
        return
    assert steps[found.step].removes
    assert found.singles == sum(bool(step.places) for step in steps[: found.step])
    assert found.placement is not None
    assert steps[found.placement].places
    assert all(step.removes for step in steps[found.step : found.placement])


def test_the_hardest_steps_are_told_in_the_order_of_the_path():
    wing, locked = (
        strikes(3, 2, technique=Technique.WING),
        strikes(4, 2, technique=Technique.LOCKED),
    )
    pair, fish = strikes(5, 2), strikes(6, 2, technique=Technique.FOUR_LINE_FISH)
    found = told([places(1, 2)], [locked], [fish], [pair], [wing], [places(2, 3)])
    assert found.hard == (2, 3, 4)
    assert told([places(1, 2)]).hard == ()


# --- the tightest point


def test_the_round_with_the_fewest_ways_on():
    tight = [strikes(5, 2)]
    loose = [strikes(3, 2), strikes(4, 2)]
    found = told(loose, [places(1, 2), places(2, 3)], tight).tightest
    assert (found.technique, found.cells, found.filled) == (Technique.NAKED_PAIR, (5,), 3)


def test_of_several_the_first_of_the_hardest_band():
    single, pair = [places(1, 2)], [strikes(5, 2)]
    wing = [strikes(6, 2, technique=Technique.WING)]
    fish = [strikes(7, 2, technique=Technique.FOUR_LINE_FISH)]
    assert told(single, pair, wing, fish).tightest.cells == (6,)
    assert told([places(1, 2, Technique.HIDDEN_SINGLE)], [places(2, 3)]).tightest.cells == (1,)


def test_last_cells_are_never_tight():
    last, two = [places(1, 2, Technique.LAST_CELL)], [places(2, 3), places(3, 4)]
    assert told(last, two).tightest.cells == (2, 3)
    assert told(last).tightest is None


# --- counts, and where it stops


def test_counts_from_the_easiest_on_and_what_comes_once():
    found = told([strikes(3, 2)], [places(1, 2), places(2, 3)], [places(3, 4)])
    assert list(found.counts.items()) == [(Technique.NAKED_SINGLE, 3), (Technique.NAKED_PAIR, 1)]
    assert found.once == (Technique.NAKED_PAIR,)


@pytest.mark.parametrize("name", EXAMPLES)
def test_each_step_that_matters_is_counted_once(name):
    puzzle, walked, path = example(name)
    counts = report(puzzle, walked, path).counts
    assert sum(counts.values()) == len(path.steps)


def test_a_finished_walk_does_not_stop():
    assert report(*example("cage")).stop is None


def test_where_a_walk_stops():
    puzzle = plain(4, (2, 2), (1, 2, 3, 4, 3, 4, 1, 0, *[0] * 8))
    assert reported(puzzle).stop == Stop(placed=1, open=8, candidates=16)


def test_nothing_at_all_to_go_by():
    found = reported(plain(4, (2, 2)))
    assert (found.break_in, found.tightest, dict(found.counts)) == (None, None, {})
    assert found.stop == Stop(0, 16, 64)
    assert (found.givens, found.marks) == (None, None)


def test_a_puzzle_that_contradicts_itself_is_told_of_too():
    text = "kind: sudoku\nsize: 4\ngivens: |\n  1 2 . .\n  . . 3 .\n  . . 4 .\n  . . . .\n"
    puzzle = puzzle_from_text(text)
    assert reported(puzzle).stop is not None


# --- names of marks


def mark_of(name):
    puzzle = puzzle_from_text(BY_NAME[name].example)
    (use,) = (use for use in puzzle.uses if use.rule.name == name)
    return place_of(puzzle.board, Written(name, use.constraints[0]))


def test_marks_are_named_by_their_start_edges_by_both_cells_clues_by_their_place():
    assert mark_of("thermometer") == "r6c2"
    assert mark_of("greater") == "r1c1 r1c2"
    assert mark_of("skyscraper") == "top c1"
    assert place_of(GRID.board, Written("anti-knight")) == ""
