"""What a command may print: a puzzle that has been proved."""

from layout.console import complain
from verify.budget import Deadline
from verify.pencil import Grid
from verify.proof.verdict import prove
from verify.puzzle import Puzzle


def proved(puzzle: Puzzle, deadline: Deadline) -> Grid | None:
    """The one answer; None, and said why, where there is not exactly one."""
    verdict = prove(puzzle, deadline=deadline)
    if verdict.printable:
        return verdict.answers[0]
    if verdict.contradicts:
        cells = " ".join(map(puzzle.board.name, verdict.contradicts))
        where = puzzle.place_of("answer")
        complain(f"{where}: the manifest's answer is not the proved one in {cells}")
    else:
        complain(f"{puzzle.file}: {verdict.word}, expected one answer")
    return None
