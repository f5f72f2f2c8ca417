"""What is written small in a grid: sums in the corners of cells, and labels of badges."""

from collections.abc import Iterator
from math import dist
from typing import Final
from unicodedata import normalize

from layout.preflight.against.cells import written_in
from layout.preflight.against.places import mean_of
from layout.preflight.against.placing import Printed
from layout.preflight.checks.finding import Finding
from layout.preflight.reading.grids import Grid
from verify.marks import Area, Badge, Cage, Clue
from verify.puzzle import Puzzle

BESIDE: Final = 0.2
AMONG: Final = 0.36
"""Cells by which a label may be off the middle of its badge: alone, and one of several."""


def check_labels(printed: Printed) -> Iterator[Finding]:
    """Labels of marks that are missing, are others, or stand elsewhere."""
    for placed in printed.placed:
        puzzle = placed.expected.puzzle
        for grid in (placed.grid, placed.answer):
            if grid is None:
                continue
            for there, wanted, where in _wrong(puzzle, grid):
                # Answers leave out what their digits have no room for.
                if grid is placed.answer and not there:
                    continue
                words = (
                    f"“{puzzle.title}”: found {there or 'nothing'} at {where}, expected {wanted}"
                )
                yield Finding("marks", grid.leaf.number, words)


def _wrong(puzzle: Puzzle, grid: Grid) -> Iterator[tuple[str, str, str]]:
    """What stands where a label should, if that differs; what should, and where."""
    board, marks = puzzle.board, puzzle.marks()
    free = list(written_in(grid).others)
    for mark in marks:
        if isinstance(mark, Badge):
            middle, wanted = mean_of(board, mark.cells), label_of(mark, puzzle)
            reach = AMONG if " " in wanted else BESIDE
            near = [token for token in free if dist(token.middle, middle) <= reach]
            near.sort(key=lambda token: (round(token.letters[0].origin[1]) * -1, token.middle[0]))
            free = [token for token in free if token not in near]
            there = " ".join(token.text for token in near)
            if "".join(wanted.split()) != "".join(there.split()):
                yield there, wanted or "nothing", " ".join(map(board.name, mark.cells))
    for mark in marks:
        if isinstance(mark, Cage | Area) and mark.label:
            first = min(mark.cells)
            labels = [token for token in free if token.cell == board.place(first)]
            right = [each for each in labels if each.text == normalize("NFKC", mark.label)]
            if not right:
                yield " ".join(each.text for each in labels), mark.label, board.name(first)
            free = [token for token in free if token not in (right or labels)]
    for token in free:
        yield token.text, "nothing", f"r{token.cell[0] + 1}c{token.cell[1] + 1}"


def label_of(mark: Badge | Clue, puzzle: Puzzle) -> str:
    """What is printed for a mark: its label, or its digits as the puzzle's symbols."""
    return normalize("NFKC", mark.label or " ".join(map(puzzle.symbol, mark.digits)))
