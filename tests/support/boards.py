"""Puzzles of plain houses, built without a manifest."""

from collections.abc import Sequence
from typing import Any

from verify.board import Board
from verify.puzzle import Credits, Puzzle
from verify.rule import Use
from verify.rules.houses import boxes, columns, rows


def plain(
    size: int, box: tuple[int, int] | None = None, givens: Sequence[int] = (), *more: Use[Any]
) -> Puzzle:
    """A Latin square, or with `box` a board with boxes, and uses of further rules."""
    board = Board(size, size, size, box)
    modules = (rows, columns, boxes) if box else (rows, columns)
    uses = tuple(Use(module.RULE, module.of_board(board)) for module in modules)
    symbols = tuple("123456789ABCDEFGHIJKLMNOP"[:size])
    given = tuple(givens) or (0,) * size * size
    return Puzzle("plain", "plain.yaml", Credits(), board, symbols, (*uses, *more), given)


def classic(line: str) -> Puzzle:
    """A 9x9 puzzle from 81 characters; 0 or a full stop for empty."""
    return plain(9, (3, 3), [int(char) if char.isdecimal() else 0 for char in line])


NEEDS_A_WING = "000300800004000000000975600047003100200008097000000050002000500070040006008507040"
"""A classic grid of our own with 25 givens and several answers; its walk needs a wing."""

NEEDS_A_SEARCH = "040900000700010040601008900002300700000405200410020000930000070000000080000007026"
"""A classic puzzle of our own with one answer, which is not found without a conflict of the solver;
from `tests.support.maker`, seed 742, on an empty 9x9 board."""
