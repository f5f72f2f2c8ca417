"""What a mark pushes: what is known of its cells, why that counts, and what follows."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import fields, is_dataclass
from itertools import product
from typing import Final

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
        self._every = every_digit(notes.digits)
        self._premises: set[tuple[Cell, Mask]] = set()
        self._last: Link | None = None
        self._last_why = ""

    def begin(self) -> None:
        """Begins a new paragraph: a mark is named again."""
        self._last, self._last_why = None, ""

    def tell(self, based: Based) -> str:
        """The sentences of one push."""
        follows, known = self._follows(based), self._known.premises(based.needs, self._premises)
        why = self._why(based, follows)
        again = self._is_again(based) or (not known and self._needs_more(based, why))
        self._premises.update(based.needs)
        self._last, self._last_why = based.step.because.links[0], why
        if again:
            words = self._words.pushed_again if known else self._words.alone_again
            return capital(fill(words, known=known, follows=follows))
        words = self._words.pushed if known else self._words.alone
        return fill(words, known=capital(known), why=capital(why), follows=follows)

    def _is_again(self, based: Based) -> bool:
        """Whether a mark by itself goes on where it was told about just before."""
        step = based.step
        return step.technique is Technique.MARK and step.because.links[0] == self._last

    def _needs_more(self, based: Based, why: str) -> bool:
        """Whether a mark needs one more digit in a house, for what was said just before."""
        step = based.step
        takes_digits = step.technique is Technique.ARRANGEMENTS and bool(step.because.digits)
        return takes_digits and why == self._last_why

    def told(self, based: Based) -> dict[Cell, Mask]:
        """What a push says is left in each cell."""
        return dict(self._left(based))

    def _follows(self, based: Based) -> str:
        facts = self._known.facts(self._left(based))
        step = based.step
        if step.technique is not Technique.ARRANGEMENTS or not step.because.digits:
            return facts
        return fill(
            self._words.needs,
            chosen=self._names.all_the(step.because.digits),
            **{"in": self._names.house(step.because.houses[0])},
            follows=facts,
        )

    def _left(self, based: Based) -> Sequence[tuple[Cell, Mask]]:
        """What is left for each cell: by the mark alone where that is told by its ends."""
        step = based.step
        reached = reach(based, self._notes.digits) if step.technique is Technique.MARK else {}
        return [
            (cell, self._told(reached.get(cell, 0), self._notes.pencil[cell] & ~mask, mask))
            for cell, mask in step.removes
        ]

    def _told(self, reached: Mask, left: Mask, struck: Mask) -> Mask:
        """What to say is left: the plainer of what the mark leaves and of what the sheet does."""
        if reached:
            return reached
        if left.bit_count() <= 2:
            return left
        kept = self._every & ~struck
        low, high = lowest(left), highest(left)
        if not struck & _between(low, high):
            # Only digits beyond those that are left go: the ends tell it.
            kept = _between(
                low if struck & _between(1, low - 1) else 1,
                high if struck & ~_between(1, high) else self._notes.digits,
            )
        return kept

    def _why(self, based: Based, follows: str) -> str:
        step = based.step
        if step.technique is Technique.ORDER:
            return self._order(step)
        if step.technique is Technique.HOUSE_SUM:
            return self._house_sum(step)
        why = self._asks(step.because.links[0], based)
        houses = step.because.houses
        if step.technique is Technique.ARRANGEMENTS and step.because.digits:
            others = houses[1:]
            if others:
                why = self._within(why, others)
            return why
        return self._within(why, houses) if houses else why

    def _within(self, why: str, houses: Sequence[House]) -> str:
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
        symbols = self._names.symbol_words
        why = fill(
            rule.push_bare if rule.push_bare and self._is_bare(link) else rule.push,
            mark=self._names.mark(link),
            count=len(link.constraint.cells),
            cell=self._names.cell(link.constraint.cells[0]),
            digit=symbols.one,
            digits=symbols.many,
            **_numbers(link.constraint),
        )
        return self._with_sums(why, link, based)

    def _is_bare(self, link: Link) -> bool:
        """Whether a rule draws nothing for a mark: it is the lack of one that says something."""
        return not BY_NAME[link.rule].draw(self._notes.puzzle.board, [link.constraint])

    def _with_sums(self, why: str, link: Link, based: Based) -> str:
        said = self._notes.facets[link].sums_once
        if len(said) != 1 or said[0].others:
            return why
        cells, ways = self._sums(said[0], dict(based.needs))
        if not 0 < len(ways) <= MOST_SUMS:
            return why
        lists = self._names.words.lists
        sums = [" + ".join(map(self._names.digit, way)) for way in ways]
        return fill(
            self._words.sums, why=why, sums=lists.either(sums), cells=self._names.cells(cells)
        )

    def _sums(
        self, said: Sum, needs: Mapping[Cell, Mask]
    ) -> tuple[list[Cell], list[tuple[int, ...]]]:
        """The open cells of a sum, and the ways to make what is left of it, each once."""
        held = {cell: self._every & ~needs.get(cell, 0) for cell in said.cells}
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
        whole = len(left.houses) * sum(digits_of(self._every))
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
