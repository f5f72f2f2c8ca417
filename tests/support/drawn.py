"""Boards, marks and finished files for the tests of what is drawn, and ways to read them back."""

import re
from collections.abc import Iterator
from functools import cache
from xml.etree import ElementTree

from fontTools.pens.boundsPen import BoundsPen
from fontTools.svgLib.path import parse_path

from layout.marks.lattice import Lattice
from layout.picture.items import Path, Point
from layout.style.board import BoardStyle
from layout.style.style import read_style
from verify.board import COMPASS, Board, Cell
from verify.manifest.read import puzzle_from_text
from verify.puzzle import Puzzle

POINT = 25.4 / 72
NINE = Board(9, 9, 9, (3, 3))
STYLES = ("classroom", "large-print", "newsprint", "paperback")
SVG = "{http://www.w3.org/2000/svg}"
HREF = "{http://www.w3.org/1999/xlink}href"

FULL = """\
title: Every Mark
kind: sudoku
size: 9
rules:
  thermometer:
    - r2c1 e e se
    - r2c1 e ne
    - r6c6 se n sw
  slow-thermometer:
    - r1c9 s s
  arrow:
    - r9c9 n nw n
    - {total: r8c2 e, shaft: r7c3 ne n}
  cage:
    - {cells: r4c1 s e, sum: 15}
    - {cells: r4c2 e, sum: 9}
  diagonals: both
  even: [r5c5, r8c8]
  odd: [r5c6]
  greater: [r1c4 > r1c5, r2c7 > r3c7]
givens: |
  1 . 2 | 3 . 4 | 5 6 7
  . 8 . | . 9 . | . . .
  . . . | . . . | . . .
  ---------------------
  3 . . | . . . | 2 . .
  . . . | . 1 . | . . .
  . . . | . . . | . . .
  ---------------------
  . . . | . . . | . . .
  . . . | . 8 . | . . 4
  . . 6 | . . . | . . 5
"""


def board_style(name: str = "paperback") -> BoardStyle:
    return read_style(name).board


@cache
def full_puzzle() -> Puzzle:
    """A board that holds marks of every kind; whether it has an answer does not matter here."""
    return puzzle_from_text(FULL)


def plain_puzzle(size: int, givens: str = "", kind: str = "sudoku", more: str = "") -> Puzzle:
    """A puzzle without marks; `givens` is rows of tokens, all open where it is empty."""
    rows = givens or "\n".join(" ".join("." * size) for _ in range(size))
    block = "\n".join(f"  {row.strip()}" for row in rows.strip().splitlines())
    return puzzle_from_text(f"kind: {kind}\nsize: {size}\n{more}givens: |\n{block}\n")


def filled(puzzle: Puzzle) -> list[int]:
    """Some digit in every cell, the givens kept."""
    digits = puzzle.board.digits
    return [given or cell % digits + 1 for cell, given in enumerate(puzzle.givens)]


def lattice(
    board: Board = NINE, side: float = 10.0, left: float = 1.0, top: float = 1.0
) -> Lattice:
    return Lattice(board, side, left, top)


def cell(name: str, board: Board = NINE) -> Cell:
    row, column = name[1:].split("c")
    return board.cell(int(row) - 1, int(column) - 1)


def cells(names: str, board: Board = NINE) -> tuple[Cell, ...]:
    return tuple(cell(name, board) for name in names.split())


def trail(words: str, board: Board = NINE) -> tuple[Cell, ...]:
    """A path told by a first cell and compass steps."""
    first, *steps = words.split()
    path = [cell(first, board)]
    for step in steps:
        assert step in COMPASS
        following = board.step(path[-1], step)
        assert following is not None
        path.append(following)
    return tuple(path)


def points(path: Path) -> Iterator[Point]:
    """Every point that the pen of a path stops at."""
    for contour in path:
        yield contour.start
        for segment in contour.segments:
            yield segment[-2], segment[-1]


def svg_of(data: bytes | str) -> ElementTree.Element:
    return ElementTree.fromstring(data)


def path_bounds(data: str) -> tuple[float, float, float, float]:
    pen = BoundsPen(None)
    parse_path(data, pen)
    left, top, right, bottom = pen.bounds
    return left, top, right, bottom


def glyphs(root: ElementTree.Element) -> Iterator[tuple[float, float, float, float]]:
    """Left, top, right and bottom of each glyph of a picture, in millimetres."""
    outlines = {path.get("id"): path.attrib["d"] for path in root.iter(f"{SVG}path")}
    for use in root.iter(f"{SVG}use"):
        x, y, scale = map(float, re.findall(r"-?[\d.]+", use.attrib["transform"]))
        left, top, right, bottom = path_bounds(outlines[use.attrib[HREF][1:]])
        yield x + left * scale, y + top * scale, x + right * scale, y + bottom * scale


def painted_bounds(root: ElementTree.Element) -> Iterator[tuple[float, float, float, float]]:
    """Bounds of each stroked or filled path, line widths and square caps counted in."""
    for path in root.findall(f".//{SVG}path"):
        if path.get("id") is None:
            reach = float(path.get("stroke-width") or 0) / 2
            left, top, right, bottom = path_bounds(path.attrib["d"])
            yield left - reach, top - reach, right + reach, bottom + reach
