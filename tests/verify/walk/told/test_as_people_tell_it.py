"""Ten puzzles of the demo books, with what a person who knows them would say, in order."""

import pytest

from tests.support.checkout import BOOKS
from verify.manifest.read import read_puzzle
from verify.walk.facts.step import Technique
from verify.walk.told.path import told_path

TOLD = {
    # The left wing ends in 9, so the right one ends in 6 and has no slack. Below, 5 then 3; then
    # the left wing from the other side, the corner, and the diagonal.
    "saltmarsh/puzzles/low-water/03-crosswind": [
        "r5c1=9 r3c6=3 r3c7=4 r4c5=2 r5c9=6",
        "r6c4=5 r7c3=3 r6c2=7 r7c1=8 r4c1=3 r1c1=5 r2c2=3 r7c7=2",
        "r3c4=6 r4c2=8 r4c3=1",
    ],
    # The stem runs 7 8 9 down to the rim. Row 4 has its 6 at the left, then 5, and 4 goes right.
    "saltmarsh/puzzles/low-water/09-hawker": [
        "r7c5=7 r8c5=8 r9c5=9 r4c3=6 r4c4=5 r5c5=4 r4c7=4 r7c6=5",
        "r4c3=6 r4c2=8 r4c4=5",
        "r3c5=1 r4c1=1 r4c9=9",
    ],
    # The long way round at the foot has no slack; then the one beside it, and row 9 is full.
    "saltmarsh/puzzles/lock-cottage/01-clock": [
        "r6c1=8 r7c1=7 r8c2=5 r9c3=4 r9c4=3 r9c5=2 r9c1=9",
        "r9c5=2 r9c6=8 r9c7=7 r9c9=5 r9c8=1 r8c8=6 r7c9=3 r6c9=2 r5c9=1",
        "r9c1=9 r1c3=8 r1c4=9",
    ],
    # The left claw is 9 8 7 at once; on the other side 6 and 5; then row 7 fills.
    "saltmarsh/puzzles/low-water/08-shore-crab": [
        "r4c3=9 r5c2=8 r6c2=7 r5c8=6 r6c8=5 r7c1=8",
        "r7c1=8 r7c9=7 r7c4=5 r7c3=6 r7c5=1",
        "r1c2=1 r1c8=2 r3c4=6 r4c4=7",
    ],
    # The stock is eight long: the 9 of column 5 is at its end, so 7 and 6 stand beside it.
    "saltmarsh/puzzles/the-flood/08-anchor": [
        "r9c4=7 r7c5=8 r9c6=6 r8c5=9",
        "r6c9=3 r7c8=4 r8c7=5",
    ],
    # Small arrows under 6 first, then the corner that must carry a 4.
    "gallery/puzzles/lines/03-arrow": [
        "r7c3=1 r8c1=3 r8c8=1 r4c4=8 r9c8=2",
        "r9c8=2 r9c9=3 r7c9=8",
    ],
    # Low and high in turn from the 8 in row 2; all of the low ones then fall in row 3.
    "gallery/puzzles/lines/08-whisper": [
        "r3c8=1 r3c6=2 r3c4=3 r3c2=4 r2c6=4",
        "r7c2=9 r7c4=8 r7c6=7",
    ],
    # What the cages of a box leave over: 9 in one corner, then from box to box along the top.
    "saltmarsh/puzzles/slack-water/06-catch": ["r2c6=1 r3c7=2 r3c3=9 r3c9=4 r4c6=8 r4c7=3"],
    # Four in a row at the left: 4; then the band above it goes the same way.
    "gallery/puzzles/lines/07-renban": ["r4c4=4 r3c5=4 r4c6=2 r6c4=7 r7c5=9"],
    # Nothing but looking.
    "gallery/puzzles/houses/01-classic": ["r1c9=2 r2c6=2", "r9c1=9 r5c6=9"],
}
"""Digits in cells, in the order in which they come, in one line of thought each."""

NEEDS = {
    "saltmarsh/puzzles/low-water/09-hawker": {Technique.ORDER},
    "saltmarsh/puzzles/the-flood/08-anchor": {Technique.LOCKED},
    "saltmarsh/puzzles/slack-water/06-catch": {Technique.HOUSE_SUM, Technique.ARRANGEMENTS},
    "gallery/puzzles/houses/01-classic": set(),
}
"""What a person cannot do without, beside singles and marks by themselves."""


@pytest.mark.parametrize("name", TOLD)
def test_the_ideas_come_in_the_order_in_which_a_person_has_them(name):
    puzzle = read_puzzle(BOOKS / f"{name}.yaml")
    path = told_path(puzzle)
    order = [
        f"{puzzle.board.name(cell)}={digit}"
        for kept in path.steps
        for cell, digit in kept.step.places
    ]
    for thought in TOLD[name]:
        places = [order.index(each) for each in thought.split()]
        assert places == sorted(places), thought
    techniques = {kept.step.technique for kept in path.steps}
    assert NEEDS.get(name, set()) <= techniques
