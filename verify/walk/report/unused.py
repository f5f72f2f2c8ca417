"""The givens and marks that a walk does without: its steps stand where these are left out.

A step rests on its stated marks and houses, and on what is missing from its cells. What is
missing was struck by an earlier step, or left because a digit was placed: in the cell itself, or
in one that sees it, by a house or by a mark. Where only one given or mark explains it, that is
needed; of several the one that is needed anyway, or else the first.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import TypeAlias

from verify.board import Cell
from verify.pencil import Mask, digits_of
from verify.puzzle import Puzzle
from verify.rule import Constraint
from verify.rules import GROUND
from verify.walk.facts.cells import cells_of
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import House, Link
from verify.walk.told.event import Based
from verify.walk.told.path import ToldPath


@dataclass(frozen=True, slots=True)
class Written:
    """Something that a manifest writes: one mark of a rule, or a rule that has no marks drawn."""

    rule: str
    constraint: Constraint | None = None


Item: TypeAlias = Cell | Written
"""A given, by its cell, or a mark."""

Key: TypeAlias = tuple[str, Constraint]
"""A rule's name and a constraint of it."""

Explanation: TypeAlias = frozenset[Item]
"""Givens and marks that together explain why a candidate is missing."""


@dataclass(frozen=True, slots=True)
class Unused:
    """Givens, by their cells, and marks that a walk does without, all of them at once."""

    givens: tuple[Cell, ...]
    marks: tuple[Written, ...]


def unused(puzzle: Puzzle, path: ToldPath) -> Unused:
    """What a path does without."""
    marks = _written(puzzle)
    needed = _Needed(puzzle, marks)
    for each in path.steps:
        needed.take(each.based)
    items = needed.items()
    givens = (cell for cell, digit in enumerate(puzzle.givens) if digit)
    every_mark = dict.fromkeys(marks.values())
    return Unused(
        tuple(cell for cell in givens if cell not in items),
        tuple(mark for mark in every_mark if mark not in items),
    )


def _written(puzzle: Puzzle) -> dict[Key, Written]:
    """For each constraint what the manifest writes for it; no place where nothing is drawn.

    Where a rule draws some of its constraints, the others are what it says of unmarked places.
    """
    written: dict[Key, Written] = {}
    for use in puzzle.uses:
        if use.rule.name in GROUND:
            continue
        drawn = [each for each in use.constraints if use.rule.draw(puzzle.board, [each])]
        for constraint in drawn or use.constraints:
            one = Written(use.rule.name, constraint if drawn else None)
            written[use.rule.name, constraint] = one
    return written


class _Needed:
    """Gathers what steps rest on, one step after another."""

    def __init__(self, puzzle: Puzzle, marks: Mapping[Key, Written]) -> None:
        self._notes = Notes(puzzle)
        self._givens = frozenset(cell for cell, digit in enumerate(puzzle.givens) if digit)
        self._marks = marks
        self._behind: dict[House, Explanation] = {}
        self._struck: dict[Cell, Mask] = {}
        self._stated: set[Item] = set()
        self._choices: dict[tuple[Explanation, ...], None] = {}

    def take(self, based: Based) -> None:
        """Notes what a step rests on, and takes it."""
        step = based.step
        self._stated |= self._reasons(step.because.houses, step.because.links)
        for cell, mask in based.needs:
            for digit in digits_of(mask & ~self._struck.get(cell, 0)):
                ways = tuple(dict.fromkeys(self._explanations(cell, digit)))
                self._choices[ways] = None
        self._notes.apply([step])
        for cell, mask in step.removes:
            self._struck[cell] = self._struck.get(cell, 0) | mask

    def items(self) -> frozenset[Item]:
        """All that is needed.

        (On a sheet that contradicts itself a placed digit may be gone, and explain no more.)
        """
        found = frozenset(self._stated)
        for choice in sorted(self._choices, key=len):
            found |= min(choice, key=lambda way: len(way - found), default=frozenset())
        return found

    def _explanations(self, cell: Cell, digit: int) -> Iterator[Explanation]:
        """Why a candidate that no step has struck is missing."""
        notes = self._notes
        if notes.placed >> cell & 1:
            yield self._givens & {cell}
        for other in cells_of(notes.peers[cell] & notes.placed & notes.where[digit]):
            yield (self._givens & {other}) | self._reasons(*notes.sights((cell,), (other,)))

    def _reasons(self, houses: Iterable[House], links: Iterable[Link]) -> Explanation:
        """The marks behind some houses and links."""
        found: Explanation = frozenset()
        for house in houses:
            found |= self._mark_of(house)
        keys = {(link.rule, link.constraint) for link in links} & self._marks.keys()
        return found | {self._marks[key] for key in keys}

    def _mark_of(self, house: House) -> Explanation:
        """The mark that makes a house; nothing where it is one of the grid's own."""
        if house not in self._behind:
            makers = (
                (link.rule, link.constraint)
                for link, facets in self._notes.facets.items()
                if any(group.cells == house.cells for group in facets.groups)
            )
            mark = self._marks.get(next(makers))
            self._behind[house] = frozenset({mark} if mark is not None else ())
        return self._behind[house]
