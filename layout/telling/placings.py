"""How digits are placed: house by house, each with the reason that a reader can see."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Final

from layout.language.words import fill
from layout.telling.knowledge import Knowledge
from layout.telling.names import Names, capital
from verify.board import Cell
from verify.pencil import Mask, bit
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import House, Technique
from verify.walk.told.event import Based

MOST_ALSO_SEEN: Final = 5
"""Digits that a cell also sees, and that are told one by one."""


@dataclass(frozen=True, slots=True)
class Placed:
    """A digit in a cell, and why it stands there: the house where nothing else can take it, or
    words of its own; `is_left` where they say no more than that nothing else is left.
    """

    cell: Cell
    digit: int
    house: House | None
    words: str
    is_left: bool = False


class Placings:
    """Tells placements on one puzzle, each on the sheet as it stands before it."""

    def __init__(self, names: Names, notes: Notes) -> None:
        self._names = names
        self._words = names.words.walk.placing
        self._notes = notes
        self._known = Knowledge(names, notes)

    def placed(self, based: Based, told: Mapping[Cell, Mask]) -> Placed:
        """One placement; `told` is what a push has just said of cells."""
        ((cell, digit),) = based.step.places
        if based.step.technique is not Technique.NAKED_SINGLE:
            return Placed(cell, digit, based.step.because.houses[0], "")
        left = told.get(cell, 0)
        if left == bit(digit):
            return Placed(cell, digit, None, "")
        return self._naked(based, cell, digit, left)

    def _naked(self, based: Based, cell: Cell, digit: int, left: Mask) -> Placed:
        """A cell with one digit left: by what it sees of what a push has `left` it, if it has."""
        names, (_, missing) = self._names, based.needs[0]
        values = {"cell": names.cell(cell), "chosen": names.the(digit)}
        seen = [d for each in self._known.sights(cell, missing & left).values() for d in each]
        if left and left & missing == sum(map(bit, seen)) and len(seen) <= MOST_ALSO_SEEN:
            digits = names.words.lists.join([names.digit(each) for each in sorted(seen)])
            return Placed(cell, digit, None, fill(self._words.sees, **values, seen=digits))
        return Placed(cell, digit, None, fill(self._words.left, **values), is_left=True)

    def sentence(self, placed: Sequence[Placed]) -> str:
        """All of some placements in one sentence; nothing where nothing is left to say."""
        told = list(self._clauses(placed))
        if not told:
            return ""
        return f"{capital(self._names.words.lists.semicolon.join(told))}."

    def alone(self, placed: Placed) -> str:
        """A placement in a sentence of its own, even where a push has just read it off."""
        names = self._names
        cell, digit = names.cell(placed.cell), names.the(placed.digit)
        so = fill(self._words.so, cell=cell, chosen=digit)
        return self.sentence([placed]) or f"{capital(so)}."

    def _clauses(self, placed: Sequence[Placed]) -> Iterator[str]:
        """A clause for each house in a row, and for each cell by itself."""
        for (house, is_left), run in groupby(placed, key=lambda each: (each.house, each.is_left)):
            together = list(run)
            if house is not None:
                yield self._in_house(house, together)
            elif is_left:
                yield self._left(together)
            else:
                yield from (each.words for each in together if each.words)

    def _left(self, placed: Sequence[Placed]) -> str:
        """Cells with one digit left each."""
        names, first = self._names, placed[0]
        items = [
            fill(self._words.left_next, chosen=names.the(each.digit), cell=names.cell(each.cell))
            for each in placed[1:]
        ]
        return names.words.lists.join([first.words, *items])

    def _in_house(self, house: House, placed: Sequence[Placed]) -> str:
        names = self._names
        items: list[str] = []
        for each in placed:
            words = self._words.goes_next if items else self._words.goes_first
            items.append(fill(words, chosen=names.the(each.digit), cell=names.cell(each.cell)))
        return fill(
            self._words.goes, **{"in": names.house(house)}, items=names.words.lists.join(items)
        )

    def rest(self, based: Sequence[Based], most: int, pushes: Sequence[str]) -> str:
        """The placements at the end: the first of them, and what is pushed on the way."""
        first = [place for each in based[:most] for place in each.step.places]
        placed = [
            fill(
                self._names.words.walk.digits_in_cells,
                chosen=self._names.the(digit),
                cells=self._names.cell(cell),
            )
            for cell, digit in first
        ]
        joined = self._names.words.lists.join(placed)
        sentence = fill(self._words.rest.of(len(based)), placed=joined)
        if not pushes:
            return sentence
        return f"{sentence} {fill(self._words.on_the_way, pushes=' '.join(pushes))}"
