"""What is known of a cell, in words: "r5c1 is at least 6 (4 and 5 in its row)"."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from typing import TypeAlias

from layout.language.sentence import Sentence
from layout.language.words import fill
from layout.telling.names import Names
from verify.board import Cell
from verify.pencil import Mask, digits_of, every_digit, highest, is_single, lowest
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import House

MOST_NAMED: int = 3
"""Digits that are told one by one, of those left or of those that are gone."""

MOST_SEEN: int = 4
"""Digits that a cell sees and that are told one by one."""

MANY_CELLS: int = 4
"""Cells of a sentence from which on those that know the same are told apart by semicolons."""

EVEN: Mask = sum(1 << digit for digit in range(0, 64, 2))

Sights: TypeAlias = Mapping[House | None, list[int]]
"""The digits that a cell sees, by the house in which it does."""


class Knowledge:
    """Says what is known of cells on a sheet, and where one sees it."""

    def __init__(self, names: Names, notes: Notes) -> None:
        self._names = names
        self._words = names.words.walk.known
        self._notes = notes
        self._every = every_digit(notes.digits)

    def facts(self, masks: Iterable[tuple[Cell, Mask]]) -> str:
        """What is left for some cells: those that know the same together."""
        return self._joined(self._each(masks, {}))

    def premises(
        self, needs: Sequence[tuple[Cell, Mask]], told: Collection[tuple[Cell, Mask]]
    ) -> str:
        """What must be missing from some cells, told by what is left, and where one sees it.

        Where one sees it, needs not be said again of what was `told`.
        """
        seen = {
            cell: self.sights(cell, mask)
            for cell, mask in needs
            if not self._is_placed(cell) and (cell, mask) not in told
        }
        return self._joined(self._each([(cell, self._every & ~mask) for cell, mask in needs], seen))

    def seen(self, cell: Cell, missing: Mask) -> str:
        """Where a cell sees some of the digits that it misses; nothing where it sees none."""
        return self._told_of(self.sights(cell, missing), 1)

    def _told_of(self, found: Sights, count: int) -> str:
        """What so many cells see, and where."""
        if sum(len(digits) for digits in found.values()) > MOST_SEEN:
            return self._words.by_sight
        its = self._names.its
        told = [
            fill(self._words.by_digits, chosen=self._all(digits), its=its(house, count))
            for house, digits in found.items()
        ]
        return self._names.words.lists.comma.join(told)

    def sights(self, cell: Cell, missing: Mask) -> Sights:
        """The digits that stand where a cell sees them, by the house in which it does."""
        notes, found = self._notes, dict[House | None, list[int]]()
        for digit in digits_of(missing):
            holders = notes.where[digit] & notes.placed & notes.peers[cell]
            if not holders:
                continue
            houses = [
                house
                for house, cells in notes.sets.items()
                if cells >> cell & 1 and cells & holders
            ]
            known = next((house for house in found if house in houses), None)
            house = known or (houses[0] if houses else None)
            found.setdefault(house, []).append(digit)
        return found

    def range(self, cells: Sequence[Cell], left: Mask) -> str:
        """What is left for cells that all know the same."""
        sentence, chosen = self._phrase(left)
        name = self._names
        return fill(
            sentence.of(len(cells)),
            cells=name.cells(cells),
            only=name.the(lowest(left)) if left else "",
            low=name.digit(lowest(left)) if left else "",
            high=name.digit(highest(left)) if left else "",
            chosen=name.either(chosen) if chosen else "",
        )

    def _each(
        self, masks: Iterable[tuple[Cell, Mask]], seen: Mapping[Cell, Sights]
    ) -> list[tuple[int, str]]:
        """What is known of cells, those that know the same together; and of how many it is said."""
        groups: dict[tuple[Mask, str], list[Cell]] = {}
        for cell, mask in masks:
            where = self._told_of(seen.get(cell, {}), 1)
            groups.setdefault((mask & self._every, where), []).append(cell)
        told = []
        for (mask, where), cells in groups.items():
            known, sights = self.range(cells, mask), [seen.get(cell, {}) for cell in cells]
            if len(cells) > 1 and all(each == sights[0] for each in sights):
                where = self._told_of(sights[0], len(cells))
            said = fill(self._words.seen, known=known, seen=where) if where else known
            told.append((len(cells), said))
        return told

    def _joined(self, told: Sequence[tuple[int, str]]) -> str:
        """What is known in one sentence: lists of cells are kept apart."""
        lists, said = self._names.words.lists, [words for _, words in told]
        if len(told) > 1 and sum(count for count, _ in told) >= MANY_CELLS > len(told):
            return lists.semicolon.join(said)
        return lists.join(said)

    def _phrase(self, left: Mask) -> tuple[Sentence, Mask]:
        """The plainest way to tell what is left."""
        words, gone = self._words, self._every & ~left
        if is_single(left):
            return words.is_, 0
        bounded = _phrase_of_bounds(left, self._every)
        if bounded and left.bit_count() > 2:
            return getattr(words, bounded), 0
        if left.bit_count() <= MOST_NAMED:
            return words.few, left
        if gone.bit_count() <= MOST_NAMED:
            return words.is_not, gone
        if left == self._every & EVEN or left == self._every & ~EVEN:
            return (words.even if left & EVEN else words.odd), 0
        return words.few, left

    def _is_placed(self, cell: Cell) -> bool:
        return bool(self._notes.placed >> cell & 1)

    def _all(self, digits: Sequence[int]) -> str:
        return self._names.words.lists.join([self._names.digit(digit) for digit in digits])


def _phrase_of_bounds(left: Mask, every: Mask) -> str:
    """How digits without a gap are told by their ends; nothing where there is a gap."""
    if not left or left & (left + (left & -left)):
        return ""
    starts, ends = bool(left & (every & -every)), highest(left) == highest(every)
    if starts:
        return "at_most"
    return "at_least" if ends else "from_to"
