"""The digits that are printed, each by the cell that it stands in."""

from collections.abc import Iterator, Mapping
from typing import Final
from unicodedata import normalize

from layout.preflight.against.cells import written_in
from layout.preflight.against.placing import Placed, Printed
from layout.preflight.checks.finding import Finding
from layout.preflight.reading.grids import Grid
from verify.pencil import Grid as Digits
from verify.puzzle import Puzzle

MOST_NAMED: Final = 6
"""Cells of one grid that are told one by one."""

LARGE: Final = 0.4
"""Cells that a digit of a diagram is high at the least; what is lower is a pencil mark."""


def check_givens(printed: Printed) -> Iterator[Finding]:
    """Givens that are missing, are others or stand elsewhere, and digits that are not given."""
    for placed in printed.placed:
        puzzle = placed.expected.puzzle
        if placed.grid is not None:
            yield from _compared("givens", puzzle, puzzle.givens, placed.grid)


def check_answers(printed: Printed) -> Iterator[Finding]:
    """Cells of an answer grid whose digit is not that of the proof."""
    for placed in printed.placed:
        if placed.answer is not None:
            puzzle, answer = placed.expected.puzzle, placed.expected.answer
            yield from _compared("answers", puzzle, answer, placed.answer)


def _compared(check: str, puzzle: Puzzle, digits: Digits, grid: Grid) -> Iterator[Finding]:
    """What differs between a grid of digits and one on a page."""
    board, written = puzzle.board, written_in(grid)
    of = f"“{puzzle.title}”" if check == "givens" else f"the answer of “{puzzle.title}”"
    wrong = []
    for cell in board.places:
        wanted = normalize("NFKC", puzzle.symbol(digits[cell]))
        found = written.symbol(board.place(cell), wanted)
        if found != wanted:
            wrong.append((board.name(cell), found or "nothing", wanted or "nothing"))
    for name, found, wanted in wrong[:MOST_NAMED]:
        words = f"{of}: found {found} in {name}, expected {wanted}"
        yield Finding(check, grid.leaf.number, words)
    if len(wrong) > MOST_NAMED:
        words = f"{of}: {len(wrong) - MOST_NAMED} more cells differ"
        yield Finding(check, grid.leaf.number, words)
    for token in written.astray():
        row, column = token.cell
        words = f"{of}: {token.text!r} stands askew in r{row + 1}c{column + 1}"
        yield Finding(check, grid.leaf.number, words)


def check_diagrams(printed: Printed) -> Iterator[Finding]:
    """Large digits in the diagrams of a walk that are not those of its puzzle's answer."""
    for grid in printed.between:
        written = written_in(grid, LARGE).digits
        fitting = [placed for placed in printed.placed if _is_of(placed, grid)]
        if fitting and not any(_agrees(placed, written) for placed in fitting):
            words = "a diagram holds digits that no answer of its size has there"
            yield Finding("diagrams", grid.leaf.number, words)


def _is_of(placed: Placed, grid: Grid) -> bool:
    board = placed.expected.puzzle.board
    return (grid.rows, grid.columns) == (board.rows, board.columns)


def _agrees(placed: Placed, written: Mapping[tuple[int, int], str]) -> bool:
    puzzle, answer = placed.expected.puzzle, placed.expected.answer
    return all(
        normalize("NFKC", puzzle.symbol(answer[puzzle.board.cell(*place)])) == text
        for place, text in written.items()
    )
