"""Even and odd cells: each rule has its own digits and its own shape."""

import pytest

from verify.manifest.read import puzzle_from_text
from verify.marks import Tint
from verify.rules.cells import even, odd


@pytest.mark.parametrize(
    ("rule", "shape", "kept"), [(even.RULE, "square", {2, 4}), (odd.RULE, "disc", {1, 3})]
)
def test_each_parity_has_its_digits_and_its_shape(rule, shape, kept):
    puzzle = puzzle_from_text(f"kind: sudoku\nsize: 4\nrules: {{{rule.name}: r1c2 r3c4}}\n")
    use = puzzle.uses[-1]
    assert use.marks(puzzle.board) == (Tint(rule.name, 1, shape), Tint(rule.name, 11, shape))
    assert [mark.cells for mark in use.constraints] == [(1,), (11,)]
    assert {digit for digit in range(1, 5) if use.constraints[0].holds([0, digit])} == kept
