"""Where a board has cells: several grids that overlap, and holes."""

import re
from collections.abc import Collection
from dataclasses import replace
from typing import Final

from verify.board import Board, Cell
from verify.reading.grammar import CELL, GROUP
from verify.reading.node import Fields, Items, Node, Text, describe, shown
from verify.reading.problems import Problems
from verify.reading.reader import Reader
from verify.reading.record import Schema

MOST_GRIDS: Final = 25
LARGEST_SPAN: Final = 50
"""Rows and columns of a board of several grids."""

HOLES: Final = GROUP
"""Cells that the board does not have."""

_CORNER: Final = re.compile(r"[rR]([0-9]{1,3})[cC]([0-9]{1,3})")


class Grids:
    """The upper left cells of several grids; where they may lie hangs on the size."""

    def read(self, node: Node, problems: Problems) -> tuple[Node, ...] | None:
        """An item for each grid."""
        if isinstance(node, Items) and 2 <= len(node.items) <= MOST_GRIDS:
            return node.items
        found = f"{len(node.items)} grids" if isinstance(node, Items) else describe(node)
        expected = f"2 to {MOST_GRIDS} cells, the upper left one of each grid"
        problems.expected(node.place, found, expected)
        return None

    def schema(self) -> Schema:
        """An array of cells."""
        return {"type": "array", "items": CELL.schema(), "minItems": 2, "maxItems": MOST_GRIDS}


GRIDS: Final = Grids()


def read_outline(fields: Fields, board: Board, rules: Collection[str], problems: Problems) -> Board:
    """The board of one grid, or with the grids and without the holes that a manifest tells of."""
    grids_node, holes_node = fields.get("grids"), fields.get("holes")
    if grids_node is not None:
        if "regions" in rules:
            problems.expected(grids_node.place, "grids beside regions", "one or the other")
        board = _with_grids(grids_node, board, problems)
    return board if holes_node is None else _with_holes(holes_node, board, problems)


def _with_grids(node: Node, board: Board, problems: Problems) -> Board:
    """The rectangle around all grids; what lies in none of them is absent."""
    corners = _corners(node, board.digits, problems)
    if not corners:
        return board
    size = board.digits
    rows = max(row for row, _ in corners) + size
    columns = max(column for _, column in corners) + size
    inside = {
        row * columns + column
        for top, left in corners
        for row in range(top, top + size)
        for column in range(left, left + size)
    }
    absent = frozenset(range(rows * columns)) - inside
    return replace(board, rows=rows, columns=columns, grids=tuple(corners), absent=absent)


def _corners(node: Node, size: int, problems: Problems) -> list[tuple[int, int]]:
    """Row and column, from 0, of each grid's upper left cell."""
    corners: list[tuple[int, int]] = []
    for item in GRIDS.read(node, problems) or ():
        corner = _corner(item, size, problems)
        if corner in corners:
            problems.expected(item.place, f"{describe(item)} again", "each grid once")
        elif corner is not None:
            corners.append(corner)
    edges = [min(place) for place in zip(*corners, strict=True)] if corners else []
    if any(edges):
        problems.expected(
            node.place, "no grid at the upper or the left edge", "grids from row 1 and column 1 on"
        )
        return []
    return corners


def _corner(item: Node, size: int, problems: Problems) -> tuple[int, int] | None:
    """One upper left cell."""
    match = _CORNER.fullmatch(item.text.strip()) if isinstance(item, Text) else None
    last = LARGEST_SPAN - size + 1
    if match and 1 <= int(match[1]) <= last and 1 <= int(match[2]) <= last:
        return int(match[1]) - 1, int(match[2]) - 1
    found = f'"{shown(item.text)}"' if isinstance(item, Text) else describe(item)
    problems.expected(item.place, found, f"a cell from r1c1 to r{last}c{last}")
    return None


def _with_holes(node: Node, board: Board, problems: Problems) -> Board:
    """The same board without some of its cells."""
    holes: Collection[Cell] = HOLES.read(node, Reader(board, problems)) or ()
    if len(holes) == len(board.cells):
        problems.expected(node.place, "holes everywhere", "at least one cell")
        return board
    return replace(board, absent=board.absent | frozenset(holes))
