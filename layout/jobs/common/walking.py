"""How hard each puzzle of a job is: the walks and the grades of all of them."""

from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Any, NoReturn

from layout.jobs.common.making import Making
from layout.jobs.common.proving import MayNotBePrinted
from verify.budget import Budget
from verify.puzzle import Puzzle
from verify.walk.report.grade import Band, Grade
from verify.walk.report.kept import Graded, GradeKeeper, grade_of
from verify.walk.told.path import ToldPath, told_path
from verify.work import in_order


@dataclass(frozen=True, slots=True)
class Walked:
    """What a puzzle's walk says of how hard it is.

    `path` is how it is told; None where nothing of it is.
    """

    graded_as: Graded
    path: ToldPath | None = None

    @property
    def cut_short(self) -> bool:
        """Whether its time was over before it ended."""
        return self.graded_as.cut_short or (self.path is not None and self.path.cut_short)

    @property
    def grade(self) -> Grade:
        """How hard the puzzle is."""
        return self.graded_as.grade

    @property
    def graded(self) -> bool:
        """Whether it is known how hard the puzzle is."""
        return self.grade.band is not Band.UNGRADED


def walk_all(
    puzzles: Sequence[Puzzle],
    making: Making,
    progress: Callable[[int], None],
    told: Collection[str] = (),
    keeper: GradeKeeper | None = None,
) -> list[Walked]:
    """A walk and a grade for each puzzle, in the order of the puzzles, and how it is told.

    `told` are the ids of those of which something is told; `keeper` may know grades already.

    Raises MayNotBePrinted for a puzzle whose walk no process lives to finish, and where the time is
    over before a walk ends: what would be printed then were another on another machine.
    """
    task = partial(walked, budget=making.budget, told=frozenset(told), keeper=keeper)
    walks = list(in_order(task, puzzles, making.workers, progress, lost=_refuse_lost))
    refuse_cut_short(list(zip(puzzles, walks, strict=True)))
    return walks


def walked(
    puzzle: Puzzle,
    budget: Budget,
    told: Collection[str] = (),
    keeper: GradeKeeper | None = None,
) -> Walked:
    """The walk and the grade of one puzzle, and its path where its id is among those told."""
    deadline = budget.deadline()
    graded = grade_of(puzzle, deadline, keeper)
    path = told_path(puzzle, deadline) if puzzle.id in told else None
    return Walked(graded, path)


def _refuse_lost(puzzle: Puzzle) -> NoReturn:
    line = f"{puzzle.source}: {puzzle.id}: its walk could not be finished in the memory there is"
    raise MayNotBePrinted([line], [{"file": puzzle.file, "id": puzzle.id, "verdict": "one"}])


def refuse_cut_short(walks: Sequence[tuple[Puzzle, Walked]]) -> None:
    """Raises MayNotBePrinted, naming all puzzles whose time was over before their walks ended."""
    why = "the time was over before its walk ended; --seconds gives more"
    lines = [
        f"{puzzle.source}: {puzzle.id}: ungraded: {why}" for puzzle, each in walks if each.cut_short
    ]
    if lines:
        raise MayNotBePrinted(lines, (facts_of(puzzle, each.grade) for puzzle, each in walks))


def refuse_ungraded(puzzles: Sequence[Puzzle], walks: Sequence[Walked]) -> None:
    """Raises MayNotBePrinted, naming all puzzles whose walks do not reach the answer."""
    pairs = list(zip(puzzles, walks, strict=True))
    lines = [_line(puzzle) for puzzle, each in pairs if not each.graded]
    if lines:
        raise MayNotBePrinted(lines, (facts_of(puzzle, each.grade) for puzzle, each in pairs))


def facts_of(puzzle: Puzzle, of: Grade) -> dict[str, Any]:
    """What the JSON document says of a puzzle with one answer."""
    return {
        "file": puzzle.file,
        "id": puzzle.id,
        "verdict": "one",
        "grade": {"band": of.band.value, "score": of.score},
    }


def _line(puzzle: Puzzle) -> str:
    """Why a puzzle has no grade, and what the editor can do."""
    why = "the known techniques do not lead to its answer; `ungraded: print` prints it nevertheless"
    return f"{puzzle.source}: {puzzle.id}: ungraded: {why}"
