"""Banks: files with one classic puzzle a line.

A line has one word of 256, 81, 36 or 16 cells, row by row: a digit for a given, `.` or `0` for an
open cell; digits above 9 are the letters A to G. Other words in the line, such as the name of a
list or a number, are kept as they are. What formats there are, and where a line names its puzzle:
`bank_line.py`.
"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any, Final

from verify.board import DEFAULT_BOXES, Board
from verify.manifest.bank_line import LONGEST_LINE, BankLine, Kept, Lines, bank_lines, text_lines
from verify.manifest.fields import DEFAULT_SYMBOLS, KINDS
from verify.manifest.source import shown_path
from verify.manifest.uses import implied_uses
from verify.puzzle import Credits, Puzzle
from verify.reading.node import Place, shown
from verify.reading.problems import MOST_PROBLEMS, Problem
from verify.rule import Use

SIZES: Final[dict[int, int]] = {256: 16, 81: 9, 36: 6, 16: 4}
"""The size of the board, by the number of cells in a line."""

_WORD: Final = re.compile(r"\S+")
_CELLS: Final = re.compile(r"(?<!\S)(?:[0-9A-Ga-g.]{256}|[0-9.]{81}|[0-9.]{36}|[0-9.]{16})(?!\S)")
_STRANGE: Final = re.compile(r"[^0-9.]")
_STRANGE_LETTER: Final = re.compile(r"[^0-9A-Ga-g.]")
_DIGITS: Final = bytes.maketrans(
    b".0123456789ABCDEFGabcdefg", bytes([0, *range(17), *range(10, 17)])
)
_NO_CREDITS: Final = Credits()


def read_bank(path: Path, name: str | None = None) -> Iterator[Puzzle | Problem]:
    """Each line's puzzle, or what is wrong with that line, one after the other.

    Raises Unreadable where the file can't be read at all. A puzzle's id is the file's stem and
    the number of its line, unless the line says another.
    """
    name = shown_path(path) if name is None else name
    return _puzzles(bank_lines(path, name))


def bank_from_lines(lines: Iterable[str], name: str = "bank.txt") -> Iterator[Puzzle | Problem]:
    """As `read_bank`, from lines of text."""
    return _puzzles(text_lines(lines, name))


def _puzzles(lines: Lines) -> Iterator[Puzzle | Problem]:
    problems = 0
    for line in lines:
        found = line if isinstance(line, Problem) else puzzle_of(line)
        yield found
        if isinstance(found, Problem):
            problems += 1
            if problems == MOST_PROBLEMS:
                place = Place(found.place.file, found.place.line + 1, 1)
                yield Problem(place, "too many problems; the rest was not read")
                return


def puzzle_of(line: BankLine) -> Puzzle | Problem:
    """The puzzle of one line, or what is wrong with it."""
    cells = cells_of(line)
    if isinstance(cells, Problem):
        return cells
    return puzzle_of_cells(line.id, line.place, cells.givens, credits_of(line))


def bank_text(puzzle: Puzzle) -> str:
    """The line of a bank that says a classic puzzle's givens."""
    return "".join("." if not digit else DEFAULT_SYMBOLS[digit - 1] for digit in puzzle.givens)


@dataclass(frozen=True, slots=True)
class LineCells:
    """What a line says: a digit for every cell, 0 where it is open, and what stands beside."""

    givens: bytes
    kept: Kept


def cells_of(line: BankLine) -> LineCells | Problem:
    """The cells of one line, or what is wrong with it."""
    text, place = line.text, line.place
    if len(text) > LONGEST_LINE:
        return Problem(place, f"found more than {LONGEST_LINE} characters, expected a short line")
    grids = _grids(text)
    if len(grids) != 1:
        return _no_grid(text, place, grids)
    givens = grids[0][0].encode().translate(_DIGITS)
    size = SIZES[len(givens)]
    if max(givens) > size:
        return _large_digit(grids[0], size, place)
    return LineCells(givens, line.kept or _beside(text, grids[0]))


def credits_of(line: BankLine) -> Credits:
    """The title and the constructor that a line tells."""
    if not line.title and not line.constructor:
        return _NO_CREDITS
    return Credits(title=line.title, constructor=line.constructor)


def puzzle_of_cells(
    its_id: str, place: Place, givens: bytes, its_credits: Credits = _NO_CREDITS
) -> Puzzle:
    """The classic puzzle with such givens; their number says how large it is."""
    size = SIZES[len(givens)]
    return Puzzle(
        id=its_id,
        file=place.file,
        credits=its_credits,
        board=_board(size),
        symbols=_symbols(size),
        uses=_classic_uses(size),
        givens=tuple(givens),
        line=place.line,
    )


def cells_in_line(puzzle: Puzzle) -> str:
    """The cells of a classic puzzle as a line of a bank has them, `.` where nothing stands."""
    return "".join(map("".join, puzzle.rows_of(puzzle.givens)))


def kept_of(line: BankLine) -> Kept:
    """What a line says beside its cells, as it stands there."""
    if line.kept or len(line.text) > LONGEST_LINE:
        return line.kept
    grids = _grids(line.text)
    return _beside(line.text, grids[0]) if len(grids) == 1 else ""


def _beside(text: str, grid: re.Match[str]) -> str:
    return (text[: grid.start()] + text[grid.end() :]).strip()


def _grids(line: str) -> list[re.Match[str]]:
    """The words that can be a grid, of the largest size that there is."""
    words = list(_CELLS.finditer(line))
    cells = max((len(word[0]) for word in words), default=0)
    return [word for word in words if len(word[0]) == cells]


def _no_grid(line: str, place: Place, grids: list[re.Match[str]]) -> Problem:
    """What is wrong with a line that has no grid, or several."""
    if grids:
        where = place.right(grids[1].start())
        return Problem(where, "found a second grid in one line, expected one a line")
    longest = max(_WORD.finditer(line), key=lambda word: len(word[0]), default=None)
    if longest is None:
        return Problem(place, f"found no cells, expected {_counts()}")
    where, text = place.right(longest.start()), longest[0]
    strange = (_STRANGE_LETTER if SIZES.get(len(text)) == 16 else _STRANGE).search(text)
    if strange and len(text) in SIZES:
        digit = "a digit, A to G" if SIZES[len(text)] == 16 else "a digit"
        found = f'found "{shown(strange[0])}"'
        return Problem(where.right(strange.start()), f"{found}, expected {digit}, . or 0")
    return Problem(where, f"found {len(text)} cells, expected {_counts()}")


def _large_digit(grid: re.Match[str], size: int, place: Place) -> Problem:
    """The first digit that a small board does not have."""
    column = next(at for at, digit in enumerate(grid[0]) if digit != "." and int(digit) > size)
    where = place.right(grid.start() + column)
    return Problem(where, f'found "{grid[0][column]}", expected 1 to {size}, . or 0')


def _counts() -> str:
    """`256, 81, 36 or 16`."""
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
