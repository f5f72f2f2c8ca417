"""Where the lines of a paragraph end: the best way over the whole of it.

A paragraph is a row of parts; a line may end after each. What a line costs grows with its
slack, and the breaks with the least cost in sum are taken (after Knuth and Plass, "Breaking
Paragraphs into Lines", Software: Practice and Experience 11, 1981).
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import accumulate
from math import inf
from typing import Final, TypeAlias

STRETCH: Final = 0.5
SHRINK: Final = 0.2
"""How far a justified line's word spaces give, as shares of a space, at a ratio of 1."""

TOLERANCES: Final = (1.0, 1.6, 3.0, inf)
"""Ratios of stretch that are tried in turn; the last takes any line that is not overfull."""

HYPHENS_IN_A_ROW: Final = 3000.0
"""Cost of two line ends in a row that are both hyphenated."""

RUNT: Final = 0.12
"""A last line shorter than this share of the measure looks like a slip."""

RAGGED_RUNT: Final = 0.22
"""So does a longer one where no line is stretched, for there the line before may be shorter."""

_RUNT_COST: Final = 0.12
RUNT_DEMERITS: Final = 4000.0

WORST_RATIO: Final = 100.0
"""Past this one line is as bad as another."""

LAST_HYPHEN: Final = 3000.0
"""Cost of a hyphen at the end of the last line but one."""

Breaks: TypeAlias = tuple[tuple[int, int], ...]
"""First part of each line, and the part after its last."""


@dataclass(frozen=True, slots=True)
class LinePart:
    """A word, or a piece of one that a line can end after.

    `space` follows it where the line goes on; `hyphen` is added where it ends, at the cost of
    `cost`.
    """

    width: float
    space: float = 0.0
    hyphen: float = 0.0
    cost: float = 0.0


_LineCost: TypeAlias = Callable[[float, float, bool], float]
"""Cost of a line by its natural width, its spaces' sum and whether it is the last."""


def ragged_breaks(parts: Sequence[LinePart], measure: float, indent: float = 0.0) -> Breaks:
    """Breaks for lines that keep their natural width: the squares of their slacks in sum least.

    The last line costs nothing unless it is a runt. No part may be wider than the measure
    less the indent of the first line; this holds for all that follows, too.
    """

    def cost(width: float, spaces: float, last: bool) -> float:
        slack = (measure - width) / measure
        if slack < -_EPSILON:
            return inf
        if last:
            return _RUNT_COST if 1 - slack < RAGGED_RUNT else 0.0
        return slack * slack

    return _breaks(parts, measure, indent, cost)


def even_breaks(parts: Sequence[LinePart], measure: float) -> Breaks:
    """Breaks for a heading: as few lines as there can be, all about equally long."""
    fewest = len(ragged_breaks(parts, measure))

    def cost(width: float, spaces: float, last: bool) -> float:
        slack = (measure - width) / measure
        # A line's own cost outweighs all slack, so that a line more is never taken.
        return inf if slack < -_EPSILON else fewest + slack * slack

    return _breaks(parts, measure, 0.0, cost)


def justified_breaks(parts: Sequence[LinePart], measure: float, indent: float = 0.0) -> Breaks:
    """Breaks for lines stretched to the measure, with the least tolerance that will do."""
    tried = (
        _breaks(parts, measure, indent, _justified_cost(measure, tolerance))
        for tolerance in TOLERANCES
    )
    return next(filter(None, tried), ())


def _justified_cost(measure: float, tolerance: float) -> _LineCost:
    def cost(width: float, spaces: float, last: bool) -> float:
        slack = measure - width
        if last and slack >= 0:
            return RUNT_DEMERITS if width < RUNT * measure else 0.0
        if slack < -SHRINK * spaces - _EPSILON:
            return inf
        ratio = _ratio(slack, spaces)
        if ratio > tolerance:
            return inf
        return (1 + 100 * min(ratio, WORST_RATIO) ** 3) ** 2

    return cost


def _ratio(slack: float, spaces: float) -> float:
    """How far the spaces give, as a share of what they may.

    A line of one word has none; its spaces are what rounding left of a difference, if anything.
    """
    if abs(spaces) < _EPSILON:
        return 0.0 if abs(slack) < _EPSILON else inf
    return abs(slack) / (spaces * (STRETCH if slack >= 0 else SHRINK))


_EPSILON: Final = 1e-9


def _breaks(parts: Sequence[LinePart], measure: float, indent: float, cost: _LineCost) -> Breaks:
    """The cheapest way from the first part to the last, or nothing where there is none.

    `best[i]` is the least cost of setting the parts before i, and `came[i]` where its last
    line starts.
    """
    reach = [0.0, *accumulate(part.width + part.space for part in parts)]
    spaces = [0.0, *accumulate(part.space for part in parts)]
    best, came = [0.0] + [inf] * len(parts), [0] * (len(parts) + 1)
    for end in range(1, len(parts) + 1):
        last = parts[end - 1]
        for start in range(end - 1, -1, -1):
            width = reach[end] - reach[start] - last.space + last.hyphen
            width += 0.0 if start else indent
            if width > 1.1 * measure:
                break
            if best[start] == inf:
                continue
            line = cost(width, spaces[end] - spaces[start] - last.space, end == len(parts))
            line += best[start] + last.cost + _hyphen_cost(parts, start, end)
            if line < best[end]:
                best[end], came[end] = line, start
    return _walk_back(came, len(parts)) if best[-1] < inf else ()


def _hyphen_cost(parts: Sequence[LinePart], start: int, end: int) -> float:
    """What it costs that the line before ends in a hyphen, if it does."""
    if not start or not parts[start - 1].hyphen:
        return 0.0
    if end == len(parts):
        return LAST_HYPHEN
    return HYPHENS_IN_A_ROW if parts[end - 1].hyphen else 0.0


def _walk_back(came: Sequence[int], end: int) -> Breaks:
    """The lines from the last to the first, turned around."""
    lines = []
    while end:
        lines.append((came[end], end))
        end = came[end]
    return tuple(reversed(lines))
