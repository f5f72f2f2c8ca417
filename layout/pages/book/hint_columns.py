"""Blocks of rows in columns side by side, none of them parted, one band under another."""

from collections import deque
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import repeat
from typing import Final, TypeAlias

from layout.pages.common.design import Design, cap, link_over
from layout.pages.common.linked import LinkedRow
from layout.picture.items import Anchor, Item
from layout.type.lines import Line

GAP_ROWS: Final = 2
"""Empty rows between the columns of one band and the heading of the next."""


@dataclass(frozen=True, slots=True)
class HintRow(LinkedRow):
    """A row of the list; the first one of a puzzle has its anchor."""

    anchor: str = ""


HintRows: TypeAlias = tuple[HintRow, ...]
"""The rows of one puzzle."""


@dataclass(frozen=True, slots=True)
class Columns:
    """The columns of a list: how many, how wide, and the step `across` to the next, in mm."""

    count: int
    width: float
    across: float


@dataclass(frozen=True, slots=True)
class Tier:
    """Blocks under a heading, which takes `head` rows with the white below; or under none."""

    blocks: tuple[HintRows, ...]
    heading: Line | None = None
    head: int = 0
    anchor: str = ""


@dataclass(frozen=True, slots=True)
class Band:
    """Columns of rows, from a row of the page on, and the heading over them if it has one."""

    row: int
    columns: tuple[tuple[HintRow, ...], ...]
    tier: Tier | None = None

    def anchors(self, leading: float) -> Iterator[Anchor]:
        """Where its tier and its puzzles begin."""
        if self.tier is not None:
            yield Anchor(self.tier.anchor, (self.row - self.tier.head) * leading)
        for column in self.columns:
            for index, row in enumerate(column, start=self.row):
                if row.anchor:
                    yield Anchor(row.anchor, index * leading)

    def items(self, columns: Columns, design: Design) -> Iterator[Item]:
        """All that stands in it."""
        voices = design.faces.lesser_rules
        first = cap(voices) + self.row * voices.leading
        if self.tier is not None and self.tier.heading is not None:
            yield from self.tier.heading.at(0.0, first - 2 * voices.leading)
        for at, column in enumerate(self.columns):
            yield from _column_items(column, at * columns.across, first, voices.leading)


def _column_items(
    rows: Sequence[HintRow], left: float, first: float, leading: float
) -> Iterator[Item]:
    """A column's rows on a grid of baselines, with their links."""
    for index, row in enumerate(rows):
        y = first + index * leading
        for x, line in row.lines:
            yield from line.at(left + x, y)
        for x, line, anchor in row.links:
            yield from line.at(left + x, y)
            yield link_over(line, left + x, y, anchor)


def bands(tiers: Sequence[Tier], count: int, first: int, full: int) -> list[list[Band]]:
    """Tiers under one another in `count` columns, by page: on the first from a row on.

    Pages have `full` rows. A tier that ends on a page has columns about equally deep, and the next
    follows under it. A heading stays with rows that are as deep as itself.
    """
    pages: list[list[Band]] = [[]]
    row = first
    for tier in tiers:
        waiting, opens = deque(tier.blocks), True
        while waiting:
            above = tier.head if opens else 0
            columns, depth = _side_by_side(waiting, count, full - row - above)
            taken = sum(map(len, columns))
            if row and (not columns or (taken < len(waiting) and depth < above)):
                pages.append([])
                row = 0
                continue
            pages[-1].append(Band(row + above, _with_gaps(columns), tier if opens else None))
            row += above + depth + GAP_ROWS
            opens = False
            for _ in range(taken):
                waiting.popleft()
            if waiting:
                pages.append([])
                row = 0
    return pages


def _side_by_side(
    blocks: Sequence[HintRows], count: int, room: int
) -> tuple[list[list[HintRows]], int]:
    """As many blocks as fit in columns so deep, and how deep they are.

    Where all of them do, the columns are about equally deep.
    """
    columns = _filled(blocks, count, room)
    if sum(map(len, columns)) == len(blocks):
        even = (_filled(blocks, count, depth) for depth in range(1, room + 1))
        columns = next(each for each in even if sum(map(len, each)) == len(blocks))
    return columns, max(map(_depth, columns), default=0)


def _filled(blocks: Sequence[HintRows], count: int, room: int) -> list[list[HintRows]]:
    """Columns of blocks, none parted and none empty; as many blocks as the room holds."""
    columns: list[list[HintRows]] = []
    waiting = deque(blocks)
    for depth in repeat(room, count):
        column: list[HintRows] = []
        while waiting and _depth([*column, waiting[0]]) <= depth:
            column.append(waiting.popleft())
        if column:
            columns.append(column)
    return columns


def _depth(column: Sequence[HintRows]) -> int:
    """The rows of a column, with an empty one between blocks."""
    return sum(map(len, column)) + len(column) - 1


def _with_gaps(columns: Sequence[Sequence[HintRows]]) -> tuple[tuple[HintRow, ...], ...]:
    """The rows of columns, with an empty one between blocks."""
    return tuple(
        tuple(row for index, block in enumerate(column) for row in (*_gap(index), *block))
        for column in columns
    )


def _gap(index: int) -> HintRows:
    """The empty row before every block but the first."""
    return (HintRow(),) if index else ()
