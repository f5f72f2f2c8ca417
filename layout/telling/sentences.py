"""What each technique says: one sentence for a step, by the pencil marks before it.

The values of a sentence, by the names of its holes:
- `in`, `lines`, `across`: where the houses are that the step speaks of;
- `cell`, `cells`: a cell, all of some cells;
- `spots`, `others`: one of the cells that can hold a digit, one of those that no longer can;
- `chosen`: the digits that the step is about;
- `kept`, `struck`: what stays in the cells that lose something, and what goes;
- `mark`: the mark of a rule; `count` and `ranges`: its cells and what each of them keeps;
- `supposed`, `chain`, `end`: an "if", what follows, and how it fails; `ways`: several of them.
"""

from collections.abc import Callable, Hashable, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import reduce
from operator import or_
from typing import Final, TypeAlias

from layout.language.walk_words import TechniqueWords
from layout.language.words import fill
from layout.telling.names import Names
from verify.board import Cell
from verify.facets import rising
from verify.pencil import Mask, digits_of, highest
from verify.walk.facts.cells import cells_of
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Aside, Consequence, DeadEnd, House, Step, Technique

Values: TypeAlias = dict[str, str]
Removes: TypeAlias = Sequence[tuple[Cell, Mask]]

FEW_LEFT: Final = 2
"""Candidates left in a cell that are told rather than those struck from it."""

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
        self._digits = names.symbol_words

    def placements(self, steps: Sequence[Step]) -> str:
        """Placements of one technique, in one sentence."""
        says = self._of(steps[0]).says
        if len(steps) == 1:
            return self._filled(says.one, self._placing(steps[0]))
        lists = self._names.words.lists
        sites = [
            fill(self._words.digit_at_house, **self._placing(step))
            for step in steps
            if step.because.houses
        ]
        placed = [place for step in steps for place in step.places]
        values = {"sites": lists.join(sites) if sites else "", "placed": self._placed(placed)}
        return self._filled(says.many, values)

    def follow(self, places: Sequence[tuple[Cell, int]]) -> str:
        """Many plain placements after some that were told with their reasons."""
        return self._filled(self._words.follow, {"placed": self._placed(places)})

    def rest(self, places: Sequence[tuple[Cell, int]]) -> str:
        """The placements at the end of a walk, without reasons."""
        return self._filled(self._words.rest.of(len(places)), {"placed": self._placed(places)})

    def _placed(self, places: Iterable[tuple[Cell, int]]) -> str:
        """Digits, each with its cell."""
        return self._names.words.lists.join(
            [self._at(self._names.digit(digit), (cell,)) for cell, digit in places]
        )

    def strike(self, step: Step) -> str:
        """A step that strikes candidates; all that it still strikes must be noted there."""
        return self._strike(step, self._notes.fresh(step.removes))

    def key(self, step: Step) -> Hashable:
        """What neighbours must share to be told in one sentence; None where each has its own."""
        because = step.because
        match step.technique:
            case Technique.ARRANGEMENTS if because.digits:
                return because.links[0], because.houses[0]
            case Technique.MARK if not self._ranges(step, self._notes.fresh(step.removes)):
                return self._names.mark(because.links[0])
            case _:
                return None

    def together(self, steps: Sequence[Step], removes: Removes, left: Removes) -> str:
        """Steps of one key: all that they strike, and what is left then in those cells."""
        struck: dict[Cell, Mask] = {}
        for cell, mask in removes:
            struck[cell] = struck.get(cell, 0) | mask
        all_struck, first = sorted(struck.items()), steps[0]
        if first.technique is Technique.MARK:
            words, last = self._of(first), sorted(dict(left).items())
            sentence, values = self._kept_or_struck(words, all_struck, last)
            return self._filled(
                sentence, values | {"mark": self._names.mark(first.because.links[0])}
            )
        digits = reduce(or_, (step.because.digits for step in steps))
        merged = replace(first, because=replace(first.because, digits=digits))
        return self._strike(merged, all_struck)

    def _strike(self, step: Step, removes: Removes) -> str:
        sentence, values = self._teller(step.technique)(step, removes)
        return self._filled(sentence, values)

    def _teller(self, technique: Technique) -> Callable[[Step, Removes], tuple[str, Values]]:
        """The method that picks the sentence for a technique and the values for its holes."""
        match technique:
            case Technique.MARK:
                return self._mark_alone
            case Technique.ARRANGEMENTS:
                return self._arrangements
            case Technique.ORDER:
                return self._order
            case Technique.HOUSE_SUM:
                return self._house_sum
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
        told = fill(sentence, digit=self._digits.one, digits=self._digits.many, **values)
        return told[:1].upper() + told[1:]

    def _placing(self, step: Step) -> Values:
        ((cell, digit),) = step.places
        values = {"cell": self._names.cell(cell), "chosen": self._names.digit(digit)}
        if step.because.houses:
            values["in"] = self._names.house(step.because.houses[0])
        return values

    def _at(self, digits: str, cells: Iterable[Cell]) -> str:
        return fill(self._words.digits_in_cells, chosen=digits, cells=self._names.cells(cells))

    def _told(self, masks: Removes, name: Callable[[Mask], str]) -> str:
        """Digits, each set of them once with all the cells that have it."""
        cells: dict[Mask, list[Cell]] = {}
        for cell, mask in masks:
            cells.setdefault(mask, []).append(cell)
        items = [self._at(name(mask), where) for mask, where in cells.items()]
        lists = self._names.words.lists
        simple = all(self._names.spans(mask) == len(where) == 1 for mask, where in cells.items())
        return lists.join(items) if simple else lists.semicolon.join(items)

    def _struck(self, removes: Removes) -> str:
        return self._told(removes, self._names.all_of)

    def left(self, removes: Removes) -> Removes:
        """What stays in the cells that lose something."""
        return [(cell, self._notes.pencil[cell] & ~mask) for cell, mask in removes]

    def _kept_or_struck(
        self, words: TechniqueWords, removes: Removes, left: Removes
    ) -> tuple[str, Values]:
        """The sentence that tells what stays, or what goes where that is easier to say."""
        if self._are_told_sooner([mask for _, mask in left], [mask for _, mask in removes]):
            return words.says.one, {"kept": self._told(left, self._names.one_of)}
        return words.strikes, {"struck": self._struck(removes)}

    def _are_told_sooner(self, left: Sequence[Mask], struck: Sequence[Mask]) -> bool:
        """Whether the digits left in some cells are easier to say than those struck from them."""
        if not all(left):
            return False
        if all(mask.bit_count() <= FEW_LEFT for mask in left):
            return True
        return sum(map(self._names.spans, left)) <= sum(map(self._names.spans, struck))

    def _mark_alone(self, step: Step, removes: Removes) -> tuple[str, Values]:
        words = self._of(step)
        mark = {"mark": self._names.mark(step.because.links[0])}
        ranges = self._ranges(step, removes)
        if ranges:
            count = str(len(step.because.links[0].constraint.cells))
            return words.range, mark | {"count": count, "ranges": ranges}
        sentence, values = self._kept_or_struck(words, removes, self.left(removes))
        return sentence, mark | values

    def _ranges(self, step: Step, removes: Removes) -> str:
        """From where to where a rising mark runs in each cell; nothing where it has gaps."""
        link = step.because.links[0]
        cells = link.constraint.cells
        if self._notes.facets[link] != rising(cells) or len(removes) < len(cells):
            return ""
        left = dict(self.left(removes))
        ranges = [self._names.range(left[cell]) for cell in cells]
        return self._names.words.lists.comma.join(ranges) if all(ranges) else ""

    def _arrangements(self, step: Step, removes: Removes) -> tuple[str, Values]:
        words = self._of(step)
        mark = {"mark": self._names.mark(step.because.links[0])}
        if step.because.digits:
            return words.with_house, mark | {
                "chosen": self._names.all_of(step.because.digits),
                "in": self._names.house(step.because.houses[0]),
                "struck": self._struck(removes),
            }
        sentence, values = self._kept_or_struck(words, removes, self.left(removes))
        return sentence, mark | values

    def _order(self, step: Step, removes: Removes) -> tuple[str, Values]:
        sentence, values = self._kept_or_struck(self._of(step), removes, self.left(removes))
        where = self._names.house(step.because.houses[0])
        return sentence, values | {"in": where, "cell": self._names.cell(removes[0][0])}

    def _house_sum(self, step: Step, removes: Removes) -> tuple[str, Values]:
        sentence, values = self._kept_or_struck(self._of(step), removes, self.left(removes))
        return sentence, values | {"in": self._names.houses(step.summed)}

    def _usual(self, step: Step, removes: Removes) -> Values:
        """The values that most sentences need: of the step's first house, and of its digits."""
        because = step.because
        cells = [cell for cell, _ in removes]
        return {
            "in": self._names.house(because.houses[0]),
            "chosen": self._names.all_of(because.digits),
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
        return self._of(step).says.one, self._usual(step, removes)

    def _naked(self, step: Step, removes: Removes) -> tuple[str, Values]:
        cells = self._names.cells(step.because.cells)
        return self._of(step).says.one, self._usual(step, removes) | {"cells": cells}

    def _fish(self, step: Step, removes: Removes) -> tuple[str, Values]:
        half = len(step.because.houses) // 2
        lines, across = step.because.houses[:half], step.because.houses[half:]
        return self._of(step).says.one, {
            **self._usual(step, removes),
            "lines": self._names.houses(lines),
            "across": self._names.houses(across),
        }

    def _wing(self, step: Step, removes: Removes) -> tuple[str, Values]:
        pivot, *ends = step.because.cells
        holders = [*ends, pivot] if self._notes.pencil[pivot] & step.because.digits else ends
        return self._of(step).says.one, {
            "cell": self._names.cell(pivot),
            "chosen": self._names.all_of(step.because.digits),
            "spots": self._names.spots(sorted(holders)),
            "others": self._names.spots(cell for cell, _ in removes),
        }

    def _colours(self, step: Step, removes: Removes) -> tuple[str, Values]:
        digit = highest(step.because.digits)
        links = [
            house
            for house in step.because.houses
            if house.full and self._notes.spots(digit, house).bit_count() == 2
        ]
        return self._of(step).says.one, {
            "in": self._names.house((links or step.because.houses)[0]),
            "chosen": self._names.digit(digit),
            "struck": self._struck(removes),
        }

    def _if(self, step: Step, removes: Removes) -> tuple[str, Values]:
        words, chain = self._of(step), step.chain[1:]
        values = self._supposed(step)
        told = _told_of_chain(step, chain)
        if not told:
            return words.says.one, values
        return words.with_chain, values | {"chain": self._followed(told)}

    def _supposed(self, step: Step) -> Values:
        """What an "if" supposes, and how it fails."""
        supposed, end = step.chain[0], step.dead_end
        assert end is not None, "an if has a dead end"  # noqa: S101
        return {
            "supposed": self._followed([supposed]),
            "chosen": self._names.digit(supposed.digit),
            "cell": self._names.cell(supposed.cell),
            "end": self._end(end),
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
            struck = self._followed(aside.chain[0] for aside in others)
            yield fill(self._words.asides.others, struck=struck)
        rest = _told_of_chain(step, step.chain[done:])
        if rest:
            yield self._followed(rest)

    def _aside(self, aside: Aside) -> str:
        supposed, *chain = aside.chain
        values = {"supposed": self._followed([supposed]), "end": self._end(aside.dead_end)}
        told = _told_of_chain(aside, chain)
        if not told:
            return fill(self._words.asides.says, **values)
        return fill(self._words.asides.with_chain, **values, chain=self._followed(told))

    def _end(self, end: DeadEnd) -> str:
        """How an "if" fails."""
        words = self._words.dead_ends
        digit = self._names.digit(end.digit) if end.digit else ""
        if end.cell is None:
            assert end.house is not None, "a dead end is a cell's or a house's"  # noqa: S101
            return fill(words.homeless, **{"in": self._names.house(end.house)}, chosen=digit)
        sentence = words.clash if end.digit else words.empty
        return fill(sentence, cell=self._names.cell(end.cell), chosen=digit)

    def _either_way(self, step: Step, removes: Removes) -> tuple[str, Values]:
        ways = map(self._way, step.ways)
        return self._of(step).says.one, {
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

    def _followed(self, chain: Iterable[Consequence]) -> str:
        return self._placed((each.cell, each.digit) for each in chain)


def _told_of_chain(step: Step | Aside, chain: Sequence[Consequence]) -> Sequence[Consequence]:
    """The first consequences and the last one, but for the digit that the "if" fails at."""
    end = step.dead_end
    return _shortened(
        [each for each in chain if end is None or (each.cell, each.digit) != (end.cell, end.digit)]
    )


def _shortened(chain: Sequence[Consequence]) -> Sequence[Consequence]:
    """The beginning and the end of a long chain."""
    if len(chain) <= MOST_CONSEQUENCES:
        return chain
    return [*chain[: MOST_CONSEQUENCES - 1], chain[-1]]
