"""Wrapped diagonals, as if the board's opposite edges were joined, that hold no digit twice."""

from collections.abc import Sequence
from functools import partial

from verify.board import Board
from verify.move import EVERY_DISGUISE, Disguise
from verify.rule import Rule, Saying
from verify.rules.workings.distinct import Distinct
from verify.rules.workings.parts import nothing_drawn
from verify.rules.workings.slants import chosen_slants, slants


def falling(board: Board) -> tuple[Distinct, ...]:
    """The diagonals that step down and right, one from each cell of the first row."""
    return tuple(_wrapped(board, "falling", start, 1) for start in range(board.columns))


def rising(board: Board) -> tuple[Distinct, ...]:
    """The diagonals that step down and left, one from each cell of the first row."""
    return tuple(_wrapped(board, "rising", start, -1) for start in range(board.columns))


def _wrapped(board: Board, which: str, start: int, right: int) -> Distinct:
    cells = (board.cell(row, (start + right * row) % board.columns) for row in range(board.rows))
    return Distinct(f"{which} wrapped diagonal", tuple(cells))


def says(diagonals: Sequence[Distinct]) -> tuple[Saying, ...]:
    """Both directions together, or the one."""
    directions = {diagonal.kind.split()[0] for diagonal in diagonals}
    which = "both" if len(directions) == 2 else "".join(directions)
    return (Saying(f"toroidal-{which}"),)


RULE = Rule(
    name="toroidal",
    meaning=(
        "No digit stands twice on a diagonal that goes on from the opposite edge "
        "wherever it runs off one."
    ),
    marks="`both`, `falling` or `rising`",
    grammar=slants("which wrapped diagonals"),
    make=partial(chosen_slants, falling, rising),
    draw=nothing_drawn,
    says=says,
    survives=EVERY_DISGUISE - {Disguise.SHUFFLE},
    example="""\
title: Round tide
kind: latin
size: 7
rules:
  toroidal: both
givens: |
  2 . . 7 . 5 .
  . . . . . . .
  . . . . . . .
  . . . . 4 . .
  . . . . . . .
  1 . . . . . .
  6 . . . . . .
""",
)
