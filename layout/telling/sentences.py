"""What each technique says that strikes by houses or by supposing, by the pencil marks before it.

The values of a sentence, by the names of its holes:
- `in`, `lines`, `across`: where the houses are that the step speaks of;
- `cell`, `cells`: a cell, all of some cells;
- `spots`, `others`: one of the cells that can hold a digit, one of those that no longer can;
- `chosen`: the digits that the step is about;
- `struck`: what goes, with the cells that lose it;
- `supposed`, `chain`, `end`: an "if", what follows, and how it fails; `ways`: several of them.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from functools import reduce
from itertools import zip_longest
from operator import or_
from typing import Final, TypeAlias

from layout.language.walk_words import TechniqueWords
from layout.language.words import fill
from layout.telling.names import Names, capital
from verify.board import Cell
from verify.pencil import Mask, digits_of, highest
from verify.walk.facts.cells import cells_of
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Aside, Consequence, DeadEnd, House, Link, Step, Technique

Values: TypeAlias = dict[str, str]
Removes: TypeAlias = Sequence[tuple[Cell, Mask]]

MOST_CONSEQUENCES: Final = 10
"""What is told of what follows from an "if": all of it, or its beginning and its last digit."""

MOST_ASIDES: Final = 5
"""What is tried on the way of a deep "if" and told with its end; of more, only what it was."""


class Teller:
    """Tells steps of one puzzle, each by the pencil marks before that step."""

    def __init__(self, names: Names, notes: Notes) -> None:
        self._names = names
        self._words = names.words.walk
        self._notes = notes

    def strike(self, step: Step) -> str:
        """A step that strikes candidates; all that it still strikes must be noted there."""
        removes = self._notes.fresh(step.removes)
        sentence, values = self._teller(step.technique)(step, removes)
        return self._filled(sentence, values)

    def _teller(self, technique: Technique) -> Callable[[Step, Removes], tuple[str, Values]]:
        """The method that picks the sentence for a technique and the values for its holes."""
        match technique:
            case Technique.NAKED_PAIR | Technique.NAKED_TRIPLE | Technique.NAKED_QUAD:
                return self._naked
            case Technique.TWO_LINE_FISH | Technique.THREE_LINE_FISH | Technique.FOUR_LINE_FISH:
                return self._fish
            case Technique.WING:
                return self._wing
            case Technique.COLOUR_CHAIN:
                return self._colours
            case Technique.SHORT_IF | Technique.LONG_IF:
                return self._if
            case Technique.DEEP_IF:
                return self._deep_if
            case Technique.EITHER_WAY:
                return self._either_way
            case _:
                return self._of_house

    def _of(self, step: Step) -> TechniqueWords:
        return self._names.technique_words(step.technique)

    def _filled(self, sentence: str, values: Mapping[str, str]) -> str:
        """A sentence; where it starts with a place or a mark it still starts with a capital."""
        return capital(fill(sentence, **values))

    def _at(self, digits: str, cells: Iterable[Cell]) -> str:
        return fill(self._words.digits_in_cells, chosen=digits, cells=self._names.cells(cells))

    def _struck(self, removes: Removes) -> str:
        """Digits, each set of them once with all the cells that lose it."""
        cells: dict[Mask, list[Cell]] = {}
        for cell, mask in removes:
            cells.setdefault(mask, []).append(cell)
        items = [self._at(self._names.all_the(mask), where) for mask, where in cells.items()]
        lists = self._names.words.lists
        simple = all(mask.bit_count() == len(where) == 1 for mask, where in cells.items())
        return lists.join(items) if simple else lists.semicolon.join(items)

    def _usual(self, step: Step, removes: Removes) -> Values:
        """The values that most sentences need: of the step's first house, and of its digits."""
        because = step.because
        cells = [cell for cell, _ in removes]
        return {
            "in": self._names.house(because.houses[0]),
            "chosen": self._names.all_the(because.digits),
            "cells": self._names.cells(cells),
            "others": self._names.spots(cells),
            "spots": self._names.spots(self._spots(because.houses[0], because.digits)),
            "struck": self._struck(removes),
        }

    def _spots(self, house: House, digits: Mask) -> Iterable[Cell]:
        """Where any of some digits can still go in a house.

        Where a puzzle has no answer the steps told just before may have left them no cell; then
        all cells of the house, for this step did not yet know.
        """
        spots = reduce(or_, (self._notes.spots(digit, house) for digit in digits_of(digits)), 0)
        return cells_of(spots) if spots else house.cells

    def _of_house(self, step: Step, removes: Removes) -> tuple[str, Values]:
        return self._of(step).says, self._usual(step, removes)

    def _naked(self, step: Step, removes: Removes) -> tuple[str, Values]:
        cells = self._names.cells(step.because.cells)
        digits = self._names.all_of(step.because.digits)
        return self._of(step).says, self._usual(step, removes) | {"cells": cells, "digits": digits}

    def _fish(self, step: Step, removes: Removes) -> tuple[str, Values]:
        half = len(step.because.houses) // 2
        lines, across = step.because.houses[:half], step.because.houses[half:]
        return self._of(step).says, {
            **self._usual(step, removes),
            "lines": self._names.houses(lines),
            "across": self._names.houses(across),
        }

    def _wing(self, step: Step, removes: Removes) -> tuple[str, Values]:
        pivot, *ends = step.because.cells
        holders = [*ends, pivot] if self._notes.pencil[pivot] & step.because.digits else ends
        held = [self._holding(cell) for cell in step.because.cells]
        return self._of(step).says, {
            "cell": self._names.cell(pivot),
            "held": self._names.words.lists.join(held),
            "chosen": self._names.all_the(step.because.digits),
            "spots": self._names.spots(sorted(holders)),
            "others": self._names.spots(cell for cell, _ in removes),
        }

    def _holding(self, cell: Cell) -> str:
        """The digits that a cell can still hold, with its name."""
        return self._at(self._names.spots_of(self._notes.pencil[cell]), [cell])

    def _colours(self, step: Step, removes: Removes) -> tuple[str, Values]:
        digit = highest(step.because.digits)
        links = [
            house
            for house in step.because.houses
            if house.full and self._notes.spots(digit, house).bit_count() == 2
        ]
        return self._of(step).says, {
            "in": self._names.house((links or step.because.houses)[0]),
            "lines": self._names.houses(links or step.because.houses),
            "chosen": self._names.the(digit),
            "struck": self._struck(removes),
        }

    def _if(self, step: Step, removes: Removes) -> tuple[str, Values]:
        words, values = self._of(step), self._supposed(step)
        told = _told_of_chain(step, step.chain[1:])
        if not told:
            return words.says, values
        return words.with_chain, values | {"chain": self._followed(told)}

    def _supposed(self, step: Step) -> Values:
        """What an "if" supposes, and how it fails."""
        supposed, end = step.chain[0], step.dead_end
        assert end is not None, "an if has a dead end"  # noqa: S101
        return {
            "chosen": self._names.the(supposed.digit),
            "cell": self._names.cell(supposed.cell),
            "end": self._with_marks(self._end(end, step.chain), _marks_at_the_end(step)),
        }

    def _deep_if(self, step: Step, removes: Removes) -> tuple[str, Values]:
        if not step.asides:
            return self._if(step, removes)
        story = self._names.words.lists.semicolon.join(list(self._story(step)))
        return self._of(step).with_asides, self._supposed(step) | {"story": story}

    def _story(self, step: Step) -> Iterator[str]:
        """What follows in a deep "if", and what is tried and refuted on its way, in order."""
        told, others = step.asides[:MOST_ASIDES], step.asides[MOST_ASIDES:]
        done = 1
        for aside in told:
            if aside.after > done:
                yield self._followed(_shortened(step.chain[done : aside.after]))
                done = aside.after
            yield self._aside(aside)
        if others:
            struck = self._followed([aside.chain[0] for aside in others])
            yield fill(self._words.asides.others, struck=struck)
        rest = _told_of_chain(step, step.chain[done:])
        if rest:
            yield self._followed(rest)

    def _aside(self, aside: Aside) -> str:
        supposed, *chain = aside.chain
        values = {
            "supposed": self._followed([supposed]),
            "end": self._end(aside.dead_end, aside.chain),
        }
        told = _told_of_chain(aside, chain)
        if not told:
            return fill(self._words.asides.says, **values)
        return fill(self._words.asides.with_chain, **values, chain=self._followed(told))

    def _end(self, end: DeadEnd, chain: Sequence[Consequence]) -> str:
        """How an "if" fails, after what follows from it."""
        words, names = self._words.dead_ends, self._names
        if end.cell is None:
            assert end.house is not None, "a dead end is a cell's or a house's"  # noqa: S101
            where = names.house(end.house)
            return fill(words.homeless, **{"in": where}, chosen=names.the(end.digit))
        cell = names.cell(end.cell)
        if end.digit:
            told = fill(words.clash, cell=cell, chosen=names.the(end.digit))
            must = next((each for each in chain if (each.cell, each.digit) == end.place), None)
            return told if must is None else self._with_reason(told, must)
        digit = self._held(end.cell, chain)
        if digit:
            return fill(words.unfit, cell=cell, chosen=names.the(digit))
        return fill(words.empty, cell=cell)

    def _held(self, cell: Cell, chain: Sequence[Consequence]) -> int:
        """The digit that stands in a cell, or stands there by an "if"; 0 where none does."""
        if self._notes.placed >> cell & 1:
            return highest(self._notes.pencil[cell])
        return next((each.digit for each in chain if each.cell == cell), 0)

    def _either_way(self, step: Step, removes: Removes) -> tuple[str, Values]:
        ways = map(self._way, step.ways)
        return self._of(step).says, {
            "ways": self._names.words.lists.semicolon.join(list(ways)),
            "struck": self._struck(removes),
        }

    def _way(self, way: Sequence[Consequence]) -> str:
        """What is supposed on one of several ways, and what follows."""
        supposed, *chain = way
        told = self._followed([supposed])
        if not chain:
            return told
        then = self._followed(_shortened(chain))
        return fill(self._words.way, supposed=told, chain=then)

    def _followed(self, chain: Sequence[Consequence]) -> str:
        """Digits, each with its cell, and the house or the marks by which it follows.

        Of several that follow by the same marks, one after the other, the last one has them. What
        it means that a house is named is said where the first one is.
        """
        items: list[str] = []
        houses = 0
        for each, later in zip_longest(chain, chain[1:]):
            placed = self._consequence(each)
            houses += each.house is not None
            if each.house is not None and houses > 1:
                items.append(fill(self._words.by, told=placed, by=self._names.house(each.house)))
            elif later is not None and each.links and later.links == each.links:
                items.append(placed)
            else:
                items.append(self._with_reason(placed, each))
        return self._names.words.lists.join(items)

    def _consequence(self, each: Consequence) -> str:
        chosen, cell = self._names.the(each.digit), self._names.cell(each.cell)
        return fill(self._words.consequence, chosen=chosen, cell=cell)

    def _with_reason(self, told: str, each: Consequence) -> str:
        """What is told of a digit, with the house or the marks by which it follows, if any."""
        if each.house is not None:
            return fill(self._words.by_house, told=told, **{"in": self._names.house(each.house)})
        return self._with_marks(told, each.links)

    def _with_marks(self, told: str, links: Sequence[Link]) -> str:
        """What is told, with the marks by which it follows, if any."""
        if not links:
            return told
        marks = self._names.words.lists.join(list(map(self._names.mark, links)))
        return fill(self._words.by, told=told, by=marks)


def _told_of_chain(step: Step | Aside, chain: Sequence[Consequence]) -> Sequence[Consequence]:
    """The first consequences and the last one, but for the digit that the "if" fails at."""
    end = step.dead_end
    return _shortened(
        [each for each in chain if end is None or (each.cell, each.digit) != end.place]
    )


def _shortened(chain: Sequence[Consequence]) -> Sequence[Consequence]:
    """The beginning and the end of a long chain."""
    if len(chain) <= MOST_CONSEQUENCES:
        return chain
    return [*chain[: MOST_CONSEQUENCES - 1], chain[-1]]


def _marks_at_the_end(step: Step) -> Sequence[Link]:
    """The mark by which an "if" fails, where no digit follows by it and no other mark is left.

    After other digits it must lie on the cell where that shows.
    """
    end = step.dead_end
    if step.asides or end is None or (end.digit and end.cell is not None):
        return ()
    on_the_way = {link for each in step.chain for link in each.links}
    others = [link for link in step.because.links if link not in on_the_way]
    if len(others) != 1 or (step.chain[1:] and end.cell not in others[0].constraint.cells):
        return ()
    return others
