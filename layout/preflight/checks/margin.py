"""Ink near the edge: a knife is off by a little, and a book is not opened flat."""

from collections.abc import Iterator
from typing import Final

from layout.preflight.checks.finding import Finding
from layout.preflight.reading.finished import FinishedFile, Leaf
from layout.preflight.reading.geometry import Box

SAFE: Final = 18.0
"""Points, a quarter of an inch, that stay free inside the trim (common practice)."""

GUTTERS: Final = ((24, 27.0), (151, 36.0), (301, 45.0), (501, 54.0), (701, 63.0))
"""From so many pages on the points that stay free at the spine (one large printer's rule)."""

REACHED: Final = 0.1
"""Points by which ink may fall short of the bleed."""

EDGES: Final = ("left", "bottom", "right", "top")


def check_margin(file: FinishedFile) -> Iterator[Finding]:
    """Ink of each page that is neither inside nor bleeds as far as it should."""
    gutter = next((free for pages, free in reversed(GUTTERS) if len(file.leaves) >= pages), SAFE)
    for leaf in file.leaves:
        yield from _of_leaf(leaf, _safe(leaf, gutter))


def _safe(leaf: Leaf, gutter: float) -> Box:
    """Where ink that does not bleed has to stay."""
    trim = leaf.trim
    left, right = (gutter, SAFE) if leaf.is_recto else (SAFE, gutter)
    return Box(trim.left + left, trim.bottom + SAFE, trim.right - right, trim.top - SAFE)


def _of_leaf(leaf: Leaf, safe: Box) -> Iterator[Finding]:
    """A finding for each edge that ink comes too near to."""
    near: dict[str, float] = {}
    for box in _inked(leaf):
        if safe.holds(box, REACHED) or not leaf.trim.meets(box):
            continue
        for index, edge in enumerate(EDGES):
            inwards = 1 if index < 2 else -1
            free = (box[index] - leaf.trim[index]) * inwards
            kept = (safe[index] - leaf.trim[index]) * inwards
            bleeds = (leaf.trim[index] - leaf.bleed[index]) * inwards
            if free < kept - REACHED and not (bleeds > 0 and free <= -bleeds + REACHED):
                near[edge] = min(free, near.get(edge, free))
    for edge, free in near.items():
        if free < 0:
            words = f"ink goes {-free:.1f} pt over the {edge} edge, but not to the end of the bleed"
        else:
            words = f"ink is {free:.1f} pt from the {edge} edge"
        yield Finding("margin", leaf.number, words)


def _inked(leaf: Leaf) -> Iterator[Box]:
    """The boxes of all that leaves ink."""
    yield from (each.box for each in leaf.marks.letters if each.box and not each.ink.is_white)
    yield from (each.box for each in leaf.marks.paints if each.is_seen)
    yield from (each.box for each in leaf.marks.images)
