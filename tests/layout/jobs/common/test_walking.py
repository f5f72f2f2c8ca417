"""Walks and grades of all puzzles of a job, over worker processes."""

from contextlib import nullcontext

from layout.jobs.common.making import Making
from layout.jobs.common.walking import walk_all
from tests.support.books import manifest
from verify.manifest.read import puzzle_from_text
from verify.walk.report.grade import Band
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


def quiet(label, total):
    return nullcontext(lambda done: None)


def puzzles(count):
    return [puzzle_from_text(f"id: reed-{n}\n{manifest(n)}") for n in range(count)]


def walks_of(puzzles, workers=1, **more):
    return walk_all(puzzles, Making(None, workers, quiet, **more), lambda done: None)


def test_walks_of_other_processes_are_those_of_this_one():
    many = puzzles(30)
    assert walks_of(many, workers=2) == walks_of(many, workers=1)


def test_walks_come_in_the_order_of_the_puzzles():
    (easy,), fog = puzzles(1), puzzle_from_text(UNREACHABLE)
    bands = [each.grade.band for each in walks_of([fog, easy])]
    assert bands == [Band.UNGRADED, Band.CALM]


def test_a_walk_that_is_given_up_is_a_walk_that_does_not_finish():
    (puzzle,) = puzzles(1)
    whole = walk(puzzle)
    short = walk(puzzle, most_looked_at=5)
    assert whole.finished
    assert not short.finished
    assert short.rounds == whole.rounds[: len(short.rounds)]
    assert 0 < len(short.rounds) < len(whole.rounds)
