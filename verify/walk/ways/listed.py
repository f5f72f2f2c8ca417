"""Lists of all the ways to fill a few cells that marks and houses speak of together.

A list is made from the sheet as it stands when it is first asked and has few enough ways, and is
asked very often: each digit of each cell knows its ways as bits.
"""

from collections.abc import Callable, Iterator, Sequence
from functools import cached_property, partial
from itertools import combinations, islice
from math import prod
from typing import Final, TypeAlias

from verify.board import Cell
from verify.facets import Facets, Form
from verify.pencil import Mask, Pencil, Strike, bit, digits_of, highest
from verify.walk.facts.arrays import Digits, Words
from verify.walk.facts.equations import Terms
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import House, Link

Way: TypeAlias = tuple[int, ...]
"""A digit for each of some cells."""

FEWEST_CELLS: Final = 2
MOST_CELLS: Final = 8
MOST_COMBINED: Final = 60_000
"""Ways to combine the candidates of some cells, past which they are not gone through."""
MOST_WAYS: Final = 1_024
"""Ways kept in a list; where there are more it would strike next to nothing."""
LOOKED_AT_AGAIN: Final = 8
"""Cells that had too many ways are looked at again when they have so many times fewer."""

TRIED_AT_ONCE: Final = 4
"""Digits of a last cell that are sooner tried than struck."""


class Ways:
    """A list as it was made: `array` has a row for each way, and in it a digit for each cell."""

    def __init__(self, array: Digits, digits: int) -> None:
        self.array = array
        self.digits = digits

    @cached_property
    def packed(self) -> Words:
        """For each cell and each digit from 0, the bits of the ways that have it there.

        By cell, digit and word. Eight bytes make a word, and the lowest bit is the first way.
        """
        import numpy

        every = numpy.arange(self.digits + 1, dtype=self.array.dtype)
        count, cells = self.array.shape
        stands = numpy.zeros((cells, len(every), 64 * self.words), bool)
        stands[:, :, :count] = self.array.T[:, None, :] == every[None, :, None]
        return numpy.packbits(stands, axis=2, bitorder="little").view("<u8")

    @cached_property
    def standing(self) -> tuple[tuple[tuple[Mask, int], ...], ...]:
        """For each cell its digits, each with the ways that have it there, as a whole number."""
        return tuple(
            tuple(
                (bit(digit), number)
                for digit, words in enumerate(of)
                if (number := int.from_bytes(words.tobytes(), "little"))
            )
            for of in self.packed
        )

    @property
    def words(self) -> int:
        """Words of 64 bits for all ways."""
        return -(-len(self.array) // 64)

    def left(self, masks: Sequence[Mask]) -> "Ways":
        """The ways that the marks leave; the same list where that would save no word."""
        import numpy

        held = numpy.array(masks, numpy.uint32)
        still = ((held >> self.array.astype(numpy.uint32)) & 1).all(axis=1)
        left = Ways(self.array[still], self.digits)
        return left if left.words < self.words else self


class Listed:
    """All ways to fill some cells, for `reasons`: marks and houses, beside which cells differ.

    `link` is the mark whose ways they are, if there is one; `is_whole` where they say all that it
    says. `find` goes through the ways on the sheet as it stands when it is called.
    """

    def __init__(
        self,
        notes: Notes,
        reasons: tuple[Sequence[Link], Sequence[House]],
        cells: Sequence[Cell],
        find: Callable[[], Digits],
        *,
        is_whole: bool = False,
    ) -> None:
        notes.deadline.check()
        self.cells = tuple(cells)
        self.link = reasons[0][0] if len(reasons[0]) == 1 and not reasons[1] else None
        self.is_whole = is_whole
        self._reasons = reasons
        self.ways: Ways | None = None
        self._notes = notes
        self._find = find
        self._most = MOST_COMBINED
        self._held: tuple[Mask, ...] = ()

    @cached_property
    def links(self) -> tuple[Link, ...]:
        """The marks that it was made from."""
        _, sights = self._notes.sights(self.cells, self.cells)
        return tuple(dict.fromkeys((*self._reasons[0], *sights)))

    @cached_property
    def houses(self) -> tuple[House, ...]:
        """The houses that it was made from."""
        sights, _ = self._notes.sights(self.cells, self.cells)
        return tuple(dict.fromkeys((*self._reasons[1], *sights)))

    def look(self) -> bool:
        """Makes the list, or shortens it, by the sheet as it stands; whether there is one."""
        held = tuple(self._notes.pencil[cell] for cell in self.cells)
        if held != self._held:
            self._held = held
            if self.ways is None:
                self.ways = self._made(held)
            else:
                self.ways = self.ways.left(held)
        return self.ways is not None

    def _made(self, held: Sequence[Mask]) -> Ways | None:
        combined = prod(mask.bit_count() for mask in held)
        if combined > self._most:
            return None
        ways = self._find()
        if len(ways) > MOST_WAYS:
            self._most = combined // LOOKED_AT_AGAIN
            return None
        return Ways(ways, self._notes.digits)

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Candidates that stand in none of the ways that the marks leave."""
        if self.ways is None:
            return
        live = self._live(pencil)
        removes = []
        for cell, ways in zip(self.cells, self.ways.standing, strict=True):
            struck = pencil[cell]
            for digit, of in ways:
                if of & live:
                    struck &= ~digit
            if struck:
                removes.append((cell, struck))
        if removes:
            yield Strike(tuple(removes), self.cells)

    def always(self, pencil: Pencil, cells: Sequence[Cell]) -> Mask:
        """The digits that each way which the marks leave has in one of some cells."""
        if self.ways is None:
            return 0
        live, found = self._live(pencil), dict.fromkeys(range(self._notes.digits + 1), 0)
        for cell, ways in zip(self.cells, self.ways.standing, strict=True):
            if cell in cells:
                for digit, of in ways:
                    found[highest(digit)] |= of
        return sum(bit(digit) for digit, of in found.items() if live and not live & ~of)

    def _live(self, pencil: Pencil) -> int:
        """The ways that the marks leave, as bits."""
        live = -1
        for cell, ways in zip(self.cells, self.ways.standing if self.ways else (), strict=False):
            mask, some = pencil[cell], 0
            for digit, of in ways:
                if mask & digit:
                    some |= of
            live &= some
        return live


def listings(notes: Notes) -> Iterator[Listed]:
    """A list for each small mark, each small sum, and what is left over of sums of houses."""
    for link in notes.links:
        facets = notes.facets[link]
        cells = sorted(set(link.constraint.cells))
        is_sum = _is_sum(facets, cells)
        if FEWEST_CELLS <= len(cells) <= MOST_CELLS and not is_sum:
            yield _of_mark(notes, link, cells)
        for said in facets.sums_once:
            if is_sum or _is_worth_listing(notes, [cell for cell, _ in said.terms]):
                yield _of_sum(notes, ((link,), ()), said.terms, said.total, is_whole=is_sum)
    for left in notes.left_overs:
        if len(left.terms) <= MOST_CELLS:
            yield _of_sum(notes, (left.links, left.houses), left.terms, left.total)


def _is_sum(facets: Facets, cells: Sequence[Cell]) -> bool:
    """Whether one sum, with the cells that see each other, is all that a mark says."""
    sums = facets.sums_once
    return facets.all_by is Form.SUMS and len(sums) == 1 and len(sums[0].terms) == len(cells)


def _is_worth_listing(notes: Notes, cells: Sequence[Cell]) -> bool:
    """Whether cells are few enough, and see each other: else a mark says all by itself."""
    return FEWEST_CELLS <= len(cells) <= MOST_CELLS and any(
        notes.peers[one] >> other & 1 for one, other in combinations(cells, 2)
    )


def _of_sum(
    notes: Notes,
    reasons: tuple[Sequence[Link], Sequence[House]],
    terms: Terms,
    total: int,
    *,
    is_whole: bool = False,
) -> Listed:
    cells = [cell for cell, _ in terms]
    find = partial(_ways_to_sum, notes, terms, total)
    return Listed(notes, reasons, cells, find, is_whole=is_whole)


def _ways_to_sum(notes: Notes, terms: Terms, total: int) -> Digits:
    """Every choice of digits that makes a total, where cells that see each other differ."""
    import numpy

    digits = (numpy.array(list(digits_of(notes.pencil[cell])), numpy.int16) for cell, _ in terms)
    held = numpy.ix_(*digits)
    sums = sum(weight * each for (_, weight), each in zip(terms, held, strict=True))
    right = numpy.asarray(sums == total)
    for (one, here), (other, there) in combinations(zip(terms, held, strict=True), 2):
        if notes.peers[one[0]] >> other[0] & 1:
            right &= here != there
    found = numpy.nonzero(right)
    ways = [each.ravel()[at] for each, at in zip(held, found, strict=True)]
    return numpy.stack(ways, axis=1).astype(numpy.uint8)


def _of_mark(notes: Notes, link: Link, cells: Sequence[Cell]) -> Listed:
    find = partial(_array_of_mark, notes, link, cells)
    return Listed(notes, ((link,), ()), cells, find, is_whole=True)


def _array_of_mark(notes: Notes, link: Link, cells: Sequence[Cell]) -> Digits:
    """Every way to fill a mark, or one more than are kept in a list."""
    import numpy

    ways = list(islice(_ways_of_mark(notes, link, cells), MOST_WAYS + 1))
    return numpy.array(ways, numpy.uint8).reshape(len(ways), len(cells))


def _ways_of_mark(notes: Notes, link: Link, cells: Sequence[Cell]) -> Iterator[Way]:
    """Every way to fill a mark: cell by cell, with all that it strikes after each digit.

    Which digits the last cell takes is read off the mark itself.
    """
    strikes, holds = link.constraint.strikes, link.constraint.holds
    seen = [
        [other for other in cells[at:] if notes.peers[cell] >> other & 1]
        for at, cell in enumerate(cells)
    ]
    grid, last = [0] * len(notes.pencil), len(cells) - 1

    def fill(index: int, pencil: list[Mask]) -> Iterator[Way]:
        cell = cells[index]
        for digit in digits_of(pencil[cell]):
            grid[cell] = digit
            if index == last:
                if holds(grid):
                    yield tuple([grid[each] for each in cells])
                continue
            notes.deadline.check()
            after = pencil.copy()
            after[cell] = bit(digit)
            for other in seen[index]:
                after[other] &= ~bit(digit)
            if index < last - 1 or after[cells[last]].bit_count() > TRIED_AT_ONCE:
                for strike in strikes(after.copy()):
                    for struck, mask in strike.removes:
                        after[struck] &= ~mask
            if all(after[each] for each in cells):
                yield from fill(index + 1, after)

    return fill(0, list(notes.pencil))
