"""Lists of ways as arrays: what they strike from many sheets at once."""

from collections.abc import Iterator, Sequence
from typing import Final

from verify.budget import NEVER, Deadline
from verify.walk.facts.arrays import Flags, Masks, Numbers, Words
from verify.walk.ways.listed import Listed

TOGETHER: Final = 5
"""Digits that are looked up together: 32 entries for each cell of a list."""

MOST_AT_ONCE: Final = 200_000
"""Numbers in the largest array that is made on the way, so that it stays in the cache."""


def tables_of(lists: Sequence[Listed]) -> Iterator["Tables"]:
    """Tables for lists, those with as many cells and words together."""
    groups: dict[tuple[int, int], list[Listed]] = {}
    for each in lists:
        if each.ways is not None:
            words = 1 << max(0, each.ways.words - 1).bit_length()
            groups.setdefault((len(each.cells), words), []).append(each)
    for (_, words), group in sorted(groups.items(), key=lambda item: item[0]):
        yield Tables(group, words)


class Tables:
    """Lists of equally many cells, with equally many words for their ways.

    `cells` has a row for each list. For each word, `standing` has the ways of each cell (first
    axis), digit and list; `looked_up` those of any of the digits of a part of a mask, for each
    cell (times the lists), list (times 32) and part.
    """

    def __init__(self, lists: Sequence[Listed], words: int) -> None:
        import numpy

        self.cells = numpy.array([each.cells for each in lists], int)
        packed = [_padded(each.ways.packed, words) for each in lists if each.ways is not None]
        # From list, cell, digit, word to word, cell, digit, list.
        self.standing = numpy.ascontiguousarray(numpy.stack(packed).transpose(3, 1, 2, 0)[:, :, 1:])
        self._bits = (2 << numpy.arange(self.standing.shape[2], dtype=numpy.uint32))[None, :, None]
        self._looked_up = [
            (
                1 + first,
                numpy.ascontiguousarray(_any_of(self.standing[:, :, first : first + TOGETHER])),
            )
            for first in range(0, self.standing.shape[2], TOGETHER)
        ]

    def strike(
        self,
        before: Masks,
        stirred: Flags,
        pencil: Masks,
        losing: Flags,
        deadline: Deadline = NEVER,
    ) -> None:
        """Takes from `pencil` what stands in no way that `before` leaves, where cells are stirred.

        All have a row for each sheet and a column for each cell; `losing` is set where a cell
        loses something. Raises BudgetSpent after the deadline.
        """
        import numpy

        rows, lists = numpy.any(stirred[:, self.cells], axis=2).nonzero()
        step = max(1, MOST_AT_ONCE // self.standing[0, :, :, 0].size)
        for first in range(0, len(rows), step):
            deadline.check()
            some, of = rows[first : first + step], lists[first : first + step]
            cells = self.cells[of].T
            held = before[some, cells]
            struck = held & ~self._kept(held, of)
            at, which = struck.nonzero()
            if len(at):
                where = some[which], cells[at, which]
                losing[where] = True
                numpy.bitwise_and.at(pencil, where, ~struck[at, which])

    def _kept(self, held: Masks, lists: Numbers) -> Masks:
        """The digits that stand in a way, for each cell (first axis) and look at a list.

        `held` has these axes, too; `lists` says which list each look is at.
        """
        import numpy

        count = self.cells.shape[0]
        base = (numpy.arange(len(held))[:, None] * count + lists) * (1 << TOGETHER)
        at = [base + (held >> shift & (1 << TOGETHER) - 1) for shift, _ in self._looked_up]
        stands: Flags | bool = False
        for word, standing in enumerate(self.standing):
            some = numpy.uint64(0)
            for (_, table), index in zip(self._looked_up, at, strict=True):
                some = some | table[word].ravel()[index]
            live = numpy.bitwise_and.reduce(some, axis=0)
            stands = stands | (standing[:, :, lists] & live != 0)
        kept = numpy.where(stands, self._bits, numpy.uint32(0))
        digits: Masks = numpy.bitwise_or.reduce(kept, axis=1)
        return digits


def _padded(packed: Words, words: int) -> Words:
    """Ways by cell, digit and word: the same with so many words."""
    import numpy

    padded = numpy.zeros((*packed.shape[:2], words), packed.dtype)
    padded[:, :, : packed.shape[2]] = packed
    return padded


def _any_of(standing: Words) -> Words:
    """Ways by word, cell, digit and list -> by word, cell, list and set of digits: those of any."""
    import numpy

    words, cells, digits, lists = standing.shape
    found = numpy.zeros((words, cells, lists, 1 << TOGETHER), numpy.uint64)
    for digit in range(digits):
        size = 1 << digit
        found[..., size : 2 * size] = found[..., :size] | standing[:, :, digit, :, None]
    return found
