"""Wrapped diagonals, as if the board's opposite edges were joined, that hold no digit twice."""

from collections.abc import Sequence

from verify.board import Board
from verify.marks import Mark
from verify.move import EVERY_DISGUISE, Disguise
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.rule import Rule, Saying
from verify.rules.workings.distinct import Distinct

CHOICES = ("both", "falling", "rising")


def falling(board: Board) -> tuple[Distinct, ...]:
    """The diagonals that step down and right, one from each cell of the first row."""
    return tuple(_wrapped(board, "falling", start, 1) for start in range(board.columns))


def rising(board: Board) -> tuple[Distinct, ...]:
    """The diagonals that step down and left, one from each cell of the first row."""
    return tuple(_wrapped(board, "rising", start, -1) for start in range(board.columns))


def _wrapped(board: Board, which: str, start: int, right: int) -> Distinct:
    cells = (board.cell(row, (start + right * row) % board.columns) for row in range(board.rows))
    return Distinct(f"{which} wrapped diagonal", tuple(cells))


def read(node: Node, reader: Reader) -> tuple[Distinct, ...]:
    """`both`, `falling` or `rising`."""
    choice = reader.choice(node, CHOICES, "which wrapped diagonals")
    makers = {"both": (falling, rising), "falling": (falling,), "rising": (rising,)}
    return tuple(each for make in makers.get(choice or "", ()) for each in make(reader.board))


def draw(board: Board, diagonals: Sequence[Distinct]) -> tuple[Mark, ...]:
    """Nothing: they run everywhere."""
    return ()


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
    schema={"enum": list(CHOICES)},
    read=read,
    draw=draw,
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
