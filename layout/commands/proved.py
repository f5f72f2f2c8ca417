"""What a command may print: a puzzle that has been proved."""

from layout.console import complain
from verify.budget import Deadline
from verify.pencil import Grid
from verify.proof.verdict import Verdict, prove
from verify.puzzle import Puzzle


def proved(puzzle: Puzzle, deadline: Deadline) -> Grid | None:
    """The one answer; None, and said why, where there is not exactly one."""
    return answer_of(puzzle, prove(puzzle, deadline=deadline))


def answer_of(puzzle: Puzzle, verdict: Verdict) -> Grid | None:
    """The one answer of a verdict; None, and said why, where there is none."""
    if verdict.printable:
        return verdict.answers[0]
    if verdict.contradicts:
        cells = " ".join(map(puzzle.board.name, verdict.contradicts))
        where = puzzle.place_of("answer")
        complain(f"{where}: the manifest's answer is not the proved one in {cells}")
    else:
        complain(f"{puzzle.file}: {verdict.word}, expected one answer")
    return None
