"""Which letters are labels of a grid: sums and signs in its cells, and the clues around it."""

from collections.abc import Sequence
from typing import Final

from layout.preflight.reading.finished import Leaf
from layout.preflight.reading.grids import Grid, find_grids
from layout.preflight.reading.marks import Letter
from layout.preflight.reading.phrases import Phrase

LOW: Final = 0.3
"""Cells that the ink of a label in a cell is high at the most; a digit is higher."""

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
            return letter.box.height <= LOW * grid.side
        if grid.box.grown(BESIDE * grid.side).holds(letter.box):
            return any(letter in phrase.letters for phrase in figures)
    return False
