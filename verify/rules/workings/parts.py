"""Parts that many rules are put together from: what is made, drawn and said in the plainest way.

A rule binds the first argument: `says=partial(one_sentence, "renban")`.
"""

from collections.abc import Callable, Sequence
from typing import Literal, TypeVar

from verify.board import Board
from verify.marks import Mark, Tint
from verify.reading.grammar import Placed
from verify.reading.reader import Reader
from verify.rule import Constraint, Saying

C = TypeVar("C", bound=Constraint)


def over_board(
    of_board: Callable[[Board], tuple[C, ...]], flag: Placed[bool], reader: Reader
) -> tuple[C, ...]:
    """All constraints of a rule that speaks of the whole board."""
    return of_board(reader.board)


def nothing_drawn(board: Board, constraints: Sequence[object]) -> tuple[Mark, ...]:
    """No mark, for a rule that holds everywhere.

    What it says is kept by the solver for many puzzles, so its clauses may have no fresh variables.
    """
    return ()


def tinted(
    role: str,
    shape: Literal["disc", "square", "inward", "outward"],
    board: Board,
    constraints: Sequence[Constraint],
) -> tuple[Mark, ...]:
    """A shape behind the digit in the first cell of each mark."""
    return tuple(Tint(role, constraint.cells[0], shape) for constraint in constraints)


def one_sentence(key: str, constraints: Sequence[object]) -> tuple[Saying, ...]:
    """The sentence of a key, about as many marks as there are."""
    return (Saying(key, len(constraints)),)


def everywhere_said(key: str, constraints: Sequence[object]) -> tuple[Saying, ...]:
    """The sentence of a key, for a rule that holds everywhere and has no marks to count."""
    return (Saying(key),)
