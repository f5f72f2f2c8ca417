"""Pairs in groups that are no rows, columns or boxes, but hold no digit twice either."""

import pytest

from tests.support.boards import plain
from tests.support.reasons import unproved
from verify.pencil import bit
from verify.rule import Use
from verify.rules.cells import cage, equal_cages
from verify.rules.cells.cage import Cage
from verify.rules.cells.equal_cages import EqualCages
from verify.rules.lines import renban
from verify.rules.lines.renban import Renban
from verify.walk.facts.notes import Notes
from verify.walk.techniques.subsets import naked

ACROSS = (2, 3, 4, 13)
"""r1c3, r1c4, r1c5 and r2c5: the first and the last of them see each other by no row or box."""


@pytest.mark.parametrize(
    "use",
    [
        Use(cage.RULE, (Cage(ACROSS, None, 9),)),
        Use(equal_cages.RULE, (EqualCages((ACROSS, (60, 61))),)),
        Use(renban.RULE, (Renban(ACROSS),)),
    ],
    ids=lambda use: use.rule.name,
)
def test_a_pair_at_the_ends_of_a_group_leaves_the_rest_of_it(use):
    puzzle = plain(9, (3, 3), (), use)
    notes = Notes(puzzle)
    for cell in (2, 13):
        notes.strike(cell, ~(bit(4) | bit(5)))
    steps = list(naked(2)(notes))
    assert [unproved(puzzle.board, notes.pencil, step) for step in steps] == [[]] * len(steps)
    notes.apply(steps)
    assert [notes.pencil[cell] & (bit(4) | bit(5)) for cell in (3, 4)] == [0, 0]
