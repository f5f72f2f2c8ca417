"""What a walk calls the cells, digits, houses and marks of one puzzle."""

import re
from collections.abc import Iterable, Mapping, Sequence
from types import MappingProxyType
from typing import Final

from layout.language.sentence import Sentence
from layout.language.walk_words import TechniqueWords
from layout.language.wording import symbol_words
from layout.language.words import Words, fill
from verify.board import SIDES, Cell, Outside
from verify.pencil import Mask, digits_of
from verify.puzzle import Puzzle
from verify.walk.facts.step import House, Link, Technique

_CELL: Final = re.compile(r"r\d+c\d")

NONE_CALLED: Final[Mapping[Cell, str]] = MappingProxyType({})

LEAST_SPAN: Final = 3
"""Digits in a row that are told by the first and the last of them."""


def capital(text: str) -> str:
    """A sentence begins with a capital, but for the name of a cell."""
    return text if _CELL.match(text) else text[:1].upper() + text[1:]


def technique_key(technique: Technique) -> str:
    """By what name the words know a technique."""
    return technique.value.replace(" ", "-")


class Names:
    """The names that one language has for the parts of one puzzle; cells by words, or short.

    Some cells may be `called` by names of their own.
    """

    def __init__(
        self,
        puzzle: Puzzle,
        words: Words,
        *,
        in_words: bool = False,
        called: Mapping[Cell, str] = NONE_CALLED,
    ) -> None:
        self.words = words
        self._in_words = in_words
        self._called = called
        self.symbol_words = symbol_words(puzzle.symbols, words)
        self._board = puzzle.board
        self._uses = puzzle.uses
        self._symbols = [words.worksheet.shapes.get(each, each) for each in puzzle.symbols]
        self._boxes = tuple(puzzle.board.box_blocks())

    def cell(self, cell: Cell) -> str:
        """Its own name, or as manifests name it, or by its row and column in words."""
        if cell in self._called:
            return self._called[cell]
        if not self._in_words:
            return self._board.name(cell)
        row, column = self._board.place(cell)
        return fill(self.words.walk.cell_in_words, row=row + 1, column=column + 1)

    def cells(self, cells: Iterable[Cell]) -> str:
        """Cells in a list: "r1c1 and r2c1"."""
        return self.words.lists.join(list(map(self.cell, cells)))

    def spots(self, cells: Iterable[Cell]) -> str:
        """Cells of which one will do: "r1c1 or r2c1"."""
        return self.words.lists.either(list(map(self.cell, cells)))

    def digit(self, digit: int) -> str:
        """The puzzle's symbol."""
        return self._symbols[digit - 1]

    def the(self, digit: int) -> str:
        """The puzzle's symbol as a thing of its own, with its article where a language has one."""
        return fill(self.symbol_words.the, symbol=self.digit(digit))

    def all_the(self, mask: Mask) -> str:
        """Each of some digits, each named as a thing of its own."""
        return self.words.lists.join([self.the(digit) for digit in digits_of(mask)])

    def spots_of(self, mask: Mask) -> str:
        """One of some digits, each named as a thing of its own: "7 or 8"."""
        return self.words.lists.either([self.the(digit) for digit in digits_of(mask)])

    def either(self, mask: Mask) -> str:
        """One of some digits, one by one: "7 or 8"."""
        return self.words.lists.either([self.digit(digit) for digit in digits_of(mask)])

    def its(self, house: House | None, count: int = 1) -> str:
        """Where a cell sees what stands in one of its houses: "in its row"; or so many cells."""
        its = self.words.walk.its
        if house is None:
            return its.elsewhere.of(count)
        phrase: Sentence = getattr(its, house.kind.replace(" ", "_").replace("wrapped_", ""))
        return phrase.of(count)

    def all_of(self, mask: Mask) -> str:
        """Each of some digits: "1, 2 and 5"."""
        return self.words.lists.join(self._spans(mask))

    def _spans(self, mask: Mask) -> list[str]:
        """Digits one by one, or several in a row by their ends where these are numbers."""
        told: list[str] = []
        for run in _runs(mask):
            names = [self.digit(digit) for digit in run]
            if len(run) >= LEAST_SPAN and all(name.isdecimal() for name in names):
                told.append(fill(self.words.walk.span, first=names[0], last=names[-1]))
            else:
                told.extend(names)
        return told

    def technique(self, technique: Technique) -> str:
        """What a technique is called."""
        return self.technique_words(technique).name

    def technique_words(self, technique: Technique) -> TechniqueWords:
        """What a technique is called and says."""
        return self.words.walk.techniques[technique_key(technique)]

    def house(self, house: House) -> str:
        """Where a house is, with its preposition: "in row 3"."""
        places = self.words.walk.houses
        first = self.cell(house.cells[0])
        if house.kind in ("row", "column"):
            return self._line(house)
        if house.kind == "box" and self._has_nine_boxes():
            return places.nine_boxes[self._boxes.index(house.cells)]
        phrase: str = getattr(places, house.kind.replace(" ", "_"))
        return fill(phrase, cell=first)

    def houses(self, houses: Sequence[House]) -> str:
        """Where several houses are: "in rows 3 and 5"; "in row 3 and in the centre box"."""
        words, kinds = self.words.walk.houses, {house.kind for house in houses}
        phrase = {"row": words.rows, "column": words.columns}.get(next(iter(kinds), ""))
        if len(houses) == 1 or len(kinds) > 1 or phrase is None or self._board.grids:
            return self.words.lists.join(list(map(self.house, houses)))
        axis = 0 if "row" in kinds else 1
        numbers = sorted(self._board.place(house.cells[0])[axis] + 1 for house in houses)
        return fill(phrase, numbers=self.words.lists.join(list(map(str, numbers))))

    def _line(self, house: House) -> str:
        places = self.words.walk.houses
        first, last = house.cells[0], house.cells[-1]
        if self._board.grids:
            phrase = places.row_of_grid if house.kind == "row" else places.column_of_grid
            return fill(phrase, cell=self.cell(first), last=self.cell(last))
        row, column = self._board.place(first)
        if house.kind == "row":
            return fill(places.row, number=row + 1)
        return fill(places.column, number=column + 1)

    def _has_nine_boxes(self) -> bool:
        return len(self._boxes) == 9 and not self._board.grids and self._board.boxes == (3, 3)

    def mark(self, link: Link) -> str:
        """One mark of a rule: "the thermometer from r2c1"."""
        cells = link.constraint.cells
        words = self.words.rules[link.rule]
        return fill(
            words.called_branch if words.called_branch and self._forks(link) else words.called,
            last=self.cell(cells[-1]),
            cell=self.cell(cells[0]),
            cells=self.cells(cells),
            place=self.place(link),
        )

    def place(self, link: Link) -> str:
        """Where a mark stands outside the board; nothing where it lies on it."""
        outside: Outside | None = getattr(link.constraint, "outside", None)
        return "" if outside is None else self.outside(outside)

    def _forks(self, link: Link) -> bool:
        """Whether another mark of the rule begins in the same cell."""
        start = link.constraint.cells[0]
        return any(
            use.rule.name == link.rule
            and sum(each.cells[:1] == (start,) for each in use.constraints) > 1
            for use in self._uses
        )

    def outside(self, outside: Outside) -> str:
        """Where a clue stands outside the board."""
        places = self.words.walk.sides
        for side, direction in SIDES.items():
            if outside.direction == direction:
                number = outside.column if direction in "ns" else outside.row
                phrase: str = getattr(places, side)
                return fill(phrase, number=number + 1)
        return fill(places.diagonal, cell=self.cell(self._board.sight(outside)[0]))


def _runs(mask: Mask) -> list[list[int]]:
    """Digits that follow one another, together."""
    runs: list[list[int]] = []
    for digit in digits_of(mask):
        if runs and runs[-1][-1] == digit - 1:
            runs[-1].append(digit)
        else:
            runs.append([digit])
    return runs
