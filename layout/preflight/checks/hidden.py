"""Letters that are on the page and not on paper: something is painted over them later."""

from collections.abc import Iterator
from itertools import pairwise

from layout.preflight.checks.finding import Finding
from layout.preflight.reading.finished import FinishedFile, Leaf
from layout.preflight.reading.geometry import Point
from layout.preflight.reading.marks import Contour, Letter, Paint


def check_hidden(file: FinishedFile) -> Iterator[Finding]:
    """The letters of each page whose middle is painted over, as one finding."""
    for leaf in file.leaves:
        hidden = hidden_letters(leaf)
        if hidden:
            text = "".join(each.text for each in hidden[:20])
            count = "a letter is" if len(hidden) == 1 else f"{len(hidden)} letters are"
            words = f"{count} painted over: {text!r}"
            yield Finding("hidden", leaf.number, words)


def hidden_letters(leaf: Leaf) -> list[Letter]:
    """The letters of a page that are painted over."""
    fills = [paint for paint in leaf.marks.paints if paint.fill is not None]
    orders = [paint.order for paint in fills] + [image.order for image in leaf.marks.images]
    last = max(orders, default=-1)
    return [
        letter
        for letter in leaf.marks.letters
        if letter.order < last and _is_hidden(letter, leaf, fills)
    ]


def _is_hidden(letter: Letter, leaf: Leaf, fills: list[Paint]) -> bool:
    if letter.box is None:
        return False
    middle = letter.box.centre
    return any(
        paint.order > letter.order
        and paint.box.has(middle)
        and any(_holds(contour, middle) for contour in paint.contours)
        for paint in fills
    ) or any(image.order > letter.order and image.box.has(middle) for image in leaf.marks.images)


def _holds(contour: Contour, place: Point) -> bool:
    """Whether a place lies inside a contour: a ray from it crosses the line an odd number of times.

    The controls of curves count for corners, which is near enough.
    """
    x, y = place
    inside = False
    points = contour.points if contour.closed else (*contour.points, contour.points[0])
    for (x1, y1), (x2, y2) in pairwise(points):
        if (y1 > y) != (y2 > y) and x < x1 + (y - y1) / (y2 - y1) * (x2 - x1):
            inside = not inside
    return inside
