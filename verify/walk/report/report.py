"""What an editor asks of a walk: where it breaks in, where it is tight, what it does without."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import floor
from typing import Final

from verify.board import Board, Cell, Outside
from verify.disguise.symmetry import Symmetry, symmetries_of_givens, symmetries_of_marks
from verify.puzzle import Puzzle
from verify.reading.outside import name_outside
from verify.walk.facts.step import Technique, cells_touched
from verify.walk.report.grade import BAND_WIDTH, EFFORT
from verify.walk.report.unused import Unused, Written, unused
from verify.walk.told.event import cost_of
from verify.walk.told.head import head_of
from verify.walk.told.path import ToldPath
from verify.walk.walk import Round, Walk

MOST_HARD: Final = 3
"""Hard steps that are told of."""


@dataclass(frozen=True, slots=True)
class BreakIn:
    """Where the puzzle breaks open.

    `singles` is the number of digits that are placed before; `step` is the number of the step in
    the path, the first one 0, and `placement` that of the first placement after it: None where
    the walk ends before it.
    """

    singles: int
    step: int
    placement: int | None


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

    `hard` are the numbers in the path of the hardest steps. `counts` holds the steps of each
    technique, the easiest first. `break_in` is None where plain singles are all there is,
    `tightest` where there is nothing to do, `stop` where the walk finishes. `givens` and `marks`
    are symmetries of where these stand, None where there are none.
    """

    break_in: BreakIn | None
    hard: tuple[int, ...]
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


def report(puzzle: Puzzle, walk: Walk, path: ToldPath) -> Report:
    """Reads all of it off a walk of the puzzle and the path on which it is told."""
    counts = Counter(each.step.technique for each in path.steps)
    return Report(
        _break_in(path),
        _hard(path),
        _tightest(puzzle, walk.rounds),
        {technique: counts[technique] for technique in EFFORT if technique in counts},
        unused(puzzle, path),
        symmetries_of_givens(puzzle),
        symmetries_of_marks(puzzle),
        None if walk.finished else _stop(puzzle, walk),
    )


def _break_in(path: ToldPath) -> BreakIn | None:
    """The first strike after which several digits follow."""
    number = head_of(path.steps).break_in
    if number is None:
        return None
    placing = [at for at, each in enumerate(path.steps) if each.step.places]
    after = next((at for at in placing if at > number), None)
    return BreakIn(sum(at < number for at in placing), number, after)


def _hard(path: ToldPath) -> tuple[int, ...]:
    """The strikes that cost most, in the order of the path: where solvers will stick."""
    strikes = [at for at, each in enumerate(path.steps) if not each.step.places]
    hardest = sorted(strikes, key=lambda at: (-cost_of(path.steps[at].step), at))
    return tuple(sorted(hardest[:MOST_HARD]))


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
