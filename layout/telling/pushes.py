"""What a mark pushes: what is known of its cells, why that counts, and what follows."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import fields, is_dataclass
from itertools import product
from typing import Final

from layout.language.sentence import Sentence
from layout.language.words import fill
from layout.telling.knowledge import Knowledge
from layout.telling.names import Names, capital
from verify.board import Cell
from verify.facets import Sum
from verify.pencil import Mask, digits_of, every_digit, highest, is_single, lowest
from verify.rules import BY_NAME
from verify.walk.facts.equations import LeftOver, Terms, ways_to_sum
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import House, Link, Step, Technique
from verify.walk.told.event import Based
from verify.walk.told.reach import reach

MOST_SUMS: Final = 3
"""Ways to make a sum that are told one by one."""

MOST_SUMMED: Final = 4
"""Cells whose sums are told so."""

MOST_HOUSES: Final = 2
"""Houses that are named for a mark in passing; of more, one sees that they count."""

PUSHING: Final = frozenset(
    {Technique.MARK, Technique.ARRANGEMENTS, Technique.ORDER, Technique.HOUSE_SUM}
)
"""The techniques in which marks push."""


class Pushes:
    """Tells pushes on one puzzle, each on the sheet as it stands before it."""

    def __init__(self, names: Names, notes: Notes) -> None:
        self._names = names
        self._words = names.words.walk.push
        self._notes = notes
        self._known = Knowledge(names, notes)
        self.every = every_digit(notes.digits)

    def tell(self, based: Based) -> str:
        """The sentences of one push, for somebody who has heard nothing before."""
        return self.say(self.known(based), self.why(based), self.follows(based, self.left(based)))

    def say(self, known: str, why: str, follows: str) -> str:
        """What is known, if that must be said, why it counts, and what follows."""
        words = self._words.pushed if known else self._words.alone
        return fill(words, known=capital(known), why=capital(why), follows=follows)

    def known(self, based: Based, told: Collection[tuple[Cell, Mask]] = ()) -> str:
        """What must be known of cells; where one sees it, but for what was `told`."""
        return self._known.premises(based.needs, told)

    def facts(self, left: Mapping[Cell, Mask]) -> str:
        """What is left for some cells."""
        return self._known.facts(left.items())

    def follows(self, based: Based, left: Mapping[Cell, Mask], *, in_passing: bool = False) -> str:
        """What follows from a push: what is `left`, and the digits for which a mark is needed."""
        facts, because = self.facts(left), based.step.because
        if not takes_digits(based):
            return facts
        return fill(
            self._words.needs_by if in_passing else self._words.needs,
            chosen=self._names.all_the(because.digits),
            **{"in": self._names.house(because.houses[0])},
            follows=facts,
        )

    def left(self, based: Based) -> dict[Cell, Mask]:
        """What is left for each cell: by the mark alone where that is told by its ends."""
        step = based.step
        reached = reach(based, self._notes.digits) if step.technique is Technique.MARK else {}
        return {
            cell: self._told(reached.get(cell, 0), self._notes.pencil[cell] & ~mask, mask)
            for cell, mask in step.removes
        }

    def _told(self, reached: Mask, left: Mask, struck: Mask) -> Mask:
        """What to say is left: the plainer of what the mark leaves and of what the sheet does."""
        if reached:
            return reached
        if left.bit_count() <= 2:
            return left
        kept = self.every & ~struck
        low, high = lowest(left), highest(left)
        if not struck & _between(low, high):
            # Only digits beyond those that are left go: the ends tell it.
            kept = _between(
                low if struck & _between(1, low - 1) else 1,
                high if struck & ~_between(1, high) else self._notes.digits,
            )
        return kept

    def why(self, based: Based) -> str:
        """What makes it so: what a mark asks for, an order, or a sum of houses."""
        step = based.step
        if step.technique is Technique.ORDER:
            return self._order(step)
        if step.technique is Technique.HOUSE_SUM:
            return self._house_sum(step)
        why = self._asks(step.because.links[0], based)
        houses = _counting(based)
        if not houses:
            return why
        return fill(
            self._words.within,
            why=why,
            **{"in": self._names.houses(houses)},
            digit=self._names.symbol_words.one,
            digits=self._names.symbol_words.many,
        )

    def _asks(self, link: Link, based: Based) -> str:
        """What a mark asks for, and the sums that are left where there are few."""
        rule = self._names.words.rules[link.rule]
        why = self._filled(rule.push_bare if self.is_bare(link) else rule.push, link)
        found = self._few_sums(link, based)
        if found is None:
            return why
        sums, cells = found
        return fill(self._words.sums, why=why, sums=sums, cells=self._names.cells(cells))

    def _filled(self, sentence: str, link: Link) -> str:
        symbols = self._names.symbol_words
        return fill(
            sentence,
            mark=self._names.mark(link),
            count=len(link.constraint.cells),
            cell=self._names.cell(link.constraint.cells[0]),
            place=self._names.place(link),
            digit=symbols.one,
            digits=symbols.many,
            **_numbers(link.constraint),
        )

    def is_bare(self, link: Link) -> bool:
        """Whether a rule draws nothing for a mark: it is the lack of one that says something."""
        return bool(self._names.words.rules[link.rule].push_bare) and not BY_NAME[link.rule].draw(
            self._notes.puzzle.board, [link.constraint]
        )

    def by(self, based: Based, count: int = 1) -> str:
        """A mark in passing; nothing where its rule has no such words, or where another mark of
        the rule lies on all the same cells. Where `count` is not 1 it is said of several marks.
        """
        link = based.step.because.links[0]
        phrase = self.passing(link).of(count)
        if not phrase or ("{place}" not in phrase and not self._is_the_only_one(link, based)):
            return ""
        told, notes = self._filled(phrase, link), list(self._notes_of(link, based))
        if not notes:
            return told
        joined = self._names.words.lists.semicolon.join(notes)
        return fill(self._words.by_notes, by=told, notes=joined)

    def _notes_of(self, link: Link, based: Based) -> Iterator[str]:
        """What must be known of a mark in passing: the sums left, and the houses that count."""
        found, cells = self._few_sums(link, based), set(link.constraint.cells)
        if found is not None:
            yield found[0]
        apart = [each for each in _counting(based) if not cells <= set(each.cells)]
        if 0 < len(apart) <= MOST_HOUSES:
            yield fill(self._words.by_within, **{"in": self._names.houses(apart)})

    def passing(self, link: Link) -> Sentence:
        """What a mark is called in passing, before its values are filled in."""
        rule = self._names.words.rules[link.rule]
        return rule.by_bare if self.is_bare(link) else rule.by

    def _is_the_only_one(self, link: Link, based: Based) -> bool:
        """Whether no other mark of a rule lies on all cells that a push speaks of."""
        cells = {cell for cell, _ in (*based.needs, *based.step.removes)}
        return not any(
            each.rule == link.rule and each != link and cells <= {*each.constraint.cells}
            for each in self._notes.facets
        )

    def _few_sums(self, link: Link, based: Based) -> tuple[str, list[Cell]] | None:
        """The ways to make what is left of a mark's sum, and their cells; None for many ways."""
        said = self._notes.facets[link].sums_once
        if len(said) != 1 or said[0].others:
            return None
        cells, ways = self._sums(said[0], dict(based.needs))
        if not 0 < len(ways) <= MOST_SUMS:
            return None
        sums = [" + ".join(map(self._names.digit, way)) for way in ways]
        return self._names.words.lists.either(sums), cells

    def _sums(
        self, said: Sum, needs: Mapping[Cell, Mask]
    ) -> tuple[list[Cell], list[tuple[int, ...]]]:
        """The open cells of a sum, and the ways to make what is left of it, each once."""
        held = {cell: self.every & ~needs.get(cell, 0) for cell in said.cells}
        settled = {cell for cell, mask in held.items() if is_single(mask)}
        cells = sorted(said.cells - settled)
        if not 1 < len(cells) <= MOST_SUMMED:
            return cells, []
        total = said.total - sum(highest(held[cell]) for cell in settled)
        for one, other in product(settled, cells):
            if self._notes.peers[one] >> other & 1:
                held[other] &= ~held[one]
        sheet = [held.get(cell, 0) for cell in range(len(self._notes.pencil))]
        ways = ways_to_sum([(cell, 1) for cell in cells], total, sheet, self._notes.peers)
        return cells, sorted({tuple(sorted(way)) for way in ways})

    def _order(self, step: Step) -> str:
        ((cell, _),) = step.removes
        others = [other for other in step.because.cells if other != cell]
        upwards = any(
            rank.upwards and rank.cell == cell and set(rank.beyond) == set(others)
            for rank in self._notes.ranks
        )
        words = self._words
        several = words.above if upwards else words.below
        both = words.both_above if upwards else words.both_below
        return fill(
            both if len(others) == 2 else several,
            **{"in": self._names.house(step.because.houses[0])},
            others=self._names.cells(others),
            cell=self._names.cell(cell),
        )

    def _house_sum(self, step: Step) -> str:
        left = next(
            each
            for each in self._notes.left_overs
            if each.houses == step.summed
            and each.links == step.because.links[: len(each.links)]
            and tuple(sorted(cell for cell, _ in each.terms)) == step.because.cells
        )
        sign = -1 if left.total < 0 or (not left.total and left.terms[0][1] < 0) else 1
        return fill(
            self._words.house_sum,
            **{"in": self._names.houses(step.summed)},
            arithmetic=" ".join(self._arithmetic(left)),
            cells=self._weighed([(cell, sign * weight) for cell, weight in left.terms]),
        )

    def _weighed(self, terms: Terms) -> str:
        """Cells whose digits have a sum; as a sum where some count twice or are taken away."""
        if all(weight == 1 for _, weight in terms):
            return self._names.cells(cell for cell, _ in terms)
        told = ""
        for cell, weight in sorted(terms, key=lambda term: term[1] < 0):
            times = f"{abs(weight)} × " if abs(weight) > 1 else ""
            sign = (" - " if weight < 0 else " + ") if told else ("-" if weight < 0 else "")
            told += f"{sign}{times}{self._names.cell(cell)}"
        return told

    def _arithmetic(self, left: LeftOver) -> Iterator[str]:
        """How the sum of what is left over comes about, as far as the marks state plain sums."""
        whole = len(left.houses) * sum(digits_of(self.every))
        totals = [
            self._notes.facets[link].sums_once[0].total
            for link in left.links
            if len(self._notes.facets[link].sums_once) == 1
        ]
        over = sum(totals)
        told = [total for total in totals if total]
        if told and len(totals) == len(left.links) and abs(left.total) == abs(whole - over):
            if over <= whole:
                yield " - ".join(map(str, [whole, *told])) + " ="
            else:
                yield " + ".join(map(str, told)) + f" - {whole} ="
        yield str(abs(left.total))


def takes_digits(based: Based) -> bool:
    """Whether a push is that a mark needs digits in a house."""
    step = based.step
    return step.technique is Technique.ARRANGEMENTS and bool(step.because.digits)


def _counting(based: Based) -> Sequence[House]:
    """The houses in which it counts for a mark that nothing stands there twice."""
    houses = based.step.because.houses
    return houses[1:] if takes_digits(based) else houses


def _between(low: int, high: int) -> Mask:
    """All digits from one to another."""
    return sum(1 << digit for digit in range(low, high + 1))


def _numbers(constraint: object) -> dict[str, int]:
    """The numbers that a mark carries, by the names of its fields."""
    if not is_dataclass(constraint):
        return {}
    found = {each.name: getattr(constraint, each.name) for each in fields(constraint)}
    return {
        name: value
        for name, value in found.items()
        if isinstance(value, int) and name not in ("digits", "cells", "digit")
    }
