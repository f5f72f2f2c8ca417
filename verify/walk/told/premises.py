"""What a step rests on: exactly those digits that must be missing, and no others.

Whoever is told that r9c2 holds 3, "so the next cell is at least 4", need not hear of the rest of
the mark. For a step and the sheet before it, `premises` finds digits of cells which are enough
for it when they are missing, and of which none can be spared.
"""

from collections.abc import Callable, Hashable, Iterable, Sequence
from dataclasses import replace
from typing import Final, TypeAlias

from verify.board import Cell
from verify.pencil import ABSENT, Mask, Pencil, Strike, bit, digits_of, every_digit, is_single
from verify.walk.facts.cells import Candidate
from verify.walk.facts.equations import LeftOver, ways_to_sum
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import House, Link, Step, Technique
from verify.walk.techniques.house_sums import MOST_OPEN, as_cage
from verify.walk.techniques.order import too_little_room
from verify.walk.told.event import Based, Event, Missing, add, each_candidate
from verify.walk.ways.mark_solver import MarkSolver

Sheet: TypeAlias = list[Mask]
Follows: TypeAlias = Callable[[Sheet], bool]
"""Whether a step still follows where the sheet holds so much."""

Rank: TypeAlias = Callable[[Cell, int], float]
"""How gladly a missing digit is done without: the larger, the sooner."""

WHOLE: Final = frozenset({Technique.ORDER, Technique.HOUSE_SUM})
"""What speaks of all its cells, whether something is missing from them or not."""


Claim: TypeAlias = tuple[tuple[Cell, ...], int, bool]
"""Some cells, a digit, and whether it is supposed to stand in all of them, or in none."""


class Premises:
    """Finds the premises of steps on one puzzle's sheet; `notes` is any sheet of that puzzle."""

    def __init__(self, notes: Notes) -> None:
        self.notes = notes
        self._solvers: dict[tuple[Link, tuple[House, ...]], MarkSolver] = {}
        self._struck: dict[Hashable, bool] = {}

    def based(self, event: Event, removes: Sequence[tuple[Cell, Mask]], dear: Rank) -> Based:
        """The step of an event, for so many of its strikes, with what it rests on.

        Digits that are `dear` are done without first, where there is a choice.
        """
        step = replace(event.step, removes=tuple(removes))
        match step.technique:
            case Technique.MARK:
                return self._mark(step, event, dear)
            case Technique.ARRANGEMENTS:
                return self._arrangement(step, event, dear)
            case Technique.ORDER:
                return self._order(step, event, dear)
            case Technique.HOUSE_SUM:
                return self._house_sum(step, event, dear)
            case _:
                return Based(step, self._gone(step_needs(step, event), event))

    def _every(self) -> Mask:
        return every_digit(self.notes.digits)

    def _gone(self, missing: Missing, event: Event) -> tuple[tuple[Cell, Mask], ...]:
        """What of it is missing from the sheet, by cells."""
        every = self._every()
        found = ((cell, mask & every & ~event.before[cell]) for cell, mask in missing.items())
        return tuple(sorted((cell, mask) for cell, mask in found if mask))

    def _full(self, cells: Sequence[Cell], event: Event) -> Missing:
        """All that is missing from some cells."""
        every = self._every()
        gone = {cell: every & ~event.before[cell] for cell in cells}
        return {cell: mask for cell, mask in gone.items() if mask}

    def _mark(self, step: Step, event: Event, dear: Rank) -> Based:
        (link,) = step.because.links[:1]
        targets, cells = step.removes, sorted(set(link.constraint.cells))

        def follows(sheet: Sheet) -> bool:
            # A path is gone over several times, and asks much the same each time.
            asked = link, targets, tuple([sheet[cell] for cell in cells])
            if asked not in self._struck:
                self._struck[asked] = struck_by(link.constraint.strikes, sheet, targets)
            return self._struck[asked]

        return self._reduced(step, event, cells, follows, dear)

    def _order(self, step: Step, event: Event, dear: Rank) -> Based:
        ((cell, mask),) = step.removes
        beyond = tuple(other for other in step.because.cells if other != cell)
        upwards = any(
            rank.cell == cell and rank.upwards and set(rank.beyond) == set(beyond)
            for rank in self.notes.ranks
        )

        def follows(sheet: Sheet) -> bool:
            held = [sheet[other] for other in beyond]
            return all(too_little_room(digit, held, upwards=upwards) for digit in digits_of(mask))

        return self._reduced(step, event, beyond, follows, dear)

    def _house_sum(self, step: Step, event: Event, dear: Rank) -> Based:
        cells = step.because.cells
        left = next(
            each
            for each in self.notes.left_overs
            if each.houses == step.summed
            and each.links == step.because.links[: len(each.links)]
            and tuple(sorted(cell for cell, _ in each.terms)) == cells
        )
        digits = self.notes.digits
        few = sum(not event.placed >> cell & 1 for cell in cells) <= MOST_OPEN

        def follows(sheet: Sheet) -> bool:
            if not few:
                kept = as_cage([cell for cell, _ in left.terms], left.total, digits, sheet)
                return all(not kept[cell] & mask for cell, mask in step.removes)
            return not any(self._has_way(left, sheet, *struck) for struck in step.removes)

        return self._reduced(step, event, cells, follows, dear)

    def _has_way(self, left: LeftOver, sheet: Sheet, cell: Cell, mask: Mask) -> bool:
        """Whether the cells left over make their total with one of some digits in a cell."""
        self.notes.deadline.check()
        held = list(sheet)
        held[cell] &= mask
        ways = ways_to_sum(left.terms, left.total, held, self.notes.peers)
        return next(ways, None) is not None

    def _arrangement(self, step: Step, event: Event, dear: Rank) -> Based:
        """By a solver over the mark, with all that is missing as its assumptions."""
        (link,) = step.because.links
        solver = self._solver(link, step.because.houses)
        claims = _claims(step, frozenset(link.constraint.cells))
        missing = self._full(sorted(set(link.constraint.cells)), event)
        blamed: Missing = {}
        for cells, digit, stands in claims:
            found = self._blamed(solver, (cells, digit, stands), missing, event, dear)
            if found is None:
                blamed = missing
                break
            for cell, mask in found.items():
                add(blamed, cell, mask)
        return _about(step, tuple(sorted(blamed.items())))

    def _blamed(
        self, solver: MarkSolver, claim: Claim, missing: Missing, event: Event, dear: Rank
    ) -> Missing | None:
        """The fewest digits that must be missing for one claim, cells that are placed whole."""
        cells, digit, stands = claim

        def ask(gone: Missing) -> Missing | None:
            found = solver.blamed(cells, digit, each_candidate(gone), stands=stands)
            return None if found is None else _joined(found)

        first = ask(missing)
        if first is None:
            return None
        kept: Missing = first
        for cell in sorted(kept, key=lambda at: self._weight(at, kept[at], event, dear)):
            fewer = ask({other: mask for other, mask in kept.items() if other != cell})
            kept = kept if fewer is None else fewer
        one_by_one = [each for each in each_candidate(kept) if not event.placed >> each[0] & 1]
        for cell, gone in sorted(one_by_one, key=lambda each: (-dear(*each), each)):
            mask = kept.get(cell, 0)
            if mask >> gone & 1:
                fewer = ask({**kept, cell: mask & ~bit(gone)})
                kept = kept if fewer is None else fewer
        return {
            cell: missing[cell] if event.placed >> cell & 1 else mask for cell, mask in kept.items()
        }

    def _weight(
        self, cell: Cell, missing: Mask, event: Event, dear: Rank
    ) -> tuple[float, bool, Cell]:
        """What is done without first: what is dear, and then cells that are not placed."""
        dearest = max((dear(cell, digit) for digit in digits_of(missing)), default=0.0)
        return -dearest, is_single(event.before[cell]), cell

    def _solver(self, link: Link, houses: tuple[House, ...]) -> MarkSolver:
        """A solver over a mark and houses whose cells can hold anything; one for each."""
        key = link, houses
        if key not in self._solvers:
            pencil = [ABSENT if mask == ABSENT else self._every() for mask in self.notes.pencil]
            self._solvers[key] = MarkSolver(
                self.notes.digits, pencil, link.constraint, houses, self.notes.deadline
            )
        return self._solvers[key]

    def _reduced(
        self, step: Step, event: Event, cells: Sequence[Cell], follows: Follows, dear: Rank
    ) -> Based:
        """Gives digits back to cells, whole cells first, as long as the step still follows."""
        every, missing = self._every(), self._full(cells, event)
        sheet = list(event.before)
        for cell in sorted(missing, key=lambda at: self._weight(at, missing[at], event, dear)):
            self.notes.deadline.check()
            sheet[cell] = every
            if follows(sheet):
                del missing[cell]
            else:
                sheet[cell] = event.before[cell]
        for cell in [cell for cell in missing if not event.placed >> cell & 1]:
            for digit in sorted(digits_of(missing[cell]), key=lambda d: (-dear(cell, d), d)):
                self.notes.deadline.check()
                sheet[cell] |= bit(digit)
                if follows(sheet):
                    missing[cell] &= ~bit(digit)
                else:
                    sheet[cell] &= ~bit(digit)
        return _about(step, tuple(sorted((cell, mask) for cell, mask in missing.items() if mask)))


def struck_by(
    strikes: Callable[[Pencil], Iterable[Strike]],
    sheet: Sheet,
    targets: Sequence[tuple[Cell, Mask]],
) -> bool:
    """Whether some targets are struck by a mark that strikes until it strikes no more."""
    held = list(sheet)
    again = True
    while again:
        again = False
        for strike in strikes(held):
            for cell, mask in strike.removes:
                if held[cell] & mask:
                    held[cell] &= ~mask
                    again = True
        if all(not held[cell] & mask for cell, mask in targets):
            return True
    return False


def _about(step: Step, needs: tuple[tuple[Cell, Mask], ...]) -> Based:
    """A step that speaks of the cells which it rests on, and of those that it strikes from."""
    if step.technique not in WHOLE:
        about = {cell for cell, _ in (*needs, *step.removes)}
        step = replace(step, because=replace(step.because, cells=tuple(sorted(about))))
    return Based(step, needs)


def _claims(step: Step, inside: frozenset[Cell]) -> list[Claim]:
    """What must be impossible: a digit in a cell, or in none of the mark's cells in a house."""
    if step.because.digits:
        within = tuple(cell for cell in step.because.houses[0].cells if cell in inside)
        return [(within, digit, False) for digit in digits_of(step.because.digits)]
    return [((cell,), digit, True) for cell, mask in step.removes for digit in digits_of(mask)]


def _joined(candidates: Iterable[Candidate]) -> Missing:
    found: Missing = {}
    for cell, digit in candidates:
        add(found, cell, bit(digit))
    return found


def step_needs(step: Step, event: Event) -> Missing:
    """What a step needs whose technique says it: digits of cells, gone already or not."""
    because, found = step.because, Missing()
    match step.technique:
        case Technique.LAST_CELL | Technique.HIDDEN_SINGLE:
            ((place, digit),) = step.places
            for cell in because.cells:
                if cell != place:
                    add(found, cell, bit(digit))
        case Technique.NAKED_SINGLE:
            ((place, digit),) = step.places
            add(found, place, ~bit(digit))
        case Technique.NAKED_PAIR | Technique.NAKED_TRIPLE | Technique.NAKED_QUAD:
            for cell in because.cells:
                add(found, cell, ~because.digits)
        case Technique.WING:
            for cell in because.cells:
                add(found, cell, -1)
        case Technique.HIDDEN_PAIR | Technique.HIDDEN_TRIPLE | Technique.HIDDEN_QUAD:
            for cell in because.cells:
                add(found, cell, because.digits & ~event.before[cell])
        case Technique.SHORT_IF | Technique.LONG_IF | Technique.EITHER_WAY | Technique.DEEP_IF:
            for cell, mask in step.counts:
                add(found, cell, mask)
        case _:
            for cell in because.cells:
                add(found, cell, because.digits)
    return found
