"""What a knife and a fold do to a cover, or to a sheet with several pages on it."""

from collections.abc import Iterator
from typing import Final

from layout.preflight.checks.finding import Finding
from layout.preflight.checks.margin import EDGES, REACHED, SAFE
from layout.preflight.reading.finished import FinishedFile, Leaf
from layout.preflight.reading.geometry import Box

GROUND: Final = 0.5
"""The share of an edge from which on an area along it is a ground, which has to bleed."""


def check_cut(file: FinishedFile, *, folded: bool) -> Iterator[Finding]:
    """Letters that are cut, or lie over the fold in the middle, and grounds that end too soon.

    A picture may end where it likes, and marks around the sheet are cut away.
    """
    for leaf in file.leaves:
        letters = [
            each.box
            for each in leaf.marks.letters
            if each.box and not each.ink.is_white and leaf.trim.meets(each.box)
        ]
        for index, edge in enumerate(EDGES):
            free = min((_free(box, leaf.trim, index) for box in letters), default=SAFE)
            if free < SAFE - REACHED:
                words = f"letters are {free:.1f} pt from the {edge} edge"
                yield Finding("margin", leaf.number, words)
        fold = leaf.trim.centre[0]
        if folded and any(box.left < fold < box.right for box in letters):
            yield Finding("margin", leaf.number, "letters lie over the fold")
        yield from _grounds(leaf)


def _free(box: Box, edges: Box, index: int) -> float:
    """How far inside an edge a box keeps."""
    return (box[index] - edges[index]) * (1 if index < 2 else -1)


def _grounds(leaf: Leaf) -> Iterator[Finding]:
    """Level and upright areas that end at the trim or over it, but not at the end of the bleed."""
    areas = [
        contour.box
        for each in leaf.marks.paints
        if each.fill and not each.fill.is_white
        for contour in each.contours
        if contour.is_square
    ]
    areas += [each.box for each in leaf.marks.images]
    for index, edge in enumerate(EDGES):
        if _free(leaf.bleed, leaf.trim, index) > -REACHED:
            continue
        along = (1, 3) if index % 2 == 0 else (0, 2)
        length = leaf.trim[along[1]] - leaf.trim[along[0]]
        for box in areas:
            covered = min(box[along[1]], leaf.trim[along[1]]) - max(
                box[along[0]], leaf.trim[along[0]]
            )
            at_trim = _free(box, leaf.trim, index) < REACHED
            short = _free(box, leaf.bleed, index) > REACHED
            if covered >= GROUND * length and at_trim and short:
                words = f"a ground ends at the {edge} edge, before the end of the bleed"
                yield Finding("margin", leaf.number, words)
                break
