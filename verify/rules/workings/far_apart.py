"""Digits that lie far apart: the relation of a whisper's neighbours and a beyond line's ends."""

from functools import cache

from verify.pencil import bit
from verify.rules.workings.pairs import Partners


@cache
def apart(gap: int, digits: int) -> Partners:
    """For each digit, those up to `digits` that differ from it by `gap` or more."""
    every = range(1, digits + 1)
    return (0, *(sum(bit(far) for far in every if abs(far - digit) >= gap) for digit in every))
