"""Nothing prints before it is proved: verdicts on all puzzles of a job."""

from collections.abc import Callable, Iterable, Sequence
from typing import Final

from layout.console import first_of
from verify.board import Cell
from verify.proof.verdict import Verdict, prove
from verify.puzzle import Puzzle
from verify.work import in_order

MOST_CELLS_NAMED: Final = 6


class MayNotBePrinted(Exception):  # noqa: N818 - what befell the job, in the editor's words
    """Puzzles without exactly one answer; `lines` has one for each of them."""

    def __init__(self, puzzles: Sequence[Puzzle], verdicts: Sequence[Verdict]) -> None:
        self.puzzles = tuple(puzzles)
        self.verdicts = tuple(verdicts)
        pairs = zip(puzzles, verdicts, strict=True)
        self.lines = tuple(_line(*pair) for pair in pairs if not pair[1].printable)
        super().__init__("\n".join(self.lines))


def prove_all(
    puzzles: Sequence[Puzzle], workers: int | None, progress: Callable[[int], None]
) -> list[Verdict]:
    """A verdict for each puzzle. Raises MayNotBePrinted, naming all that stand in the way."""
    verdicts = list(in_order(prove, puzzles, workers, progress))
    if not all(verdict.printable for verdict in verdicts):
        raise MayNotBePrinted(puzzles, verdicts)
    return verdicts


def _line(puzzle: Puzzle, verdict: Verdict) -> str:
    """What is wrong with a puzzle, in one line."""
    if verdict.word == "many":
        why = f"many answers, which differ in {_some(puzzle, verdict.differs)}"
    elif verdict.word == "none":
        why = "no answer"
    elif verdict.word == "undecided":
        why = "undecided: whether it has one answer could not be found out in time"
    else:
        why = f"the manifest's own answer is wrong in {_some(puzzle, verdict.contradicts)}"
    return f"{puzzle.file}: {puzzle.id}: {why}"


def _some(puzzle: Puzzle, cells: Iterable[Cell]) -> str:
    """The first cells by name."""
    return first_of([puzzle.board.name(cell) for cell in cells], MOST_CELLS_NAMED)
