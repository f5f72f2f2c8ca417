"""Who is compared: our verdict, and the same question asked of other programs."""

from collections.abc import Callable, Sequence
from importlib.util import find_spec
from typing import Final, TypeAlias

from verify.board import DEFAULT_BOXES
from verify.budget import Budget
from verify.manifest.bank_line import BankLine
from verify.puzzle import Puzzle
from verify.reading.node import Place

LINED: Final = (4, 6, 9, 16)
"""Sizes of puzzles that banks hold in lines."""

Prover: TypeAlias = Callable[[Puzzle, float], str]
"""The word on a puzzle within so many seconds: one, many, none or undecided."""


def ours(puzzle: Puzzle, seconds: float) -> str:
    """Our own verdict."""
    from verify.proof.verdict import prove

    return prove(puzzle, Budget(seconds=seconds)).word


def ours_at_once(puzzles: Sequence[Puzzle]) -> list[str]:
    """Our words on those that are settled together, as lines of a bank are; "" for the others."""
    from verify.settled_lines import settled_lines

    settled = settled_lines([_line(puzzle) for puzzle in puzzles])
    return ["one" if number in settled else "" for number in range(len(puzzles))]


def _line(puzzle: Puzzle) -> BankLine | None:
    """A classic puzzle as a line of a bank; None for any other one."""
    board, rules = puzzle.board, {use.rule.name for use in puzzle.uses}
    is_plain = board.boxes and board.boxes == DEFAULT_BOXES.get(board.digits)
    if rules != {"rows", "columns", "boxes"} or not is_plain or board.digits not in LINED:
        return None
    symbols = (".", *puzzle.symbols)
    return BankLine(Place("", 1, 1), "", "".join(symbols[given] for given in puzzle.givens))


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

AT_ONCE: Final[dict[str, Callable[[Sequence[Puzzle]], list[str]]]] = {"ours": ours_at_once}
"""What settles many puzzles together, before the others are proved one after another."""

NEEDS: Final = {"CP-SAT": "ortools", "z3": "z3"}
"""The package that a prover asks for, beyond our own."""


def present() -> list[str]:
    """The names of those whose package is here."""
    return [name for name in PROVERS if name not in NEEDS or find_spec(NEEDS[name])]
