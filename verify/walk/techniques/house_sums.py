"""House sums: cages against houses, by what is left inside and what sticks out."""

from collections.abc import Iterator, Sequence
from itertools import combinations
from typing import Final

from verify.board import Cell
from verify.pencil import Mask, bit, digits_of, highest, lowest
from verify.rules.cage import Cage
from verify.walk.notes import Notes, cells_of, set_of
from verify.walk.step import Because, House, Link, Step, Technique

MOST_HOUSES: Final = 3
MOST_LEFT: Final = 4
"""Open cells left inside and sticking out that a solver would still list."""


def house_sums(notes: Notes) -> Iterator[Step]:
    """What the cells that no whole cage covers must sum to."""
    cages = [
        (link, link.constraint.total)
        for link in notes.links
        if isinstance(link.constraint, Cage) and link.constraint.total is not None
    ]
    if not cages:
        return
    for houses in _unions(notes):
        area = 0
        for house in houses:
            area |= notes.sets[house]
        touching = [(link, total) for link, total in cages if set_of(link.constraint.cells) & area]
        whole = [
            (link, total) for link, total in touching if not set_of(link.constraint.cells) & ~area
        ]
        for chosen in (whole, touching) if len(whole) < len(touching) else (whole,):
            if chosen:
                yield from _difference(notes, houses, area, chosen)


def _unions(notes: Notes) -> Iterator[tuple[House, ...]]:
    """One to three houses of one kind, side by side where there are several."""
    kinds: dict[str, list[House]] = {}
    for house in notes.full:
        kinds.setdefault(house.kind, []).append(house)
    for kind, houses in kinds.items():
        for count in range(1, MOST_HOUSES + 1):
            if kind in ("row", "column"):
                groups: Iterator[Sequence[House]] = (
                    houses[at : at + count] for at in range(len(houses) - count + 1)
                )
            else:
                groups = combinations(houses, count) if count < MOST_HOUSES else iter(())
            for group in groups:
                if len({cell for house in group for cell in house.cells}) == sum(
                    len(house.cells) for house in group
                ):
                    yield tuple(group)


def _difference(
    notes: Notes, houses: tuple[House, ...], area: int, chosen: list[tuple[Link, int]]
) -> Iterator[Step]:
    """The cells inside that no chosen cage covers, less those that stick out."""
    covered = 0
    for link, _ in chosen:
        cells = set_of(link.constraint.cells)
        if covered & cells:
            return
        covered |= cells
    inside, outside = area & ~covered, covered & ~area
    left = (inside | outside) & notes.open
    if not 1 <= left.bit_count() <= MOST_LEFT:
        return
    total = len(houses) * notes.digits * (notes.digits + 1) // 2
    total -= sum(each for _, each in chosen)
    terms = [(cell, 1) for cell in cells_of(inside)] + [(cell, -1) for cell in cells_of(outside)]
    kept = _ways(notes, terms, total)
    removes = notes.fresh((cell, ~mask) for cell, mask in kept.items())
    if removes:
        at = [cell for cell, _ in terms]
        sights, links = notes.sights(at, at)
        every = tuple(dict.fromkeys((*houses, *sights)))
        because = Because(tuple(sorted(at)), 0, every, (*(link for link, _ in chosen), *links))
        yield Step(Technique.HOUSE_SUM, because, removes=removes, rule=chosen[0][0].rule)


def _ways(notes: Notes, terms: list[tuple[Cell, int]], total: int) -> dict[Cell, Mask]:
    """For each cell the digits that it has in some way to make the total."""
    terms = sorted(terms, key=lambda term: notes.pencil[term[0]].bit_count())
    low, high = [0], [0]
    for cell, sign in reversed(terms):
        ends = sign * lowest(notes.pencil[cell] or 1), sign * highest(notes.pencil[cell] or 1)
        low.append(low[-1] + min(ends))
        high.append(high[-1] + max(ends))
    kept = dict.fromkeys((cell for cell, _ in terms), 0)
    chosen: list[tuple[Cell, int]] = []

    def go_on(index: int, left: int) -> None:
        if index == len(terms):
            for cell, digit in chosen:
                kept[cell] |= bit(digit)
            return
        rest = len(terms) - index
        if not low[rest] <= left <= high[rest]:
            return
        cell, sign = terms[index]
        for digit in digits_of(notes.pencil[cell]):
            clash = any(d == digit and notes.peers[cell] >> c & 1 for c, d in chosen)
            if not clash:
                chosen.append((cell, digit))
                go_on(index + 1, left - sign * digit)
                chosen.pop()

    go_on(0, total)
    return kept
