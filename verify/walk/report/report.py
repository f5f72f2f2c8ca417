"""What an editor asks of a walk: where it breaks in, where it is tight, what it does without."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import floor

from verify.board import Board, Cell, Outside
from verify.disguise.symmetry import Symmetry, symmetries_of_givens, symmetries_of_marks
from verify.puzzle import Puzzle
from verify.reading.outside import name_outside
from verify.walk.facts.step import PLAIN_SINGLES, Step, Technique, cells_touched
from verify.walk.report.grade import BAND_WIDTH, EFFORT
from verify.walk.report.needed import needed_steps
from verify.walk.report.unused import Unused, Written, unused
from verify.walk.walk import Round, Walk


@dataclass(frozen=True, slots=True)
class BreakIn:
    """Where plain singles no longer get on.

    `singles` is the number of digits that they place before; `step` is the first that takes more,
    and `placement` the first placement after it, which plain singles do not reach: None where
    the walk ends before it. Of steps that do not matter none is taken.
    """

    singles: int
    step: Step
    placement: Step | None


@dataclass(frozen=True, slots=True)
class Tightest:
    """The round with the fewest ways on; of several the first one of the hardest band.

    `cells` are the ways on: each takes a digit or loses candidates. `filled` is the number of
    cells with a digit before it, given or placed.
    """

    technique: Technique
    cells: tuple[Cell, ...]
    filled: int


@dataclass(frozen=True, slots=True)
class Stop:
    """Where a walk ends before the answer.

    Digits placed, givens not among them; cells still open, and the candidates left in them.
    """

    placed: int
    open: int
    candidates: int


@dataclass(frozen=True, slots=True)
class Report:
    """All of it; what steps are counted and rest on is told of those that matter.

    `counts` holds the steps of each technique, the easiest first. `break_in` is None where plain
    singles are all there is, `tightest` where there is nothing to do, `stop` where the walk
    finishes. `givens` and `marks` are symmetries of where these stand, None where there are none.
    """

    break_in: BreakIn | None
    tightest: Tightest | None
    counts: Mapping[Technique, int]
    unused: Unused
    givens: tuple[Symmetry, ...] | None
    marks: tuple[Symmetry, ...] | None
    stop: Stop | None

    @property
    def once(self) -> tuple[Technique, ...]:
        """The techniques of which there is a single step."""
        return tuple(technique for technique, count in self.counts.items() if count == 1)


def report(puzzle: Puzzle, walk: Walk) -> Report:
    """Reads all of it off a walk of the puzzle."""
    steps = needed_steps(walk)
    counts = Counter(step.technique for step in steps)
    return Report(
        _break_in(steps),
        _tightest(puzzle, walk.rounds),
        {technique: counts[technique] for technique in EFFORT if technique in counts},
        unused(puzzle, steps),
        symmetries_of_givens(puzzle),
        symmetries_of_marks(puzzle),
        None if walk.finished else _stop(puzzle, walk),
    )


def _break_in(steps: Sequence[Step]) -> BreakIn | None:
    """The first step beyond plain singles: the walk takes these first, as far as they lead."""
    for index, step in enumerate(steps):
        if step.technique not in PLAIN_SINGLES:
            after = (each for each in steps[index:] if each.places)
            singles = len({place for each in steps[:index] for place in each.places})
            return BreakIn(singles, step, next(after, None))
    return None


def _tightest(puzzle: Puzzle, rounds: Sequence[Round]) -> Tightest | None:
    """The tightest round, last cells left out: there is often only one, and it is no effort."""
    filled = {cell for cell, digit in enumerate(puzzle.givens) if digit}
    found: list[Tightest] = []
    for each in rounds:
        if each.technique is not Technique.LAST_CELL:
            ways = tuple(sorted(cells_touched(each.steps)))
            found.append(Tightest(each.technique, ways, len(filled)))
        filled |= {cell for step in each.steps for cell, _ in step.places}
    return min(found, key=_tightness, default=None)


def _tightness(one: Tightest) -> tuple[int, int]:
    """Few ways first, then the techniques of a hard band."""
    return len(one.cells), -floor(EFFORT[one.technique] / BAND_WIDTH)


def _stop(puzzle: Puzzle, walk: Walk) -> Stop:
    """What is left at the end of a walk."""
    placed = {cell for step in walk.every_step for cell, _ in step.places}
    left = [cell for cell in puzzle.board.cells if not puzzle.givens[cell] and cell not in placed]
    return Stop(len(placed), len(left), sum(walk.pencil[cell].bit_count() for cell in left))


def place_of(board: Board, mark: Written) -> str:
    """Where a mark starts, as a manifest writes it: `r2c1`, `top c3 se`.

    A mark of two cells is told by both, as an edge has no start; a rule without marks is empty.
    """
    if mark.constraint is None:
        return ""
    outside: Outside | None = getattr(mark.constraint, "outside", None)
    if outside is not None:
        return name_outside(board, outside)
    cells = mark.constraint.cells
    return " ".join(map(board.name, cells if len(cells) == 2 else cells[:1]))
