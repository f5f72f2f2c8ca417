"""What a scene of `reglet draw` shows: a step of the walk, or why there is not one answer.

Each returns a scene, or says in a sentence why there is none.
"""

from collections.abc import Iterable, Iterator
from typing import Final

from layout.language.words import read_words
from layout.telling.step_pictures import paragraph_scenes
from layout.telling.telling import tell_walk
from verify.board import Cell
from verify.budget import Deadline
from verify.pencil import Grid, Mask, bit
from verify.proof.conflict import conflict_of
from verify.proof.parts import GivenPart, MarkPart
from verify.proof.several import several
from verify.proof.verdict import Verdict
from verify.puzzle import Puzzle
from verify.walk.facts.step import Link
from verify.walk.report.replay import Scene
from verify.walk.told.path import told_path

NO_REASON: Final = "undecided in this time why there is no answer"


def step_scene(puzzle: Puzzle, number: int, deadline: Deadline) -> Scene | str:
    """What a step of the walk shows; where there is no such step, how many there are."""
    # Steps are told together in the same way in every language.
    telling = tell_walk(puzzle, told_path(puzzle, deadline), read_words("en"))
    scenes = paragraph_scenes(puzzle, telling)
    if number not in scenes:
        return f"found step {number}, expected at most {len(scenes)}; its walk has no more"
    return scenes[number]


def conflict_scene(puzzle: Puzzle, verdict: Verdict, deadline: Deadline) -> Scene | str:
    """The cells of givens and marks that can't stand together, their givens in rings."""
    if verdict.word != "none":
        return f"{verdict.word}, expected none: only then is there a conflict"
    conflict = conflict_of(puzzle, deadline)
    if conflict is None:
        return NO_REASON
    parts = conflict.parts
    # What a rule says of the whole board would shade all of it, and tell nothing.
    shown = [part for part in parts if isinstance(part, GivenPart) or part.drawn is not None]
    cells = {cell for part in shown for cell in part.cells}
    givens = [part.cell for part in parts if isinstance(part, GivenPart)]
    marks = [
        Link(part.rule, constraint)
        for part in parts
        if isinstance(part, MarkPart)
        for constraint in part.constraints
    ]
    return Scene(
        pencil=(0,) * len(puzzle.givens),
        written=puzzle.givens,
        pushing=tuple(givens),
        grounds=tuple(sorted(cells)),
        speaking=tuple(marks),
    )


def differs_scene(puzzle: Puzzle, verdict: Verdict, deadline: Deadline) -> Scene | str:
    """Two answers as pencil marks, as close as two were found, and a ground where they differ.

    Where they do, the digit of the first one is told by its font.
    """
    if verdict.word != "many":
        return f"{verdict.word}, expected many: only then do answers differ"
    found = several(puzzle, verdict, deadline=deadline)
    one, other = found.closest
    return Scene(
        pencil=tuple(map(_marks, one, other)),
        written=puzzle.givens,
        counting=tuple(_where(found.pattern, one)),
        grounds=found.pattern,
        speaking=tuple(
            Link(use.rule.name, constraint) for use in puzzle.uses for constraint in use.constraints
        ),
    )


def _marks(one: int, other: int) -> Mask:
    """The digits of two answers in a cell; none where there is no cell."""
    return (bit(one) | bit(other)) if one else 0


def _where(cells: Iterable[Cell], grid: Grid) -> Iterator[tuple[Cell, Mask]]:
    return ((cell, bit(grid[cell])) for cell in cells)
