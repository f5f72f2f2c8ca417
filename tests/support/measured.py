"""What is measured on every page of a finished book: type, lines, overlaps, and how full it is."""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import TypeAlias

from layout.preflight.checks.small import check_lines
from layout.preflight.reading.finished import FinishedFile, Leaf
from layout.preflight.reading.geometry import Box
from layout.preflight.reading.marks import Letter

LEAST_IN_BOARDS = 3.7
"""Points of the digits' em in boards: four digits in a disc on a corner of small cells have it."""

BOARD = 22.0
"""Points from which on a shape is a board."""

SLACK = 0.5
"""Points by which ink may reach over other ink: serifs, and what rounding makes."""

SAFE = 12.7
"""Points from the trim that words keep: 4.5 mm, for folios may have tails."""

CLUES = 0.2
"""How far clues stand out from a board, as a share of its width."""

HALF = 0.3
"""A page that others follow in its part is filled to more of its depth than this."""


Inked: TypeAlias = tuple[Letter, Box]
"""A letter that is seen, and the box of its ink."""


def troubles(file: FinishedFile, least: float, safe: float = SAFE) -> list[str]:
    """All that is wrong, page by page; words are no smaller than `least` points, and keep `safe`
    points from the trim.
    """
    lines = [f"{each.page}: {each.words}" for each in check_lines(file)]
    return [*lines, *_of_pages(file, least, safe), *_half_empty(file)]


def _of_pages(file: FinishedFile, least: float, safe: float) -> Iterator[str]:
    for leaf in file.leaves:
        inked, boards = _inked(leaf), _boards(leaf)
        # Clues stand in a strip around their board.
        strip = max((CLUES * box.width for box in boards), default=0.0)
        words = [each for each in inked if not any(_meets(each[1], box, -strip) for box in boards)]
        own = "".join(letter.text for letter, _ in words)
        for letters, size in ((words, least), (inked, LEAST_IN_BOARDS)):
            small = min((letter.size for letter, _ in letters), default=size)
            if small < size - 0.002:
                yield f"{leaf.number}: letters of {small:.2f} pt, {size:g} wanted ({own[:30]})"
        yield from (f"{leaf.number}: {pair}" for pair in _overlaps(inked))
        trim = leaf.trim
        for letter, box in inked:
            if box.left < trim.left + safe or box.right > trim.right - safe:
                yield f"{leaf.number}: {letter.text!r} stands near the edge"
            if box.bottom < trim.bottom + safe or box.top > trim.top - safe:
                yield f"{leaf.number}: {letter.text!r} stands near the edge"
            if any(_crosses(box, frame) for frame in boards):
                yield f"{leaf.number}: {letter.text!r} stands over the frame of a board"


def _inked(leaf: Leaf) -> list[Inked]:
    """The letters that are seen."""
    return [(each, each.box) for each in leaf.marks.letters if each.box and not each.ink.is_white]


def _boards(leaf: Leaf) -> list[Box]:
    """The frames of boards: shapes so large that are stroked, none in another."""
    boxes = [
        contour.box
        for paint in leaf.marks.paints
        if paint.stroke is not None
        for contour in paint.contours
        if contour.closed and contour.is_square
    ]
    large = [box for box in boxes if box.width > BOARD and box.height > BOARD]
    return [box for box in large if not any(_holds(other, box) for other in large)]


def _holds(one: Box, two: Box) -> bool:
    """Whether a box lies in another, larger one."""
    inside = (
        one.left <= two.left + SLACK
        and one.right >= two.right - SLACK
        and one.bottom <= two.bottom + SLACK
        and one.top >= two.top - SLACK
    )
    return inside and one.width * one.height > two.width * two.height + SLACK


def _meets(one: Box, two: Box, slack: float = 0.0) -> bool:
    return (
        one.left < two.right - slack
        and two.left < one.right - slack
        and one.bottom < two.top - slack
        and two.bottom < one.top - slack
    )


def _crosses(letter: Box, frame: Box) -> bool:
    """Whether a letter stands on the edge of a frame."""
    inside = (
        letter.left > frame.left - SLACK
        and letter.right < frame.right + SLACK
        and letter.bottom > frame.bottom - SLACK
        and letter.top < frame.top + SLACK
    )
    return not inside and _meets(letter, frame, SLACK)


def _overlaps(letters: Sequence[Inked]) -> Iterator[str]:
    """Letters over one another that do not follow one another on a line."""
    ordered = sorted(letters, key=lambda each: each[1].left)
    for at, (one, box) in enumerate(ordered):
        for two, other in ordered[at + 1 :]:
            if other.left >= box.right - SLACK:
                break
            follows = abs(one.origin[1] - two.origin[1]) < SLACK and one.origin[0] < two.origin[0]
            if not follows and _meets(box, other, SLACK):
                yield f"{one.text!r} and {two.text!r} overlap"


def _half_empty(file: FinishedFile) -> Iterator[str]:
    """Pages that end high up though others follow in their part."""
    starts = {line.target.page for line in file.outline if line.level == 0}
    for leaf, later in pairwise(file.leaves):
        boxes = [box for _, box in _inked(leaf)]
        boxes += [each.box for each in leaf.marks.paints if each.is_seen]
        if not boxes or not later.marks.letters or {leaf.number, later.number} & starts:
            continue
        trim = leaf.trim
        # The folio does not fill a page.
        body = [box.bottom for box in boxes if box.bottom > trim.bottom + 0.1 * trim.height]
        foot = min(body, default=trim.top)
        if foot > trim.top - HALF * trim.height and leaf.label.isdigit():
            yield f"{leaf.number}: ends high up, and others follow"
