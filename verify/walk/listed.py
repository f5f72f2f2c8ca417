"""Lists of all the ways to fill a few cells that marks and houses speak of together.

A list is made once, from the sheet as it stands when it is first asked, and asked very often: each
digit of each cell knows its ways as the bits of a whole number.
"""

from collections.abc import Callable, Iterator, Sequence
from functools import reduce
from itertools import combinations, islice
from math import prod
from operator import or_
from typing import TYPE_CHECKING, Final, TypeAlias

from verify.board import Cell
from verify.pencil import Mask, Pencil, Strike, bit, digits_of, highest
from verify.rules.apart import Apart
from verify.walk.equations import Terms, equations_of, ways_to_sum
from verify.walk.step import House, Link

if TYPE_CHECKING:
    from verify.walk.notes import Notes

Way: TypeAlias = tuple[int, ...]
"""A digit for each of some cells."""

FEWEST_CELLS: Final = 3
MOST_CELLS: Final = 6
MOST_COMBINED: Final = 30_000
"""Ways to combine the candidates of some cells, past which they are not gone through."""
MOST_WAYS: Final = 4_000
"""Ways kept in a list; where there are more it would strike next to nothing."""


class Listed:
    """All ways to fill some cells; `links` and `houses` are the reasons for what is not in it.

    `ways` finds them on the sheet as it stands when it is called.
    """

    def __init__(
        self,
        notes: "Notes",
        reasons: tuple[Sequence[Link], Sequence[House]],
        cells: Sequence[Cell],
        ways: Callable[[], Iterator[Way]],
    ) -> None:
        links, houses = notes.sights(cells, cells)[::-1]
        self.cells = tuple(cells)
        self.links = tuple(dict.fromkeys((*reasons[0], *links)))
        self.houses = tuple(dict.fromkeys((*reasons[1], *houses)))
        self._notes = notes
        self._ways = ways
        self._standing: list[dict[int, int]] | None = None

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Candidates that stand in none of the ways that the marks leave."""
        if self._standing is None:
            self._standing = self._made()
        live = -1
        for cell, ways in zip(self.cells, self._standing, strict=False):
            mask = pencil[cell]
            live &= reduce(or_, (of for digit, of in ways.items() if mask >> digit & 1), 0)
        removes = []
        for cell, ways in zip(self.cells, self._standing, strict=False):
            struck = pencil[cell] & ~sum(bit(digit) for digit, of in ways.items() if of & live)
            if struck:
                removes.append((cell, struck))
        if removes:
            yield Strike(tuple(removes), self.cells)

    def _made(self) -> list[dict[int, int]]:
        """For each cell and digit the ways that have it there; nothing where ways are too many."""
        if prod(self._notes.pencil[cell].bit_count() for cell in self.cells) > MOST_COMBINED:
            return []
        ways = list(islice(self._ways(), MOST_WAYS + 1))
        if len(ways) > MOST_WAYS:
            return []
        standing: list[dict[int, int]] = [{} for _ in self.cells]
        for number, way in enumerate(ways):
            for of, digit in zip(standing, way, strict=True):
                of[digit] = of.get(digit, 0) | 1 << number
        return standing


def listings(notes: "Notes") -> Iterator[Listed]:
    """A list for each small sum, each other small mark, and what is left over of sums of houses."""
    for link in notes.links:
        sums = [equation for equation in equations_of(link) if not equation.is_turned]
        for equation in sums:
            if _is_worth_listing(notes, [cell for cell, _ in equation.terms]):
                yield _of_sum(notes, ((link,), ()), equation.terms, equation.total)
        if not sums and not isinstance(link.constraint, Apart):
            cells = sorted(set(link.constraint.cells))
            if _is_worth_listing(notes, cells):
                yield _of_mark(notes, link, cells)
    for left in notes.left_overs:
        if len(left.terms) <= MOST_CELLS:
            yield _of_sum(notes, (left.links, left.houses), left.terms, left.total)


def _is_worth_listing(notes: "Notes", cells: Sequence[Cell]) -> bool:
    """Whether cells are few enough, and see each other: else a mark says all by itself."""
    return FEWEST_CELLS <= len(cells) <= MOST_CELLS and any(
        notes.peers[one] >> other & 1 for one, other in combinations(cells, 2)
    )


def _of_sum(
    notes: "Notes",
    reasons: tuple[Sequence[Link], Sequence[House]],
    terms: Terms,
    total: int,
) -> Listed:
    return Listed(
        notes,
        reasons,
        [cell for cell, _ in terms],
        lambda: ways_to_sum(terms, total, notes.pencil, notes.peers),
    )


def _of_mark(notes: "Notes", link: Link, cells: Sequence[Cell]) -> Listed:
    return Listed(notes, ((link,), ()), cells, lambda: _ways_of_mark(notes, link, cells))


def _ways_of_mark(notes: "Notes", link: Link, cells: Sequence[Cell]) -> Iterator[Way]:
    """Every way to fill a mark: cell by cell, with all that it strikes after each digit."""

    def fill(index: int, pencil: list[Mask]) -> Iterator[Way]:
        if index == len(cells):
            yield tuple(highest(pencil[cell]) for cell in cells)
            return
        cell = cells[index]
        for digit in digits_of(pencil[cell]):
            after = pencil.copy()
            after[cell] = bit(digit)
            for other in cells:
                if notes.peers[cell] >> other & 1:
                    after[other] &= ~bit(digit)
            for strike in link.constraint.strikes(after.copy()):
                for struck, mask in strike.removes:
                    after[struck] &= ~mask
            if all(after[each] for each in cells):
                yield from fill(index + 1, after)

    return fill(0, list(notes.pencil))
