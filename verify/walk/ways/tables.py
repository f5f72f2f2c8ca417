"""Lists of ways as arrays: what they strike from many sheets at once."""

from collections.abc import Sequence
from typing import Final

from verify.budget import NEVER, Deadline
from verify.walk.facts.arrays import MOST_SHORT_DIGITS, Digits, Flags, Masks, Numbers, Words
from verify.walk.ways.listed import Ways

TOGETHER: Final = 5
"""Digits that are looked up together: 32 entries for each cell."""

WORD: Final = 64
"""Ways in a word."""

MOST_AT_ONCE: Final = 2_000_000
"""Bytes of the largest array that is made on the way."""


class Tables:
    """What some lists with up to so many cells strike, counted from 0; None is not asked about.

    The words of all lists, 64 ways each, stand one after another, those of a list from `first` on,
    as many as `count` says. `standing` has for each word, cell and digit from 0 the ways that have
    it; `looked_up` those that have any digit of a part of a mask, for each word, cell and part.
    """

    def __init__(self, lists: Sequence[Ways | None], cells: int, digits: int) -> None:
        import numpy

        counts = [0 if each is None else max(1, each.words) for each in lists]
        self._count = numpy.array(counts, int)
        self._first = numpy.cumsum(self._count) - self._count
        words = int(self._count.sum())
        self._standing = numpy.zeros((words, cells, _flags(digits)), numpy.uint64)
        written = self._written(lists, words, cells)
        step = max(1, MOST_AT_ONCE // (WORD * cells * digits))
        for first in range(0, words, step):
            some = slice(first, first + step)
            self._standing[some, :, : digits + 1] = _packed(written[some], digits)
        starts = range(1, digits + 1, TOGETHER)
        self._looked_up = [(start, self._any_of(start, digits)) for start in starts]
        for at, each in zip(self._first.tolist(), lists, strict=True):
            if each is not None:
                self._fill_up(slice(at, at + max(1, each.words)), each.array.shape[1])

    def _written(self, lists: Sequence[Ways | None], words: int, cells: int) -> Digits:
        """The digits of all ways, by word, cell and way; 0 where there is none."""
        import numpy

        written = numpy.zeros((words * WORD, cells), numpy.uint8)
        for at, each in zip(self._first.tolist(), lists, strict=True):
            if each is not None:
                count, own = each.array.shape
                written[at * WORD : at * WORD + count, :own] = each.array
        return written.reshape(words, WORD, cells).transpose(0, 2, 1)

    def _any_of(self, start: int, digits: int) -> Words:
        """The ways that have any of a set of digits from `start` on, by word, cell and set."""
        import numpy

        words, cells, _ = self._standing.shape
        found = numpy.zeros((words, cells, 1 << TOGETHER), numpy.uint64)
        for at, digit in enumerate(range(start, min(start + TOGETHER, digits + 1))):
            size = 1 << at
            here = self._standing[:, :, digit, None]
            numpy.bitwise_or(found[:, :, :size], here, out=found[:, :, size : 2 * size])
        return found

    def _fill_up(self, words: slice, own: int) -> None:
        """Where a list has no cell, nothing keeps its ways from standing."""
        import numpy

        _, table = self._looked_up[0]
        table[words, own:] = ~numpy.uint64(0)

    def struck(self, lists: Numbers, held: Masks, deadline: Deadline = NEVER) -> Masks:
        """What leaves each cell of a list where its cells hold so much, a row for each look.

        Raises BudgetSpent after the deadline.
        """
        import numpy

        struck = numpy.empty_like(held)
        widest = int(self._count.max(initial=1)) * self._standing[0].size * WORD // 8
        step = max(1, MOST_AT_ONCE // widest)
        for first in range(0, len(lists), step):
            deadline.check()
            some = slice(first, first + step)
            struck[some] = held[some] & ~self._kept(lists[some], held[some])
        return struck

    def _kept(self, lists: Numbers, held: Masks) -> Masks:
        """The digits that stand in a way that is left."""
        import numpy

        count = self._count[lists]
        first = numpy.cumsum(count) - count
        look = numpy.repeat(numpy.arange(len(lists)), count)
        word = self._first[lists][look] + numpy.arange(len(look)) - first[look]
        held = held[look].astype(numpy.intp)
        base = (word[:, None] * held.shape[1] + numpy.arange(held.shape[1])) << TOGETHER
        some = numpy.uint64(0)
        for start, table in self._looked_up:
            some = some | table.ravel()[base + (held >> start & (1 << TOGETHER) - 1)]
        live = numpy.bitwise_and.reduce(some, axis=1)
        stands = self._standing[word] & live[:, None, None] != 0
        kept: Masks = numpy.bitwise_or.reduceat(_masks(stands), first, axis=0)
        return kept


def _packed(written: Digits, digits: int) -> Words:
    """For each word, cell and digit from 0, the bits of the ways that have it there."""
    import numpy

    every = numpy.arange(digits + 1, dtype=numpy.uint8)
    stands = written[:, :, None, :] == every[:, None]
    packed: Words = numpy.packbits(stands, axis=3, bitorder="little").view("<u8")[..., 0]
    return packed


def _flags(digits: int) -> int:
    """Flags for digits from 0 on: as many as fill a number of 8, 16 or 32 bits when packed."""
    return digits + 1 if digits <= MOST_SHORT_DIGITS else 32


def _masks(stands: Flags) -> Masks:
    """Flags of digits (the last axis) as masks."""
    import numpy

    octets = numpy.packbits(stands, axis=2, bitorder="little")
    masks: Masks = octets.view(f"<u{octets.shape[2]}")[..., 0]
    return masks
