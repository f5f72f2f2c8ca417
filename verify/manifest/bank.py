"""Banks: text files with one classic puzzle a line.

A line has one word of 81, 36 or 16 cells, row by row: a digit for a given, `.` or `0` for an
open cell. Other words in the line, such as the name of a list or a number, are passed over;
so are blank lines and lines that begin with `#`.
"""

import re
from collections.abc import Iterable, Iterator
from functools import cache
from pathlib import Path
from typing import Any, Final

from verify.board import DEFAULT_BOXES, Board
from verify.manifest.fields import DEFAULT_SYMBOLS, KINDS
from verify.manifest.source import shown_path, source_lines
from verify.manifest.uses import implied_uses
from verify.manifest.words import id_from
from verify.puzzle import Credits, Puzzle
from verify.reading.node import Place, shown
from verify.reading.problems import MOST_PROBLEMS, Problem
from verify.rule import Use

LONGEST_LINE: Final = 1000
"""Characters of one line; past that the file is no bank."""

SIZES: Final[dict[int, int]] = {81: 9, 36: 6, 16: 4}
"""The size of the board, by the number of cells in a line."""

_WORD: Final = re.compile(r"\S+")
_CELLS: Final = re.compile(r"(?<!\S)[0-9.]{16,81}(?!\S)")
_STRANGE: Final = re.compile(r"[^0-9.]")
_DIGITS: Final = bytes.maketrans(b".0123456789", bytes([0, *range(10)]))
_NO_CREDITS: Final = Credits()


def read_bank(path: Path, name: str | None = None) -> Iterator[Puzzle | Problem]:
    """Each line's puzzle, or what is wrong with that line, one after the other.

    Raises Unreadable where the file can't be read at all. A puzzle's id is the file's stem and
    the number of its line.
    """
    name = shown_path(path) if name is None else name
    return bank_from_lines(source_lines(path, name, LONGEST_LINE), name)


def bank_from_lines(lines: Iterable[str], name: str = "bank.txt") -> Iterator[Puzzle | Problem]:
    """As `read_bank`, from lines of text."""
    stem, problems = id_from(name), 0
    for number, line in enumerate(lines, start=1):
        if not line.strip() or line.lstrip().startswith("#"):
            continue
        found = _puzzle(line, Place(name, number, 1), f"{stem}-{number}")
        yield found
        problems += isinstance(found, Problem)
        if problems == MOST_PROBLEMS:
            yield Problem(Place(name, number + 1, 1), "too many problems; the rest was not read")
            return


def _puzzle(line: str, place: Place, its_id: str) -> Puzzle | Problem:
    """The puzzle of one line."""
    if len(line) > LONGEST_LINE:
        return Problem(place, f"found more than {LONGEST_LINE} characters, expected a short line")
    grids = _grids(line)
    if len(grids) != 1:
        return _no_grid(line, place, grids)
    givens = tuple(grids[0][0].encode().translate(_DIGITS))
    size = SIZES[len(givens)]
    if max(givens) > size:
        return _large_digit(grids[0], size, place)
    return Puzzle(
        id=its_id,
        file=place.file,
        credits=_NO_CREDITS,
        board=_board(size),
        symbols=_symbols(size),
        uses=_classic_uses(size),
        givens=givens,
        line=place.line,
    )


def _grids(line: str) -> list[re.Match[str]]:
    """The words that can be a grid, of the largest size that there is."""
    words = [word for word in _CELLS.finditer(line) if len(word[0]) in SIZES]
    cells = max((len(word[0]) for word in words), default=0)
    return [word for word in words if len(word[0]) == cells]


def _no_grid(line: str, place: Place, grids: list[re.Match[str]]) -> Problem:
    """What is wrong with a line that has no grid, or several."""
    if grids:
        where = place.right(grids[1].start())
        return Problem(where, "found a second grid in one line, expected one a line")
    longest = max(_WORD.finditer(line), key=lambda word: len(word[0]))
    where, text = place.right(longest.start()), longest[0]
    strange = _STRANGE.search(text)
    if strange and len(text) in SIZES:
        found = f'found "{shown(strange[0])}"'
        return Problem(where.right(strange.start()), f"{found}, expected a digit, . or 0")
    return Problem(where, f"found {len(text)} cells, expected {_counts()}")


def _large_digit(grid: re.Match[str], size: int, place: Place) -> Problem:
    """The first digit that a small board does not have."""
    column = next(at for at, digit in enumerate(grid[0]) if digit != "." and int(digit) > size)
    where = place.right(grid.start() + column)
    return Problem(where, f'found "{grid[0][column]}", expected 1 to {size}, . or 0')


def _counts() -> str:
    """`81, 36 or 16`."""
    *first, last = map(str, SIZES)
    return f"{', '.join(first)} or {last}"


@cache
def _board(size: int) -> Board:
    """A classic board; one object for all puzzles of its size."""
    return Board(size, size, size, DEFAULT_BOXES[size])


@cache
def _symbols(size: int) -> tuple[str, ...]:
    """What is printed for the digits of a size."""
    return tuple(DEFAULT_SYMBOLS[:size])


@cache
def _classic_uses(size: int) -> tuple[Use[Any], ...]:
    """The rules of a classic puzzle; one object for all puzzles of its size."""
    return implied_uses(KINDS["sudoku"], _board(size))
