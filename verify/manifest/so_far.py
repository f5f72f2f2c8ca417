"""What a solver has written into a puzzle's grid so far -> digits, or every problem with its place.

The grid is text: rows as in a manifest's `givens`, or all cells one after the other in one line.
`.` and `0` are open cells; `0` is none where it is one of the puzzle's own symbols.
"""

import re
from collections.abc import Iterator, Mapping
from typing import Final

from verify.manifest.source import checked_text
from verify.puzzle import Puzzle
from verify.reading.grid import GridText, read_grid
from verify.reading.node import Place, Text, shown
from verify.reading.problems import Problem, Problems, Unreadable

LONGEST: Final = 1 << 16
"""Characters of a grid; the largest board takes a sixth of it."""

NO_DIGIT: Final = " \t\n|+-_"
"""Blanks, decoration, and what stands where a board has no cell."""

_WORD: Final = re.compile(r"[^\s|]+")
_CHARACTER: Final = re.compile(r"[^\s|]")


def read_so_far(text: str, name: str, puzzle: Puzzle) -> tuple[int, ...]:
    """A digit for every cell, 0 where it is open; the puzzle's givens stand in any case.

    `name` is what problems call the text. Raises Unreadable with every problem in it, and where
    another digit stands in the place of a given.
    """
    problems = Problems()
    if len(text) > LONGEST:
        found = f"more than {LONGEST} characters"
        problems.expected(Place(name, 1, 1), found, _expected(puzzle))
        raise Unreadable(problems.found)
    node = _node(checked_text(text, name), name, puzzle, problems)
    problems.raise_if_any()
    grid = read_grid(node, puzzle.board, _values(puzzle), "the grid so far", problems)
    if grid is None:
        raise Unreadable(problems.found)
    _check_givens(grid, puzzle, problems)
    problems.raise_if_any()
    return tuple(max(pair) for pair in zip(puzzle.givens, grid.digits, strict=True))


def can_be_grid(text: str, puzzle: Puzzle) -> bool:
    """Whether a text is more like a grid of the puzzle than like a name: at least half of it."""
    if "\n" in text:
        return True
    fit = set("".join(puzzle.symbols)) | set(".0" + NO_DIGIT)
    return 2 * sum(character in fit for character in text) >= len(text) > 0


def no_grid(text: str, name: str, puzzle: Puzzle) -> Unreadable:
    """The problem with a text that is neither a grid nor the name of a file."""
    found = f'found "{shown(text)}", which is no file'
    message = f"{found}, expected a file or a grid: {_expected(puzzle)}"
    return Unreadable([Problem(Place(name, 1, 1), message)])


def _values(puzzle: Puzzle) -> Mapping[str, int]:
    """The digit of each token."""
    symbols = {symbol: digit for digit, symbol in enumerate(puzzle.symbols, start=1)}
    return {".": 0, "0": 0} | symbols


def _node(text: str, name: str, puzzle: Puzzle, problems: Problems) -> Text:
    """The text as rows: one line that holds the whole grid is cut into them."""
    lines = tuple(
        (Place(name, number, 1), line) for number, line in enumerate(text.split("\n"), start=1)
    )
    filled = [(place, line) for place, line in lines if line.strip()]
    if len(filled) == 1 and puzzle.board.rows > 1:
        lines = tuple(_cut(*filled[0], puzzle, problems))
    return Text(Place(name, 1, 1), text, lines)


def _cut(
    place: Place, line: str, puzzle: Puzzle, problems: Problems
) -> Iterator[tuple[Place, str]]:
    """The rows of a grid in one line, each with its place."""
    board, count = puzzle.board, len(puzzle.board.places)
    tokens = list(_WORD.finditer(line))
    if len(tokens) != count and all(len(symbol) == 1 for symbol in puzzle.symbols):
        tokens = list(_CHARACTER.finditer(line))
    if len(tokens) != count:
        at = tokens[min(len(tokens) - 1, count)].start() if tokens else 0
        found = f"{len(tokens)} cell{'s' if len(tokens) != 1 else ''}"
        problems.expected(place.right(at), found, _expected(puzzle))
        return
    for first in range(0, count, board.columns):
        row = tokens[first : first + board.columns]
        yield place.right(row[0].start()), line[row[0].start() : row[-1].end()]


def _expected(puzzle: Puzzle) -> str:
    """How large a grid must be."""
    board = puzzle.board
    return f"{len(board.places)} cells in {board.rows} rows"


def _check_givens(grid: GridText, puzzle: Puzzle, problems: Problems) -> None:
    """Notes each given in whose place another digit stands."""
    for cell, (given, digit) in enumerate(zip(puzzle.givens, grid.digits, strict=True)):
        if given and digit not in (0, given):
            found = f'"{shown(puzzle.symbol(digit))}" in {puzzle.board.name(cell)}'
            expected = f'the given "{shown(puzzle.symbol(given))}"'
            problems.expected(grid.place_of(cell), found, expected)
