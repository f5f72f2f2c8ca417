"""Whether a certificate is that of a manifest: the formula is made anew, and must be the same."""

from typing import Final

from verify.budget import BudgetSpent, Deadline
from verify.certificate.checking import CertificateFiles
from verify.certificate.encoding import encode
from verify.certificate.reading import Statement
from verify.certificate.refused import Refused
from verify.certificate.writing import digest
from verify.puzzle import Puzzle

_CHANGED: Final = "the manifest is not the one that was certified: it has changed since"


def check_binding(
    files: CertificateFiles,
    statement: Statement,
    puzzle: Puzzle,
    manifest: bytes,
    deadline: Deadline,
) -> None:
    """Holds a certificate against the puzzle that it is said to be of.

    The answer must keep the rules by their plain check too, which knows no clause. Raises Refused.
    """
    said = files.called("json")
    if statement.puzzle != puzzle.id:
        raise Refused(said, 1, f"it is of another puzzle than {puzzle.id}")
    if statement.manifest != digest(manifest):
        raise Refused(said, 1, _CHANGED)
    answer = _answer_on(puzzle, statement, said)
    try:
        rebuilt = encode(puzzle, answer, deadline).dimacs()
    except BudgetSpent:
        raise Refused(said, 1, "the formula can't be made anew in this time and room") from None
    if rebuilt != files.cnf:
        line = _first_difference(rebuilt, files.cnf)
        message = f"the formula is not that of {puzzle.id}, from this line on"
        raise Refused(files.called("cnf"), line, message)
    if not all(constraint.holds(answer) for constraint in puzzle.constraints()):
        raise Refused(said, 1, "the answer does not keep the rules of the puzzle")


def _answer_on(puzzle: Puzzle, statement: Statement, said: str) -> tuple[int, ...]:
    """The answer as a grid of the board; 0 where it has no cell."""
    board = puzzle.board
    if statement.answer.keys() != {board.name(cell) for cell in board.cells}:
        raise Refused(said, 1, "the answer is of another board")
    if not all(1 <= digit <= board.digits for digit in statement.answer.values()):
        raise Refused(said, 1, f"the answer has digits other than 1 to {board.digits}")
    return tuple(statement.answer.get(board.name(place), 0) for place in board.places)


def _first_difference(one: bytes, other: bytes) -> int:
    """The first line that differs, from 1."""
    pairs = zip(one.split(b"\n"), other.split(b"\n"), strict=False)
    return next((number for number, (a, b) in enumerate(pairs, start=1) if a != b), 1)
