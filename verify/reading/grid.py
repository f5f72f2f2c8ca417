"""Grids of text: one line a row, one token a cell."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import islice
from typing import Final

from verify.board import Board, Cell
from verify.reading.node import Node, Place, Text, describe, shown
from verify.reading.problems import Problems

NO_CELL: Final = "_"
"""What a grid of text shows where the board has no cell."""

_DECORATION: Final = re.compile(r"[\s|+\-]*")
_WORD: Final = re.compile(r"[^\s|]+")
_CHARACTER: Final = re.compile(r"[^\s|]")


@dataclass(frozen=True, slots=True)
class Row:
    """The tokens of one row, and the line that they stand in."""

    line: Place
    text: str
    token: re.Pattern[str]
    tokens: tuple[str, ...]

    def place_of(self, column: int) -> Place:
        """Where the token of a column, from 0, stands."""
        match = next(islice(self.token.finditer(self.text), column, None))
        return self.line.right(match.start())


@dataclass(frozen=True, slots=True)
class GridText:
    """A grid as it was read: a digit for every cell, 0 where it is open."""

    rows: tuple[Row, ...]
    digits: tuple[int, ...]

    def place_of(self, cell: Cell) -> Place:
        """Where the token of a cell stands."""
        row, column = divmod(cell, len(self.rows[0].tokens))
        return self.rows[row].place_of(column)


def read_rows(
    node: Node, board: Board, single: bool, what: str, problems: Problems
) -> tuple[tuple[Row, ...], bool]:
    """The rows that have a token for each column of the board, and whether they are the grid.

    Tokens may run together where each is a `single` character. `|` and lines of dashes are
    decoration. `what` names the grid in a problem: "the givens".
    """
    if not isinstance(node, Text) or not node.text.strip():
        expected = f"{what}: {_count(board.rows, 'row')} of {_count(board.columns, 'cell')}"
        problems.expected(node.place, describe(node), expected)
        return (), False
    rows = tuple(
        _row(place, line, board.columns, single)
        for place, line in node.lines
        if not _DECORATION.fullmatch(line)
    )
    right_count = _right_count(node, rows, board, problems)
    rows = rows[: board.rows]
    for number, row in enumerate(rows, start=1):
        if len(row.tokens) != board.columns:
            found = f"{_count(len(row.tokens), 'cell')} in row {number}"
            problems.expected(row.place_of(0), found, str(board.columns))
    whole = tuple(row for row in rows if len(row.tokens) == board.columns)
    return whole, right_count and len(whole) == board.rows


def read_grid(
    node: Node,
    board: Board,
    values: Mapping[str, int],
    what: str,
    problems: Problems,
) -> GridText | None:
    """The digits of a grid; `values` gives the digit of each token that may stand in it."""
    single = all(len(token) == 1 for token in values)
    rows, sound = read_rows(node, board, single, what, problems)
    digits = []
    for number, row in enumerate(rows):
        for column, token in enumerate(row.tokens):
            digit = values.get(token)
            if board.cell(number, column) in board.absent:
                sound = _is_no_cell(row.place_of(column), token, problems) and sound
                digits.append(0)
            elif digit is None:
                _unknown_token(row.place_of(column), token, values, problems)
                sound = False
            else:
                digits.append(digit)
    return GridText(rows, tuple(digits)) if sound else None


def _is_no_cell(place: Place, token: str, problems: Problems) -> bool:
    """Whether a token says that there is no cell, as it must."""
    if token == NO_CELL:
        return True
    problems.expected(place, f'"{shown(token)}"', f"{NO_CELL}, for here is no cell")
    return False


def _row(line: Place, text: str, columns: int, single: bool) -> Row:
    """Splits a line at blanks, or into characters where that gives no row of words."""
    words = _WORD.findall(text)
    if single and len(words) != columns:
        return Row(line, text, _CHARACTER, tuple(_CHARACTER.findall(text)))
    return Row(line, text, _WORD, tuple(words))


def _right_count(node: Text, rows: Sequence[Row], board: Board, problems: Problems) -> bool:
    """Whether there are as many rows as the board has; notes the first too many or the last."""
    if len(rows) == board.rows:
        return True
    place = node.place
    if rows:
        place = rows[min(len(rows) - 1, board.rows)].place_of(0)
    problems.expected(place, _count(len(rows), "row"), str(board.rows))
    return False


def _unknown_token(place: Place, token: str, values: Mapping[str, int], problems: Problems) -> None:
    """Notes a token that stands for no digit."""
    symbols = [shown(symbol) for symbol, digit in values.items() if digit]
    allowed = "one of " + " ".join(symbols) if len(symbols) > 1 else symbols[0]
    open_cell = ". or " if "." in values else ""
    problems.expected(place, f'"{shown(token)}"', open_cell + allowed)


def _count(number: int, thing: str) -> str:
    """`1 row`, `2 rows`."""
    return f"{number} {thing}" if number == 1 else f"{number} {thing}s"
