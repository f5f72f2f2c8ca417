"""Nothing prints before it is proved: verdicts on all puzzles of a job."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import partial
from typing import Any, Final

from layout.console import first_of
from layout.jobs.common.making import Making
from verify.board import Cell
from verify.proof.verdict import Verdict, prove
from verify.puzzle import Puzzle
from verify.work import in_order

MOST_CELLS_NAMED: Final = 6


class MayNotBePrinted(Exception):  # noqa: N818 - what befell the job, in the editor's words
    """Puzzles that stand in the way; `lines` has one for each of them.

    `facts` says in words for the JSON document what is known of every puzzle of the job.
    """

    def __init__(self, lines: Iterable[str], facts: Iterable[Mapping[str, Any]]) -> None:
        self.lines = tuple(lines)
        self.facts = tuple(facts)
        super().__init__("\n".join(self.lines))


def prove_all(
    puzzles: Sequence[Puzzle], making: Making, progress: Callable[[int], None]
) -> list[Verdict]:
    """A verdict for each puzzle. Raises MayNotBePrinted, naming all that stand in the way."""
    task = partial(prove, budget=making.budget)
    verdicts = list(in_order(task, puzzles, making.workers, progress, lost=unproved))
    refuse_unproved(list(zip(puzzles, verdicts, strict=True)))
    return verdicts


def unproved(puzzle: Puzzle) -> Verdict:
    """The verdict on a puzzle whose proof no process lived to finish."""
    return Verdict("undecided")


def refuse_unproved(proved: Sequence[tuple[Puzzle, Verdict]]) -> None:
    """Raises MayNotBePrinted, naming all puzzles that have not exactly one answer."""
    lines = [_line(puzzle, verdict) for puzzle, verdict in proved if not verdict.printable]
    if lines:
        raise MayNotBePrinted(lines, (_facts(*each) for each in proved))


def _facts(puzzle: Puzzle, verdict: Verdict) -> dict[str, Any]:
    return {"file": puzzle.file, "id": puzzle.id, "verdict": verdict.word}


def _line(puzzle: Puzzle, verdict: Verdict) -> str:
    """What is wrong with a puzzle, in one line."""
    where = puzzle.source
    if verdict.word == "many":
        why = f"many answers, which differ in {_some(puzzle, verdict.differs)}"
    elif verdict.word == "none":
        why = "no answer"
    elif verdict.word == "undecided":
        why = "undecided: time or memory was over before all was known; --seconds gives more time"
    else:
        where = str(puzzle.place_of("answer"))
        why = f"the manifest's own answer is wrong in {_some(puzzle, verdict.contradicts)}"
    return f"{where}: {puzzle.id}: {why}"


def _some(puzzle: Puzzle, cells: Iterable[Cell]) -> str:
    """The first cells by name."""
    return first_of([puzzle.board.name(cell) for cell in cells], MOST_CELLS_NAMED)
