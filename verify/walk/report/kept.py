"""Grades that are kept: by a digest of all that can change a walk, so that none is walked twice."""

from collections.abc import Iterator
from dataclasses import dataclass, fields, is_dataclass
from enum import Enum
from functools import cache
from hashlib import sha256
from pathlib import Path
from typing import Protocol

from verify.budget import Deadline
from verify.puzzle import Puzzle
from verify.walk.report.grade import Grade, grade
from verify.walk.walk import walk


class GradeKeeper(Protocol):
    """Where grades are kept. It may forget any of them, and never gives a wrong one.

    One is handed to worker processes, so it can be pickled.
    """

    def recall(self, digest: bytes) -> Grade | None:
        """The grade that is kept for a digest; None where there is none."""
        ...

    def keep(self, digest: bytes, known: Grade) -> None:
        """Keeps a grade for later."""
        ...


@dataclass(frozen=True, slots=True)
class Graded:
    """A grade, and whether its time was over before its walk ended."""

    grade: Grade
    cut_short: bool = False


def grade_of(puzzle: Puzzle, deadline: Deadline, keeper: GradeKeeper | None = None) -> Graded:
    """The grade of a puzzle, from the keeper or from a walk; a walk that ends by itself is kept."""
    if keeper is None:
        return _walked(puzzle, deadline)
    digest = walk_digest(puzzle)
    known = keeper.recall(digest)
    if known is not None:
        return Graded(known)
    found = _walked(puzzle, deadline)
    if not found.cut_short:
        keeper.keep(digest, found.grade)
    return found


def _walked(puzzle: Puzzle, deadline: Deadline) -> Graded:
    path = walk(puzzle, reasons=False, deadline=deadline)
    return Graded(grade(path), path.cut_short)


def walk_digest(puzzle: Puzzle) -> bytes:
    """32 bytes, the same where the walk must be: the code, the board, the rules and the givens.

    Words, names and symbols change no walk and do not count.
    """
    whole = sha256(code_digest())
    uses = tuple((use.rule.name, use.constraints) for use in puzzle.uses)
    for part in _parts((puzzle.board, uses, puzzle.givens)):
        whole.update(part.encode() + b"\0")
    return whole.digest()


@cache
def code_digest() -> bytes:
    """32 bytes that change with any line of `verify`: another grade may come of it.

    No number that somebody must remember to raise could be trusted as much.
    """
    root, whole = Path(__file__).parents[2], sha256()
    for path in sorted(root.rglob("*.py")):
        code = path.read_bytes()
        whole.update(f"{path.relative_to(root).as_posix()} {len(code)} ".encode() + code)
    return whole.digest()


def _parts(value: object) -> Iterator[str]:
    """A value of boards and marks in words, such that two that differ have other words.

    Raises TypeError for what has no stable words; a mark that holds such needs a line here.
    """
    if value is None or isinstance(value, bool | int | str):
        yield repr(value)
    elif isinstance(value, Enum):
        yield str(value)
    elif is_dataclass(value):
        yield f"{type(value).__name__}("
        for field in fields(value):
            yield from _parts(getattr(value, field.name))
        yield ")"
    elif isinstance(value, tuple):
        yield "("
        for each in value:
            yield from _parts(each)
        yield ")"
    elif isinstance(value, frozenset):
        yield "{"
        yield from sorted(" ".join(_parts(each)) for each in value)
        yield "}"
    else:
        raise TypeError(f"{type(value).__name__} has no stable words")
