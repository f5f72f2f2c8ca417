"""The canonical form: one for all disguises of a puzzle, another for any other puzzle."""

from dataclasses import replace
from itertools import islice
from pathlib import Path

import pytest

from tests.support.boards import NEEDS_A_WING, classic
from tests.support.published import lines, needs_cases
from verify.canonical import canonical
from verify.forms import moved, moves
from verify.manifest.read import puzzle_from_text, read_puzzle
from verify.proof.verdict import prove
from verify.rules import RULES

BOOKS = Path(__file__).parents[2] / "books"
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


@needs_cases
def test_published_puzzles_that_are_essentially_different_have_different_forms():
    # G. Royle's collection of puzzles with 17 givens holds none that is another in disguise
    # (the source is named in the cases' README; that claim is from memory).
    found = [form_of(answered(classic(line))) for line in lines("classic17.txt")[:300]]
    assert len(set(found)) == len(found)
