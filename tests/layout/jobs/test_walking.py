"""Walks and grades of all puzzles of a job, over worker processes."""

from layout.jobs.walking import walk_all
from tests.support.books import manifest
from verify.manifest.read import puzzle_from_text
from verify.walk.grade import Band
from verify.walk.walk import walk

UNREACHABLE = """\
title: Fog
kind: blank
size: 4
rules:
  rows: true
givens: |
  1 2 . .
  . . . .
  . . . .
  . . . .
"""


def puzzles(count):
    return [puzzle_from_text(f"id: reed-{n}\n{manifest(n)}") for n in range(count)]


def test_walks_of_other_processes_are_those_of_this_one():
    many = puzzles(30)
    assert walk_all(many, 2, lambda done: None) == walk_all(many, 1, lambda done: None)


def test_walks_come_in_the_order_of_the_puzzles():
    easy, fog = *puzzles(1), puzzle_from_text(UNREACHABLE)
    bands = [each.grade.band for each in walk_all([fog, easy], 1, lambda done: None)]
    assert bands == [Band.UNGRADED, Band.CALM]


def test_a_walk_that_is_given_up_is_a_walk_that_does_not_finish():
    (puzzle,) = puzzles(1)
    whole = walk(puzzle)
    short = walk(puzzle, most_looked_at=5)
    assert whole.finished
    assert not short.finished
    assert short.rounds == whole.rounds[: len(short.rounds)]
    assert 0 < len(short.rounds) < len(whole.rounds)
