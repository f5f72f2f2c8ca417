"""Strikes go on until no mark strikes anything more."""

from verify.pencil import bit, every_digit
from verify.proof.propagate import propagate
from verify.rules.lines.thermometer import Thermometer


def test_a_mark_speaks_again_when_another_has_struck_in_its_cells():
    """Of three digits the middle cell is 2 by both marks together, and so the first is 1."""
    pencil = [every_digit(3)] * 3
    assert propagate([Thermometer((0, 1)), Thermometer((1, 2))], pencil)
    assert pencil == [bit(1), bit(2), bit(3)]


def test_a_cell_without_a_candidate_is_the_end():
    assert not propagate([Thermometer((0, 1))], [bit(2), bit(1)])
