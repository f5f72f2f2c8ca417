"""A walk run again: what stands on the sheet before steps told together, and what they do to it."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from verify.board import Cell
from verify.pencil import Mask, bit, digits_of, every_digit, highest
from verify.puzzle import Puzzle
from verify.walk.facts.cells import cells_of
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Consequence, DeadEnd, Kind, Link, Step, Technique, kind_of
from verify.walk.told.event import Based, Missing, add
from verify.walk.told.reach import reach

Masks = tuple[tuple[Cell, Mask], ...]

SAYS_WHAT_IS_LEFT: Final = frozenset({Kind.PUSH, Kind.SUM})
"""What is told by what it leaves in a cell, rather than by what it strikes."""

FEW_LEFT: Final = 3
"""Candidates that are shown beside those which are struck."""


@dataclass(frozen=True, slots=True)
class Scene:
    """The sheet before steps that are told together, and what they say and do.

    `pencil` and `written` have a value for each cell: its candidates, and its digit or 0 where it
    is still open. Of the rest:
    - `placed` are the digits that the steps write, `struck` the candidates that go;
    - `pushing` are the cells that steps rest on, and `told` what is said of open cells: of those
      that push what is known before, of others what is left;
    - `concluded` are the cells of which something is said to be left;
    - `counting` are the candidates that other steps speak of, `grounds` the cells where one looks;
    - `speaking` are the marks at work;
    - `chain` and `dead_end` are those of an "if"; the first of the chain is what is supposed.
    """

    pencil: tuple[Mask, ...]
    written: tuple[int, ...]
    placed: tuple[tuple[Cell, int], ...] = ()
    struck: Masks = ()
    pushing: tuple[Cell, ...] = ()
    told: Masks = ()
    concluded: tuple[Cell, ...] = ()
    counting: Masks = ()
    grounds: tuple[Cell, ...] = ()
    speaking: tuple[Link, ...] = ()
    chain: tuple[Consequence, ...] = ()
    dead_end: DeadEnd | None = None


def replay(puzzle: Puzzle, told: Iterable[Sequence[Based]]) -> Iterator[Scene]:
    """A scene for each group of steps, one after the other from the givens on.

    The groups hold all steps of a path, in their order.
    """
    notes = Notes(puzzle)
    for steps in told:
        yield _Scenery(notes).scene(steps)


class _Scenery:
    """Goes through the steps of one scene, and notes down what is to be seen of them."""

    def __init__(self, notes: Notes) -> None:
        self._notes = notes
        self._every = every_digit(notes.digits)
        self._placed: dict[Cell, int] = {}
        self._struck = Missing()
        self._pushing: dict[Cell, None] = {}
        self._told: dict[Cell, Mask] = {}
        self._concluded: dict[Cell, None] = {}
        self._counting = Missing()
        self._grounds: set[Cell] = set()
        self._speaking: dict[Link, None] = {}
        self._supposing: list[Step] = []

    def scene(self, steps: Sequence[Based]) -> Scene:
        """The scene of some steps; afterwards they are done on the sheet."""
        notes = self._notes
        pencil, written = tuple(notes.pencil), self._written()
        for based in steps:
            self._take(based, alone=len(steps) == 1)
            notes.apply([based.step])
        supposed = self._supposing[0] if len(self._supposing) == 1 else None
        return Scene(
            pencil,
            written,
            tuple(self._placed.items()),
            tuple(sorted(self._struck.items())),
            tuple(sorted(self._pushing)),
            tuple(sorted(self._told.items())),
            tuple(sorted(self._concluded)),
            tuple(sorted(self._counting.items())),
            tuple(sorted(self._grounds)),
            tuple(self._speaking),
            supposed.chain if supposed else (),
            supposed.dead_end if supposed else None,
        )

    def _written(self) -> tuple[int, ...]:
        notes = self._notes
        return tuple(
            highest(mask) if notes.placed >> cell & 1 else 0
            for cell, mask in enumerate(notes.pencil)
        )

    def _take(self, based: Based, *, alone: bool) -> None:
        step = based.step
        if step.places:
            self._placed.update(step.places)
            if alone:
                self._see(based)
            return
        for cell, mask in self._notes.fresh(step.removes):
            add(self._struck, cell, mask)
        self._speaking.update(dict.fromkeys(step.because.links))
        if kind_of(step.technique) in SAYS_WHAT_IS_LEFT:
            self._push(based)
        else:
            self._count(step)

    def _push(self, based: Based) -> None:
        """What pushes, by what is known of it, and what is left elsewhere."""
        step, notes = based.step, self._notes
        for cell, missing in based.needs:
            self._pushing[cell] = None
            if not notes.placed >> cell & 1:
                self._tell(cell, self._every & ~missing)
        reached = reach(based, notes.digits) if step.technique is Technique.MARK else {}
        for cell, mask in step.removes:
            self._concluded[cell] = None
            self._tell(cell, reached.get(cell) or notes.pencil[cell] & ~mask)
        for house in step.summed:
            self._grounds.update(house.cells)

    def _tell(self, cell: Cell, left: Mask) -> None:
        self._told[cell] = self._told.get(cell, self._every) & left

    def _count(self, step: Step) -> None:
        """The candidates that a step is about, and the cells that hold them.

        Of what is supposed, those that are followed: all else that counts there would hide them.
        """
        notes, because = self._notes, step.because
        supposes = kind_of(step.technique) is Kind.SUPPOSITION
        about = because.digits if step.technique is not Technique.WING else self._every
        for cell in () if supposes else because.cells:
            mask = notes.pencil[cell] & about
            if mask and not notes.placed >> cell & 1:
                add(self._counting, cell, mask)
                self._grounds.add(cell)
        for each in (each for way in step.ways for each in way):
            add(self._counting, each.cell, bit(each.digit))
            self._grounds.add(each.cell)
        for cell, mask in notes.fresh(step.removes):
            left = notes.pencil[cell] & ~mask
            add(self._counting, cell, mask | (left if left.bit_count() <= FEW_LEFT else 0))
        if step.chain:
            self._supposing.append(step)

    def _see(self, based: Based) -> None:
        """What one sees a single placement by: where its digit stands, or all that it sees."""
        notes, step = self._notes, based.step
        ((place, _),) = step.places
        sights = dict[tuple[Cell, int], set[Cell]]()
        for cell, missing in based.needs:
            for digit in digits_of(missing):
                for holder in cells_of(notes.where[digit] & notes.placed & notes.peers[cell]):
                    sights.setdefault((cell, digit), set()).add(holder)
        self._pushing.update(dict.fromkeys(_fewest(list(sights.values()))))
        if step.technique is not Technique.NAKED_SINGLE:
            self._grounds.update(step.because.houses[0].cells)
        self._pushing.pop(place, None)


def _fewest(choices: Sequence[set[Cell]]) -> Iterator[Cell]:
    """Cells of which each choice has one: those first that many choices have."""
    left = list(choices)
    while left:
        cells = {cell for choice in left for cell in choice}
        best = min(cells, key=lambda cell: (-sum(cell in choice for choice in left), cell))
        yield best
        left = [choice for choice in left if best not in choice]
