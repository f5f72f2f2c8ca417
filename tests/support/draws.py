"""Hypothesis draws small boards, pencil marks, and marks of each rule."""

from dataclasses import dataclass

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn

from tests.support.rules import support
from verify.board import Board
from verify.move import TURNS, Disguise, Move
from verify.rule import Constraint

SHAPES = [(2, 3, 3), (2, 2, 4), (3, 2, 4), (2, 3, 4), (1, 5, 5), (2, 2, 6), (2, 2, 9), (3, 3, 3)]
"""Rows, columns and digits: at most 20,000 grids each, so that all can be looked through."""


@dataclass(frozen=True)
class Case:
    """A small board, its pencil marks, and marks of one rule."""

    board: Board
    pencil: tuple[int, ...]
    constraints: tuple[Constraint, ...]


@st.composite
def cases(draw: DrawFn, rule: str, most_marks: int = 2) -> Case:
    """Marks of one rule on a small board with random pencil marks."""
    board = Board(*draw(st.sampled_from(SHAPES)))
    full = (2 << board.digits) - 2
    mask = st.just(full) | st.integers(1, full // 2).map(lambda bits: bits << 1)
    pencil = tuple(draw(mask) for _ in board.cells)
    marks = draw(st.integers(1, most_marks))
    return Case(board, pencil, tuple(support(rule).mark(draw, board) for _ in range(marks)))


@st.composite
def moves(draw: DrawFn, board: Board, survives: frozenset[Disguise]) -> Move:
    """A disguise of the kinds that a rule survives."""
    rows, columns = tuple(range(board.rows)), tuple(range(board.columns))
    digits = tuple(range(1, board.digits + 1))
    if Disguise.SHUFFLE in survives:
        rows, columns = tuple(draw(st.permutations(rows))), tuple(draw(st.permutations(columns)))
    if Disguise.RELABEL in survives:
        digits = tuple(draw(st.permutations(digits)))
    elif Disguise.REVERSE in survives and draw(st.booleans()):
        digits = digits[::-1]
    turn = draw(st.sampled_from(TURNS)) if Disguise.TURN in survives else 0
    return Move(board, rows, columns, turn, (0, *digits))
