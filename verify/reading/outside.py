"""Words that name a place outside the board: `top c3`, `left r5 se`."""

import re
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Final

from verify.board import COMPASS, SIDES, Board, Cell, Outside
from verify.reading.node import Place, Text, shown
from verify.reading.problems import Problems

A_PLACE: Final = "a place such as top c3 or left r5"
A_DIAGONAL_PLACE: Final = "a place and a direction such as top c3 se"

_WORD: Final = re.compile(r"\S+")
_LINE: Final = re.compile(r"([rRcC])([0-9]{1,9})")


@dataclass(frozen=True, slots=True)
class Line:
    """A place outside, and the cells that are seen from there, the nearest first."""

    outside: Outside
    cells: tuple[Cell, ...]


def line_named(text: Text, board: Board, problems: Problems, *, diagonal: bool) -> Line | None:
    """The line that a place's name leads to; None with a problem where there is none.

    A `diagonal` place tells its direction; any other looks straight onto the board.
    """
    words = [
        (place.right(match.start()), match[0])
        for place, line in text.lines
        for match in _WORD.finditer(line)
    ]
    wanted = A_DIAGONAL_PLACE if diagonal else A_PLACE
    if len(words) not in (2, 3):
        problems.expected(text.place, f'"{shown(text.text)}"', wanted)
        return None
    at = _beside(words, board, problems)
    if at is None:
        return None
    side, row, column = at
    direction = _direction(words, side, problems, diagonal)
    if direction is None:
        return None
    outside = Outside(row, column, direction)
    cells = board.sight(outside)
    if not cells:
        problems.expected(text.place, f'"{shown(text.text)}"', "a place that looks onto a cell")
        return None
    return Line(outside, cells)


def _beside(
    words: list[tuple[Place, str]], board: Board, problems: Problems
) -> tuple[str, int, int] | None:
    """The side, row and column, from 0, that the first two words name."""
    (place, side), (line_place, line) = words[0], words[1]
    side = side.lower()
    if side not in SIDES:
        problems.unknown(place, "side", side, SIDES)
        return None
    upright = side in ("top", "bottom")
    letter, last = ("c", board.columns) if upright else ("r", board.rows)
    match = _LINE.fullmatch(line)
    if match is None or match[1].lower() != letter or not 1 <= int(match[2]) <= last:
        wanted = f"a {'column' if upright else 'row'} from {letter}1 to {letter}{last}"
        problems.expected(line_place, f'"{shown(line)}"', f"{wanted} after {side}")
        return None
    index = int(match[2]) - 1
    places = {
        "top": (-1, index),
        "bottom": (board.rows, index),
        "left": (index, -1),
        "right": (index, board.columns),
    }
    return side, *places[side]


def _direction(
    words: list[tuple[Place, str]], side: str, problems: Problems, diagonal: bool
) -> str | None:
    """The compass step onto the board."""
    ahead = COMPASS[SIDES[side]]
    known = [
        name
        for name, step in COMPASS.items()
        if all(step) and any(a and a == b for a, b in zip(ahead, step, strict=True))
    ]
    if not diagonal:
        if len(words) == 2:
            return SIDES[side]
        problems.expected(words[2][0], f'"{shown(words[2][1])}"', "no direction after the line")
        return None
    place, word = words[2] if len(words) == 3 else (words[1][0], "")
    if word.lower() in known:
        return word.lower()
    near = get_close_matches(word.lower()[:12], known, n=1)
    hint = f'; did you mean "{near[0]}"?' if near else ""
    found = f'"{shown(word)}"' if word else "no direction"
    problems.expected(place, found, f"{' or '.join(known)} from the {side}{hint}")
    return None


def name_outside(board: Board, outside: Outside) -> str:
    """The name of a place outside, as `line_named` reads it: `top c3`, `top c3 se`."""
    row, column = outside.row, outside.column
    if row in (-1, board.rows):
        side, line = "top" if row < 0 else "bottom", f"c{column + 1}"
    else:
        side, line = "left" if column < 0 else "right", f"r{row + 1}"
    straight = outside.direction == SIDES[side]
    return f"{side} {line}" if straight else f"{side} {line} {outside.direction}"
