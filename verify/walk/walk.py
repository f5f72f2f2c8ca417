"""The walk: from the givens to the answer, always by the easiest technique that gets on."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final, TypeAlias

from verify.board import Cell
from verify.budget import NEVER, BudgetSpent, Deadline
from verify.pencil import Mask
from verify.puzzle import Puzzle
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Step, Technique, cells_touched
from verify.walk.techniques.arrangements import arrangements
from verify.walk.techniques.colours import colour_chains
from verify.walk.techniques.deep_ifs import deep_ifs
from verify.walk.techniques.either_way import either_way
from verify.walk.techniques.fish import fish
from verify.walk.techniques.house_sums import house_sums
from verify.walk.techniques.ifs import ifs
from verify.walk.techniques.locked import locked
from verify.walk.techniques.marks import marks
from verify.walk.techniques.order import order
from verify.walk.techniques.singles import hidden_singles, last_cells, naked_singles
from verify.walk.techniques.subsets import hidden, naked
from verify.walk.techniques.wings import wings

Finder: TypeAlias = Callable[[Notes], Iterable[Step]]

LADDER: Final[tuple[Finder, ...]] = (
    last_cells,
    hidden_singles,
    naked_singles,
    marks,
    locked,
    naked(2),
    hidden(2),
    arrangements,
    order,
    naked(3),
    hidden(3),
    house_sums,
    fish(2),
    naked(4),
    hidden(4),
    wings,
    colour_chains,
    fish(3),
    fish(4),
    ifs,
    either_way,
    deep_ifs,
)
"""The techniques in order of effort. The next one is tried only where none before gets on."""

MOST_LOOKED_AT: Final = 1_000_000
"""Candidates on the sheet, counted anew in each round, after which a walk is given up.

A hard 9x9 puzzle comes to some 20,000, a hard 25x25 one to 200,000. The bound is one of work, so
that a walk ends at the same place on every machine.
"""


@dataclass(frozen=True, slots=True)
class Round:
    """All that one technique sees on the sheet at one point.

    `ways` counts the placements, or the cells that lose candidates: the ways on from there.
    """

    technique: Technique
    steps: tuple[Step, ...]
    ways: int


@dataclass(frozen=True, slots=True)
class Walk:
    """A walk as far as it goes.

    `pencil` holds the marks at its end; `finished` is set where every cell is placed and
    the grid keeps the rules. It is `cut_short` where its time was over, not its techniques.
    """

    rounds: tuple[Round, ...]
    pencil: tuple[Mask, ...]
    finished: bool
    cut_short: bool = False

    @property
    def every_step(self) -> Iterator[Step]:
        """All steps, one after another."""
        return (step for each in self.rounds for step in each.steps)


def walk(
    puzzle: Puzzle,
    most_looked_at: int = MOST_LOOKED_AT,
    *,
    reasons: bool = True,
    deadline: Deadline = NEVER,
    ladder: Sequence[Finder] | None = None,
) -> Walk:
    """Walks a puzzle from its givens, without a thought of how many answers it has.

    Past `most_looked_at` candidates it ends unfinished, and so it does after the deadline. Without
    `reasons` it has the same rounds, which strike and place the same, sooner: some steps don't say
    why. A `ladder` that is but the beginning of the usual one ends the walk where it needs more.
    """
    notes = Notes(puzzle, reasons=reasons, deadline=deadline)
    rounds: list[Round] = []
    cut_short = False
    try:
        for found in _rounds(notes, most_looked_at, ladder or LADDER):
            rounds.append(found)
    except BudgetSpent:
        cut_short = True
    return Walk(tuple(rounds), tuple(notes.pencil), notes.finished, cut_short)


def _rounds(notes: Notes, most_looked_at: int, ladder: Sequence[Finder]) -> Iterator[Round]:
    """Round after round, each applied to the sheet. Raises BudgetSpent after the deadline."""
    looked_at = 0
    while notes.open and not notes.broken and looked_at <= most_looked_at:
        looked_at += sum(mask.bit_count() for mask in notes.pencil)
        found = _next_round(notes, ladder)
        if found is None:
            return
        notes.apply(found.steps)
        yield found


def _next_round(notes: Notes, ladder: Sequence[Finder]) -> Round | None:
    """What the easiest technique that gets on finds; None where none does.

    Nothing is supposed on a sheet that contradicts itself: all of it would be refuted, and no
    single digit would be the reason.
    """
    for find in ladder:
        notes.deadline.check()
        if find is ifs and notes.lacks_a_place:
            return None
        steps = sorted(find(notes), key=_told_first)
        if steps:
            kept = tuple(_each_once(steps))
            return Round(steps[0].technique, kept, len(cells_touched(kept)))
    return None


def _told_first(step: Step) -> tuple[int, int, int, tuple[Cell, ...]]:
    """Steps with short reasons first, then those that do the most."""
    struck = sum(mask.bit_count() for _, mask in step.removes)
    followed = (
        len(step.chain) + sum(map(len, step.ways)) + sum(len(each.chain) for each in step.asides)
    )
    return followed, len(step.because.cells), -struck, step.because.cells


def _each_once(steps: Iterable[Step]) -> Iterator[Step]:
    """The steps that place or strike something that none before them does."""
    done: dict[Cell, Mask] = {}
    for step in steps:
        does = [*step.removes, *((cell, -1) for cell, _ in step.places)]
        if any(mask & ~done.get(cell, 0) for cell, mask in does):
            yield step
            for cell, mask in does:
                done[cell] = done.get(cell, 0) | mask
