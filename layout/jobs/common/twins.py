"""Puzzles that stand twice in a job, in disguise or as they are: the editor is told."""

from collections import Counter
from collections.abc import Iterator, Sequence
from typing import Final

from layout.jobs.common.making import Making
from layout.jobs.common.reading import Listed
from verify.disguise.canonical import canonical
from verify.pencil import Grid
from verify.puzzle import Puzzle
from verify.work import in_order

MOST_TOLD: Final = 12


def tell_twins(listed: Sequence[Listed], answers: Sequence[Grid], making: Making) -> None:
    """Tells each puzzle that an earlier one is too, where the job lists it."""
    lines = list(_twins(listed, answers, making))
    for line in lines[:MOST_TOLD]:
        making.tell(line)
    if len(lines) > MOST_TOLD:
        making.tell(f"and {len(lines) - MOST_TOLD} more that are others in disguise")


def _twins(listed: Sequence[Listed], answers: Sequence[Grid], making: Making) -> Iterator[str]:
    """A line for each puzzle that is another; only what might be one is compared."""
    often = Counter(_outline(each.puzzle) for each in listed)
    pairs = [
        (each, answer)
        for each, answer in zip(listed, answers, strict=True)
        if often[_outline(each.puzzle)] > 1
    ]
    with making.progress("comparing", len(pairs)) as done:
        puzzles = [(each.puzzle, answer) for each, answer in pairs]
        forms = list(in_order(_form, puzzles, making.workers, done, lost=_no_form))
    first: dict[str, Puzzle] = {}
    for (each, _), form in zip(pairs, forms, strict=True):
        puzzle = each.puzzle
        other = first.setdefault(form, puzzle) if form else puzzle
        if other is not puzzle:
            how = "again" if other.givens == puzzle.givens else "in disguise"
            yield f"{each.file.place}: {puzzle.id} is {other.id} {how} ({other.source})"


def _outline(puzzle: Puzzle) -> tuple[int, ...]:
    """Numbers that no disguise changes."""
    cells, marks = len(puzzle.board.cells), sum(1 for _ in puzzle.constraints())
    return puzzle.board.digits, cells, marks, sum(map(bool, puzzle.givens))


def _form(solved: tuple[Puzzle, Grid]) -> str:
    return canonical(*solved)


def _no_form(solved: tuple[Puzzle, Grid]) -> str:
    """What is known of a puzzle that no process lived to compare."""
    return ""
