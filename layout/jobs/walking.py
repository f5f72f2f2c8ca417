"""How hard each puzzle of a job is: the walks and the grades of all of them."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from verify.puzzle import Puzzle
from verify.walk.grade import Grade, grade
from verify.walk.walk import Walk, walk
from verify.work import in_order


@dataclass(frozen=True, slots=True)
class Walked:
    """A puzzle's walk, as far as it goes, and what it says of how hard the puzzle is."""

    walk: Walk
    grade: Grade


def walk_all(
    puzzles: Sequence[Puzzle], workers: int | None, progress: Callable[[int], None]
) -> list[Walked]:
    """A walk and a grade for each puzzle, in the order of the puzzles."""
    return list(in_order(walked, puzzles, workers, progress))


def walked(puzzle: Puzzle) -> Walked:
    """The walk and the grade of one puzzle."""
    path = walk(puzzle)
    return Walked(path, grade(path))
