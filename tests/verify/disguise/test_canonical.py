"""The canonical form: one for all disguises of a puzzle, another for any other puzzle."""

from dataclasses import replace
from itertools import islice

import pytest

from tests.support.boards import NEEDS_A_WING, classic
from tests.support.checkout import BOOKS
from tests.support.published import lines, needs_cases
from verify.disguise import canonical as module
from verify.disguise.canonical import canonical
from verify.disguise.forms import moved, moves
from verify.manifest.read import puzzle_from_text, read_puzzle
from verify.proof.verdict import prove
from verify.rules import RULES

PATHS = sorted((BOOKS / "gallery" / "puzzles").rglob("*.yaml"))


def answered(puzzle):
    return replace(puzzle, answer=prove(puzzle).answers[0])


def form_of(puzzle):
    return canonical(puzzle, puzzle.answer)


def disguises(puzzle, count):
    return [moved(puzzle, move) for move in islice(moves(puzzle), count)]


@pytest.mark.parametrize("path", PATHS, ids=lambda path: path.stem)
def test_a_gallery_puzzle_keeps_its_form_in_every_disguise(path):
    puzzle = answered(read_puzzle(path))
    assert {form_of(each) for each in disguises(puzzle, 8)} == {form_of(puzzle)}


def test_a_hundred_disguises_of_a_classic_puzzle_have_one_form():
    puzzle = answered(classic(NEEDS_A_WING))
    found = disguises(puzzle, 100)
    assert len({each.givens for each in found}) > 90
    assert {form_of(each) for each in found} == {form_of(puzzle)}


def test_no_two_puzzles_of_the_gallery_share_a_form():
    found = [form_of(answered(read_puzzle(path))) for path in PATHS]
    found += [form_of(answered(puzzle_from_text(rule.example, "x.yaml"))) for rule in RULES]
    assert len(set(found)) == len(found)


def test_a_given_more_is_another_puzzle():
    puzzle = answered(classic(NEEDS_A_WING))
    spare = next(cell for cell, digit in enumerate(puzzle.givens) if not digit)
    more = tuple(
        puzzle.answer[cell] if cell == spare else digit for cell, digit in enumerate(puzzle.givens)
    )
    assert form_of(replace(puzzle, givens=more)) != form_of(puzzle)


def test_digits_exchanged_where_a_rule_counts_them_make_another_puzzle():
    puzzle = answered(puzzle_from_text(next(r for r in RULES if r.name == "even").example, "x"))
    odd = next(r for r in RULES if r.name == "odd")
    other = answered(puzzle_from_text(odd.example, "y"))
    assert form_of(other) != form_of(puzzle)


SHORE = """\
kind: latin
size: 4
rules:
  thermometer: [r1c1 e]
givens: |
  1 2 3 4
  . . . .
  . . . .
  . . . .
"""
SHORE_ANSWER = ((1, 2, 3, 4), (3, 4, 1, 2), (2, 3, 4, 1), (4, 1, 2, 3))


def of_rows(text, rows):
    """A puzzle with its answer, row by row."""
    return replace(puzzle_from_text(text, "shore.yaml"), answer=sum(rows, ()))


def looks(rows, digits=4):
    """A grid in every turn and reflection, and the same with the order of digits reversed."""
    every = set()
    for each in (rows, tuple(tuple(digits + 1 - digit for digit in row) for row in rows)):
        for turned in (each, tuple(row[::-1] for row in each)):
            for _ in range(4):
                turned = tuple(zip(*turned[::-1], strict=True))
                every.add(turned)
    return every


def test_cells_that_lie_elsewhere_make_another_puzzle_though_every_house_and_mark_is_alike():
    """Rows 2 and 3 exchanged, or rows 2 and 4: a thermometer forbids such a shuffle."""
    shore = of_rows(SHORE, SHORE_ANSWER)
    first, second, third, fourth = SHORE_ANSWER
    two = (first, third, second, fourth)
    four = (first, fourth, third, second)
    assert len(looks(SHORE_ANSWER)) == 16
    assert not {two, four} & looks(SHORE_ANSWER)
    assert not {two} & looks(four)
    found = [shore, of_rows(SHORE, two), of_rows(SHORE, four)]
    assert all(mark.holds(each.answer) for each in found for mark in each.constraints())
    assert len(set(map(form_of, found))) == 3


def test_where_the_givens_stand_tells_small_puzzles_apart():
    shore = of_rows(SHORE, SHORE_ANSWER)
    one_more = of_rows(SHORE.replace("  . . . .", "  3 . . .", 1), SHORE_ANSWER)
    another = of_rows(SHORE.replace("  . . . .", "  . 4 . .", 1), SHORE_ANSWER)
    assert len(set(map(form_of, (shore, one_more, another)))) == 3


def test_digits_in_another_order_make_another_puzzle_where_a_rule_knows_their_order():
    """2 and 3 exchanged: the thermometer rises as before, but no disguise leads there."""
    rows = tuple(tuple({2: 3, 3: 2}.get(digit, digit) for digit in row) for row in SHORE_ANSWER)
    assert rows not in looks(SHORE_ANSWER)
    other = of_rows(SHORE.replace("1 2 3 4", "1 3 2 4"), rows)
    assert all(mark.holds(other.answer) for mark in other.constraints())
    assert form_of(other) != form_of(of_rows(SHORE, SHORE_ANSWER))


def test_without_the_thermometer_rows_exchanged_are_the_same_puzzle():
    plainly = SHORE.replace("rules:\n  thermometer: [r1c1 e]\n", "")
    first, second, third, fourth = SHORE_ANSWER
    same = of_rows(plainly, (first, fourth, third, second))
    assert form_of(same) == form_of(of_rows(plainly, SHORE_ANSWER))


def cyclic(size, box):
    """A full board that can be laid on itself in very many ways."""
    return [
        [(box * (row % box) + row // box + column) % size + 1 for column in range(size)]
        for row in range(size)
    ]


def symmetric(size, box, rules="", kind="sudoku", givens=False):
    rows = cyclic(size, box)
    text = f"{{kind: {kind}, size: {size}, rules: {{{rules}}}}}"
    answer = tuple(digit for row in rows for digit in row)
    puzzle = replace(puzzle_from_text(text, "shore.yaml"), answer=answer)
    return replace(puzzle, givens=answer) if givens else puzzle


ALL_AROUND = "even: r1c1..r16c16, odd: r1c1..r16c16, extra-region: [r1c1..r4c4, r13c13..r16c16]"


@pytest.mark.parametrize(
    "puzzle",
    [
        symmetric(16, 4),
        symmetric(16, 4, givens=True),
        symmetric(16, 4, ALL_AROUND),
        symmetric(16, 1, kind="latin"),
        symmetric(25, 5),
        symmetric(25, 1, kind="latin", givens=True),
    ],
    ids=["open", "all given", "all marked", "open latin", "open of 25", "latin of 25, all given"],
)
def test_a_board_that_lies_on_itself_in_many_ways_has_a_form_soon_the_same_in_disguise(
    puzzle, monkeypatch
):
    monkeypatch.setattr(module, "MOST_LOOKED_AT", 30_000)
    assert {form_of(each) for each in disguises(puzzle, 2)} == {form_of(puzzle)}


def test_wherever_the_search_is_cut_short_all_disguises_have_one_form(monkeypatch):
    puzzle = symmetric(4, 2)
    hidden = disguises(puzzle, 6)
    seen = set()
    for most in range(0, 20_000, 800):
        monkeypatch.setattr(module, "MOST_LOOKED_AT", most)
        found = {form_of(each) for each in (puzzle, *hidden)}
        assert len(found) == 1
        seen |= found
    assert len(seen) == 2, "the coarse form, then its own"


def test_puzzles_whose_forms_are_too_far_to_seek_may_count_as_one_but_not_with_others(monkeypatch):
    one, other = symmetric(9, 3), symmetric(9, 3, givens=True)
    monkeypatch.setattr(module, "MOST_LOOKED_AT", 5_000)
    assert form_of(one) != form_of(other)
    monkeypatch.setattr(module, "MOST_LOOKED_AT", 0)
    assert form_of(symmetric(9, 3, "anti-king: true")) != form_of(one)


def test_the_bound_leaves_an_ordinary_puzzle_its_own_form(monkeypatch):
    puzzle = answered(classic(NEEDS_A_WING))
    own = form_of(puzzle)
    monkeypatch.setattr(module, "MOST_LOOKED_AT", module.MOST_LOOKED_AT // 10)
    assert form_of(puzzle) == own


@needs_cases
def test_published_puzzles_that_are_essentially_different_have_different_forms():
    # G. Royle's collection of puzzles with 17 givens holds none that is another in disguise
    # (the source is named in the cases' README; that claim is from memory).
    found = [form_of(answered(classic(line))) for line in lines("classic17.txt")[:300]]
    assert len(set(found)) == len(found)
