"""A sketch: a manifest with open ends, `?` where a given may stand, and `want`."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import chain
from pathlib import Path
from typing import Final

from verify.board import Cell
from verify.compose.orbits import image
from verify.compose.want import Want, place_in, read_want
from verify.manifest.read import puzzle_of_tree
from verify.manifest.source import shown_path, source_text
from verify.manifest.yaml_text import tree_of
from verify.marks import Trail
from verify.puzzle import Puzzle
from verify.reading.fewer import with_field
from verify.reading.grid import GridText, read_grid
from verify.reading.node import Fields, Place, Text, shown
from verify.reading.problems import Problems, Unreadable
from verify.reading.trail import cell_named

CLASSIC: Final = {"rows", "columns", "boxes"}
"""The rules of a classic puzzle."""

MAY_HOLD: Final = "?"
"""What a sketch shows where a given may stand or not."""

FEWEST_GIVENS: Final = {4: 4, 9: 17}
"""Givens that a classic puzzle of a size has at least, where that is known.

Of 9x9: McGuire, Tugemann, Civario 2014; 4x4 is soon tried.
"""


@dataclass(frozen=True, slots=True)
class Sketch:
    """What a puzzle is to be made of.

    `puzzle` has the givens that are fixed; `may` are the cells that may hold others; `reads` are
    cells whose digit in the answer is fixed. `text` and `root` are what stands in the file at
    `path`, which is None where there is no file.
    """

    puzzle: Puzzle
    want: Want
    may: frozenset[Cell]
    reads: tuple[tuple[Cell, int], ...]
    text: str
    root: Fields
    path: Path | None = None

    @property
    def fixed(self) -> frozenset[Cell]:
        """The cells of givens that stay."""
        return frozenset(cell for cell, digit in enumerate(self.puzzle.givens) if digit)

    def place_of_want(self, name: str) -> Place:
        """Where a want stands, or the field of all of them, or the puzzle."""
        want = self.root.get("want")
        return place_in(want, name) if isinstance(want, Fields) else self.puzzle.place_of("want")

    def place_of_read(self, name: str) -> Place:
        """Where it is said what a cell reads, by the name that it has there."""
        want = self.root.get("want")
        reads = want.get("reads") if isinstance(want, Fields) else None
        keys = [key for key, _ in reads.entries] if isinstance(reads, Fields) else []
        found = [key.place for key in keys if key.text.lower() == name.lower()]
        return found[-1] if found else self.place_of_want("reads")


def read_sketch(path: Path, name: str | None = None) -> Sketch:
    """The sketch of a file. Raises Unreadable with every problem of it."""
    name = shown_path(path) if name is None else name
    return replace(sketch_from_text(source_text(path, name), name), path=path)


def sketch_from_text(text: str, name: str) -> Sketch:
    """The sketch of a text, as if it stood in a file of that name; raises as `read_sketch`."""
    problems = Problems()
    root = tree_of(text, name, problems)
    if not isinstance(root, Fields):
        puzzle_of_tree(root, name, problems)  # which says what was expected
        raise Unreadable(problems.found)
    want = read_want(root.get("want"), problems)
    bare = _without_open_ends(root)
    puzzle = puzzle_of_tree(with_field(bare, "want", None), name, problems)
    puzzle = replace(puzzle, places=(*puzzle.places, *_want_place(root)))
    if any(MAY_HOLD in symbol for symbol in puzzle.symbols):
        problems.expected(puzzle.place_of("symbols"), f'"{MAY_HOLD}"', "another symbol in a sketch")
        raise Unreadable(problems.found)
    may = _may_hold(root, puzzle)
    may = may.difference(_on_lines(puzzle)) if want.bare else may
    sketch = Sketch(puzzle, want, may, (), text, root)
    reads = tuple(_reads(sketch, problems))
    sketch = replace(sketch, reads=reads)
    _check_givens(sketch, problems)
    _check_symmetry(sketch, problems)
    problems.raise_if_any()
    return sketch


def _want_place(root: Fields) -> Iterator[tuple[str, Place]]:
    want = root.get("want")
    if want is not None:
        yield "want", want.place


def _without_open_ends(root: Fields) -> Fields:
    """The manifest with `.` for every `?` in its givens; columns stay where they are."""
    node = root.get("givens")
    if not isinstance(node, Text):
        return root
    lines = tuple((place, line.replace(MAY_HOLD, ".")) for place, line in node.lines)
    closed = replace(node, text=node.text.replace(MAY_HOLD, "."), lines=lines)
    return with_field(root, "givens", closed)


def _may_hold(root: Fields, puzzle: Puzzle) -> frozenset[Cell]:
    """The cells with a `?`; all open ones where no givens are drawn."""
    node = root.get("givens")
    grid = _drawn(node, puzzle) if isinstance(node, Text) and node.text.strip() else None
    if grid is None:
        return frozenset(cell for cell in puzzle.board.cells if not puzzle.givens[cell])
    return frozenset(cell for cell, digit in enumerate(grid.digits) if digit < 0)


def _on_lines(puzzle: Puzzle) -> Iterator[Cell]:
    """The cells that lines and arrows are drawn through."""
    for use in puzzle.uses:
        for mark in use.marks(puzzle.board):
            if isinstance(mark, Trail):
                yield from mark.ring
                yield from chain.from_iterable(mark.branches)


def _drawn(node: Text, puzzle: Puzzle) -> GridText | None:
    """The givens as drawn: -1 where a given may stand."""
    values = {symbol: digit for digit, symbol in enumerate(puzzle.symbols, start=1)}
    values |= {".": 0, MAY_HOLD: -1}
    return read_grid(node, puzzle.board, values, "the givens", Problems())


def _reads(sketch: Sketch, problems: Problems) -> Iterator[tuple[Cell, int]]:
    """What cells read, by their digits; the manifest's own answer fixes all of them."""
    puzzle, read = sketch.puzzle, set[Cell]()
    if puzzle.answer is not None:
        yield from ((cell, puzzle.answer[cell]) for cell in puzzle.board.cells)
    for name, symbol in (sketch.want.reads or {}).items():
        place = sketch.place_of_want("reads")
        cell = cell_named(place, name, puzzle.board, problems)
        if cell is None:
            continue
        place = sketch.place_of_read(name)
        if cell in read:
            problems.expected(place, f"{name}, which stands here twice", "each cell once")
            continue
        read.add(cell)
        if symbol not in puzzle.symbols:
            known = " ".join(puzzle.symbols)
            problems.expected(place, f'"{shown(symbol)}" in {name}', f"one of {known}")
            continue
        digit = puzzle.symbols.index(symbol) + 1
        stands = puzzle.givens[cell] or (puzzle.answer[cell] if puzzle.answer else 0)
        if stands not in (0, digit):
            found = f'that {name} reads "{symbol}"'
            problems.expected(place, found, f'"{puzzle.symbol(stands)}", which stands there')
        else:
            yield cell, digit


def _check_givens(sketch: Sketch, problems: Problems) -> None:
    """Notes a number of givens that no puzzle can have."""
    most, board = sketch.want.givens, sketch.puzzle.board
    if most is None:
        return
    place, found = sketch.place_of_want("givens"), f"at most {most} givens"
    images = {image(board, cell, sketch.want.symmetry) for cell in sketch.fixed}
    fixed, least = len(sketch.fixed | images), fewest_givens(sketch.puzzle)
    if most < fixed:
        reason = "so many are fixed, counting those that symmetry asks for"
        problems.expected(place, found, f"{fixed} or more: {reason}")
    elif most < least:
        reason = f"with fewer no classic {board.rows}x{board.columns} puzzle has one answer"
        problems.expected(place, found, f"{least} or more: {reason}")


def fewest_givens(puzzle: Puzzle) -> int:
    """The givens that a puzzle has at least, as far as that is known; 0 where there are marks.

    Where nothing but houses tells digits apart, all but one must be given: two others could
    change places.
    """
    board = puzzle.board
    if board.grids or board.absent or {use.rule.name for use in puzzle.uses} != CLASSIC:
        return 0
    square = board.boxes is not None and board.boxes[0] == board.boxes[1]
    return FEWEST_GIVENS.get(board.digits, board.digits - 1) if square else board.digits - 1


def _check_symmetry(sketch: Sketch, problems: Problems) -> None:
    """Notes each fixed given whose image must stay empty."""
    board, symmetry = sketch.puzzle.board, sketch.want.symmetry
    allowed = sketch.fixed | sketch.may
    for cell in sorted(sketch.fixed):
        other = image(board, cell, symmetry)
        if other not in allowed:
            found = f"a given in {board.name(cell)} and none allowed in {board.name(other)}"
            expected = f"both or neither: symmetry is {symmetry}"
            problems.expected(sketch.place_of_want("symmetry"), found, expected)
