"""Long diagonals that hold no digit twice."""

from collections.abc import Callable, Sequence
from functools import partial

from verify.board import Board
from verify.marks import Mark, Ray
from verify.move import EVERY_DISGUISE, Disguise
from verify.rule import Rule, Saying
from verify.rules.workings.distinct import Distinct
from verify.rules.workings.slants import chosen_slants, slants


def falling(board: Board) -> tuple[Distinct, ...]:
    """The diagonal of each grid from the upper left to the lower right."""
    return _diagonals(board, "falling diagonal", lambda index, last: index)


def rising(board: Board) -> tuple[Distinct, ...]:
    """The diagonal of each grid from the lower left to the upper right."""
    return _diagonals(board, "rising diagonal", lambda index, last: last - index)


def _diagonals(board: Board, kind: str, row: Callable[[int, int], int]) -> tuple[Distinct, ...]:
    return tuple(
        Distinct(
            kind,
            tuple(
                board.cell(top + row(index, rows - 1), left + index)
                for index in range(rows)
                if board.holds(top + row(index, rows - 1), left + index)
            ),
        )
        for top, left, rows, _ in board.frames
    )


def draw(board: Board, diagonals: Sequence[Distinct]) -> tuple[Mark, ...]:
    """A ray from corner to corner for each."""
    return tuple(Ray("diagonal", diagonal.cells) for diagonal in diagonals)


def says(diagonals: Sequence[Distinct]) -> tuple[Saying, ...]:
    """Both together, or the one by its direction."""
    kinds = {diagonal.kind for diagonal in diagonals}
    which = "both" if len(kinds) == 2 else diagonals[0].kind.split()[0]
    return (Saying(f"diagonals-{which}"),)


RULE = Rule(
    name="diagonals",
    meaning="No digit stands twice on a marked long diagonal.",
    marks="`both`, `falling` or `rising`",
    grammar=slants("which diagonals"),
    make=partial(chosen_slants, falling, rising),
    draw=draw,
    says=says,
    survives=EVERY_DISGUISE - {Disguise.SHUFFLE},
    example="""\
title: Crossed oars
kind: sudoku
size: 6
rules:
  diagonals: both
givens: |
  . . . | . . .
  6 . . | 1 2 .
  -------------
  . . . | . . .
  . . . | . . .
  -------------
  . 4 6 | . . 3
  . . . | . . .
""",
)
