"""Which letters are labels of a grid: sums and signs in its cells, and the clues around it."""

from collections.abc import Sequence
from typing import Final

from layout.preflight.reading.finished import Leaf
from layout.preflight.reading.grids import Grid, find_grids
from layout.preflight.reading.marks import Letter
from layout.preflight.reading.phrases import Phrase

ASIDE: Final = 0.25
"""Cells that a label is off the middle of its cell at the least, right or down; a digit is less."""

BESIDE: Final = 1.0
"""Cells around a grid in which its clues stand."""


def labels_among(letters: Sequence[Letter], leaf: Leaf) -> list[Letter]:
    """Those of some letters of a page that are labels of its grids."""
    grids = find_grids(leaf)
    figures = [phrase for phrase in leaf.phrases if not any(map(str.isalpha, phrase.text))]
    return [each for each in letters if _is_label(each, grids, figures)]


def _is_label(letter: Letter, grids: Sequence[Grid], figures: Sequence[Phrase]) -> bool:
    if letter.box is None:
        return False
    for grid in grids:
        if grid.box.holds(letter.box):
            return max(abs(each % 1.0 - 0.5) for each in grid.place(letter.box.centre)) >= ASIDE
        if grid.box.grown(BESIDE * grid.side).holds(letter.box):
            return any(letter in phrase.letters for phrase in figures)
    return False
