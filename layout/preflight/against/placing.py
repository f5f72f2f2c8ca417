"""Which grid of a file belongs to which puzzle: by their order and the titles beside them."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from layout.preflight.against.grids import Grid, find_grids
from layout.preflight.checks.contents import heading_of
from layout.preflight.checks.finding import Finding
from layout.preflight.reading.finished import FinishedFile
from layout.preflight.reading.phrases import has_all_words, in_words, plain
from verify.pencil import Grid as Digits
from verify.puzzle import Puzzle


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
    begin = _opener(file, section)
    grids = [grid for leaf in file.leaves if leaf.number >= begin for grid in find_grids(leaf)]
    puzzles = _matched(expected, grids, words)
    answers = _matched(expected[::-1], grids[::-1], words)[::-1]
    placed = tuple(map(Placed, expected, puzzles, answers))
    last = max((grids.index(grid) for grid in puzzles if grid), default=-1)
    first = min((grids.index(grid) for grid in answers if grid), default=len(grids))
    return Printed(placed, tuple(grids[last + 1 : first]))


def check_grids(printed: Printed) -> Iterator[Finding]:
    """Puzzles and answers without a grid, and grids of another size."""
    for placed in printed.placed:
        puzzle = placed.expected.puzzle
        if placed.grid is None:
            yield Finding("grids", 0, f"“{puzzle.title}” has no grid of its size")
        if placed.answer is None:
            yield Finding("grids", 0, f"the answer of “{puzzle.title}” has no grid of its size")
        if placed.grid is not None and placed.grid is placed.answer:
            words = f"“{puzzle.title}” has one grid for itself and its answer"
            yield Finding("grids", placed.grid.leaf.number, words)


def _opener(file: FinishedFile, section: str) -> int:
    """The page that a section heads, the last where others name it in letters as large."""
    pages = [leaf.number for leaf in file.leaves if plain(heading_of(leaf)) == plain(section)]
    return max(pages, default=1)


def _matched(
    expected: Sequence[Expected], grids: Sequence[Grid], words: dict[int, str]
) -> list[Grid | None]:
    """For each puzzle the next grid that has its size, on a page that has its title."""
    found: list[Grid | None] = []
    at = 0
    for each in expected:
        after = (
            index for index in range(at, len(grids)) if _fits(each.puzzle, grids[index], words)
        )
        index = next(after, None)
        found.append(None if index is None else grids[index])
        at = at if index is None else index + 1
    return found


def _fits(puzzle: Puzzle, grid: Grid, words: dict[int, str]) -> bool:
    board, there = puzzle.board, words[grid.leaf.number]
    if (grid.rows, grid.columns) != (board.rows, board.columns):
        return False
    return has_all_words(there, puzzle.credits.title)
