"""Titles that fit: they shrink in steps, then wrap, and never run over."""

from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import Final

from layout.type.face import Face
from layout.type.lines import Line
from layout.type.paragraph import one_line, set_words

ONE_LINE_STEPS: Final = (1.0, 0.92, 0.84, 0.76)
TIGHT_STEPS: Final = (*ONE_LINE_STEPS, 0.68, 0.6)
SEVERAL_LINE_STEPS: Final = (0.84, 0.76, 0.68, 0.6)
LAST_STEPS: Final = (0.52, 0.45, 0.39, 0.34)
"""Shares of a title's size that are tried in turn: on one line, on several, in need.

The tight steps are for places where a second line would cost more than small letters do.
"""


class DoesNotFit(Exception):  # noqa: N818 - what befell the words
    """Words too long for their place, even at the smallest size that may be read."""


@lru_cache(maxsize=8192)
def fit_title(
    text: str,
    face: Face,
    measure: float,
    least: float,
    most_lines: int,
    steps: tuple[float, ...] = ONE_LINE_STEPS,
) -> tuple[tuple[Line, ...], Face]:
    """A title's lines and the face that they are set in, none smaller than `least` (the em).

    `steps` are the sizes that are tried before a second line is taken. Lines are about equally
    long; a word is parted only where it is wider than the measure at every size. Raises
    DoesNotFit.
    """
    if measure <= 0:
        raise DoesNotFit(text)
    for share in steps:
        smaller = _at(face, share, least)
        line = one_line(text, smaller)
        if line.width <= measure:
            return (line,), smaller
    for count, share, parting in _attempts(most_lines):
        smaller = _at(face, share, least)
        if parting or _widest_word(text, smaller) <= measure:
            lines = set_words(text, smaller, measure, "even")
            if 0 < len(lines) <= count:
                return lines, smaller
    raise DoesNotFit(text)


def shrunk_line(text: str, face: Face, measure: float, least: float = 0.0) -> Line:
    """One line of a text, as small as the measure asks, but not below `least` (the em): then it
    runs over.
    """
    line = one_line(text, face)
    return line if line.width <= measure else one_line(text, _at(face, measure / line.width, least))


def _attempts(most_lines: int) -> Iterator[tuple[int, float, bool]]:
    """How many lines, at which share of the size, and whether words may be parted."""
    for count in range(2, most_lines + 1):
        yield from ((count, share, False) for share in SEVERAL_LINE_STEPS)
    for parting in (False, True):
        steps = (*SEVERAL_LINE_STEPS, *LAST_STEPS) if parting else LAST_STEPS
        yield from ((most_lines, share, parting) for share in steps)


def _at(face: Face, share: float, least: float) -> Face:
    """The face at a share of its size, but not below the least."""
    return face.scaled(max(share, min(least / face.size, 1.0)))


def _widest_word(text: str, face: Face) -> float:
    return max((one_line(word, face).width for word in text.split(" ")), default=0.0)


def widest(lines: Sequence[Line]) -> float:
    """The width of the widest line."""
    return max((line.width for line in lines), default=0.0)
