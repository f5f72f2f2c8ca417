"""Which grid of a file belongs to which puzzle: by their order and the titles beside them."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from layout.preflight.against.cells import tokens_in
from layout.preflight.checks.contents import heading_of
from layout.preflight.checks.finding import Finding
from layout.preflight.reading.finished import FinishedFile, Leaf
from layout.preflight.reading.geometry import Box
from layout.preflight.reading.grids import Grid, find_grids, reading_order
from layout.preflight.reading.phrases import has_all_words, in_words, plain
from verify.pencil import Grid as Digits
from verify.puzzle import Puzzle

FULL: Final = 0.8
"""The share of its cells that hold something in an answer, though some be misprinted."""


@dataclass(frozen=True, slots=True)
class Expected:
    """A puzzle that a file should hold, and its answer by a proof of our own."""

    puzzle: Puzzle
    answer: Digits


@dataclass(frozen=True, slots=True)
class Placed:
    """A puzzle with the grid that it is printed in, and that of its answer; None if not found."""

    expected: Expected
    grid: Grid | None
    answer: Grid | None


@dataclass(frozen=True, slots=True)
class Printed:
    """All grids of a file: those of puzzles and answers, and those in between, of diagrams."""

    placed: tuple[Placed, ...]
    between: tuple[Grid, ...]


def place_all(file: FinishedFile, expected: Sequence[Expected], section: str) -> Printed:
    """Finds the grid of each puzzle, in the order of the book, and from the end of each answer.

    Puzzles begin behind the page that `section` heads: what stands before are examples.
    """
    words = {leaf.number: in_words(leaf.phrases) for leaf in file.leaves}
    by_page = {leaf.number: find_grids(leaf) for leaf in file.leaves}
    begin = _opener(file, section, by_page)
    grids = [grid for number in by_page if number >= begin for grid in by_page[number]]
    answers = _matched(expected[::-1], grids[::-1], words, FULL)[::-1]
    first = min((grids.index(grid) for grid in answers if grid), default=len(grids))
    puzzles = _matched(expected, grids[:first], words, 0.0)
    last = max((grids.index(grid) for grid in puzzles if grid), default=-1)
    placed = tuple(map(Placed, expected, puzzles, answers))
    return Printed(placed, tuple(grids[last + 1 : first]))


def check_grids(printed: Printed) -> Iterator[Finding]:
    """Puzzles and answers without a grid of their size in the order of the book."""
    for placed in printed.placed:
        puzzle = placed.expected.puzzle
        if placed.grid is None:
            yield Finding("grids", 0, f"“{puzzle.title}” has no grid of its size")
        if placed.answer is None:
            yield Finding("grids", 0, f"the answer of “{puzzle.title}” has no grid of its size")


def check_titles(printed: Printed) -> Iterator[Finding]:
    """Titles that stand on their page in another order than the grids."""
    for which in ("grid", "answer"):
        pages: dict[int, list[tuple[Puzzle, Box]]] = {}
        for placed in printed.placed:
            grid: Grid | None = getattr(placed, which)
            box = None if grid is None else _title_box(grid.leaf, placed.expected.puzzle)
            if grid is not None and box is not None:
                pages.setdefault(grid.leaf.number, []).append((placed.expected.puzzle, box))
        for number, here in pages.items():
            ordered = sorted(here, key=lambda each: reading_order(each[1]))
            for (puzzle, _), (there, _) in zip(here, ordered, strict=True):
                if puzzle is not there:
                    words = f"“{puzzle.title}” stands by the grid of another puzzle"
                    yield Finding("titles", number, words)


def _title_box(leaf: Leaf, puzzle: Puzzle) -> Box | None:
    """Where the title stands; None where it is in no one line, or in several."""
    title = plain(puzzle.credits.title)
    boxes = [each.box for each in leaf.phrases if title and title in plain(each.text)]
    return boxes[0] if len(boxes) == 1 else None


def _opener(file: FinishedFile, section: str, grids: Mapping[int, Sequence[Grid]]) -> int:
    """The page that a section heads, which has no grid: a lesson or a puzzle may be called so."""
    pages = (
        leaf.number
        for leaf in file.leaves
        if not grids[leaf.number] and plain(heading_of(leaf)) == plain(section)
    )
    return next(pages, 1)


def _matched(
    expected: Sequence[Expected], grids: Sequence[Grid], words: dict[int, str], least: float
) -> list[Grid | None]:
    """For each puzzle the next grid that has its size, on a page that has its title.

    The share of cells that hold something is to be `least` or more.
    """
    found: list[Grid | None] = []
    at = 0
    for each in expected:
        puzzle, later = each.puzzle, range(at, len(grids))
        fitting = (
            index
            for index in later
            if _fits(puzzle, grids[index], words) and _share(puzzle, grids[index]) >= least
        )
        index = next(fitting, None)
        found.append(None if index is None else grids[index])
        at = at if index is None else index + 1
    return found


def _fits(puzzle: Puzzle, grid: Grid, words: dict[int, str]) -> bool:
    board, there = puzzle.board, words[grid.leaf.number]
    if (grid.rows, grid.columns) != (board.rows, board.columns):
        return False
    return has_all_words(there, puzzle.credits.title)


def _share(puzzle: Puzzle, grid: Grid) -> float:
    """How much of a puzzle's cells holds something."""
    return len({token.cell for token in tokens_in(grid)}) / len(puzzle.board.cells)
