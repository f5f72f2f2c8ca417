"""The names of places outside the board, read and told."""

import pytest

from verify.board import Board
from verify.reading.node import Place, Text
from verify.reading.outside import line_named, name_outside
from verify.reading.problems import Problems

BOARD = Board(4, 4, 4, (2, 2))


@pytest.mark.parametrize(
    "name",
    ["top c3", "bottom c1", "left r4", "right r2", "top c3 se", "bottom c1 ne", "right r4 nw"],
)
def test_a_place_is_told_as_it_is_read(name):
    place, problems = Place("reeds.yaml", 1, 1), Problems()
    text = Text(place, name, ((place, name),))
    line = line_named(text, BOARD, problems, diagonal=name.count(" ") == 2)
    assert not problems.found
    assert name_outside(BOARD, line.outside) == name
