"""Who is compared: our verdict, and the same question asked of other programs."""

from collections.abc import Callable
from importlib.util import find_spec
from typing import Final, TypeAlias

from verify.budget import Budget
from verify.puzzle import Puzzle

Prover: TypeAlias = Callable[[Puzzle, float], str]
"""The word on a puzzle within so many seconds: one, many, none or undecided."""


def ours(puzzle: Puzzle, seconds: float) -> str:
    """Our own verdict."""
    from verify.proof.verdict import prove

    return prove(puzzle, Budget(seconds=seconds)).word


def cp_sat(puzzle: Puzzle, seconds: float) -> str:
    """OR-tools CP-SAT with one worker."""
    from tests.support.models import puzzle_answers

    return _word(lambda: puzzle_answers(puzzle, seconds=seconds))


def z3(puzzle: Puzzle, seconds: float) -> str:
    """z3 on whole numbers."""
    from tests.support.with_z3 import z3_answers

    return _word(lambda: z3_answers(puzzle, seconds))


def textbook(puzzle: Puzzle, seconds: float) -> str:
    """python-sat with the encoding of a textbook, built anew each time."""
    from tests.support.textbook import textbook_answers

    return _word(lambda: textbook_answers(puzzle, seconds))


def _word(ask: Callable[[], list[tuple[int, ...]]]) -> str:
    try:
        return ("none", "one", "many")[len(ask())]
    except TimeoutError:
        return "undecided"


PROVERS: Final[dict[str, Prover]] = {
    "ours": ours,
    "CP-SAT": cp_sat,
    "z3": z3,
    "textbook": textbook,
}

NEEDS: Final = {"CP-SAT": "ortools", "z3": "z3"}
"""The package that a prover asks for, beyond our own."""


def present() -> list[str]:
    """The names of those whose package is here."""
    return [name for name in PROVERS if name not in NEEDS or find_spec(NEEDS[name])]
