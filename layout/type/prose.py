"""Prose: blocks set as rows of a baseline grid, and cut into pages.

Every row is one leading deep, so that the lines of facing pages stand side by side.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final, TypeVar

from layout.type.face import Voices
from layout.type.lines import Line
from layout.type.markup import MarkupBlock, VoicedText
from layout.type.paragraph import Align, one_line, set_paragraph

BULLET: Final = "•"
HANG: Final = 1.1
NUMBER_HANG: Final = 1.7
"""Ems that the items of a list hang from their bullet, or from their number."""


@dataclass(frozen=True, slots=True)
class ProseRow:
    """One row: its lines, each with where it starts from the left; none in an empty row.

    With `keep` no page may end after it.
    """

    lines: tuple[tuple[float, Line], ...] = ()
    keep: bool = False

    @property
    def empty(self) -> bool:
        """Whether nothing stands in it."""
        return not self.lines


R = TypeVar("R", bound=ProseRow)


@dataclass(frozen=True, slots=True)
class Column:
    """A column of prose: its fonts, its measure in millimetres, how its lines end.

    Paragraphs are told apart by an indent of one em, but a first one needs none; lists and
    headings have an empty row before them, and a list one after it.
    """

    voices: Voices
    measure: float
    align: Align = "justified"
    language: str = "en"

    def rows(self, blocks: Sequence[MarkupBlock]) -> tuple[ProseRow, ...]:
        """The rows of some blocks."""
        rows: list[ProseRow] = []
        for before, block in pairwise((None, *blocks)):
            assert block is not None, "only the first has nothing before it"  # noqa: S101
            if before is not None and _parted(before, block):
                rows.append(ProseRow(keep=before.kind == "heading"))
            follows = before is not None and before.kind == block.kind == "paragraph"
            rows += self._rows_of(block, self.voices.size if follows else 0.0)
        return tuple(rows)

    def _rows_of(self, block: MarkupBlock, indent: float) -> Iterator[ProseRow]:
        ems = NUMBER_HANG if block.number else HANG
        hang = ems * self.voices.size if block.kind == "item" else 0.0
        lines = self._lines(block, self.measure - hang, indent)
        for index, line in enumerate(lines):
            set_lines = [(hang + (0.0 if index else indent), line)]
            if block.kind == "item" and not index:
                sign = f"{block.number}." if block.number else BULLET
                set_lines.insert(0, (0.0, one_line(sign, self.voices.face)))
            yield ProseRow(tuple(set_lines), block.kind == "heading" or _holds(index, len(lines)))

    def _lines(self, block: MarkupBlock, measure: float, indent: float) -> tuple[Line, ...]:
        if block.kind != "heading":
            voices, runs, align = self.voices, block.runs, self.align
            return set_paragraph(runs, voices, measure, align, indent, self.language)
        bold = tuple(VoicedText(run.text, "bold") for run in block.runs)
        return set_paragraph(bold, self.voices, measure)


def cut_pages(
    rows: Sequence[R], capacity: int, first: int | None = None
) -> tuple[tuple[R, ...], ...]:
    """Rows by page, `capacity` of them on each and `first` on the first, as far as they may part.

    No page begins or ends with an empty row. The first page stays empty where it is too short
    for what must stay together.
    """
    pages: list[tuple[R, ...]] = []
    start = _skip_empty(rows, 0)
    while start < len(rows):
        room = capacity if pages or first is None else first
        end = min(start + room, len(rows))
        if end < len(rows):
            may_end = (stop for stop in range(end, start, -1) if not rows[stop - 1].keep)
            end = next(may_end, end if room == capacity else start)
        pages.append(_without_last_empty(rows[start:end]))
        start = _skip_empty(rows, end)
    return tuple(pages)


def _parted(before: MarkupBlock, block: MarkupBlock) -> bool:
    """Whether an empty row stands between two blocks."""
    if block.kind == "heading":
        return True
    return before.kind != "heading" and before.kind != block.kind


def _holds(index: int, count: int) -> bool:
    """Whether a paragraph's line holds the next: no single line is left behind or sent ahead."""
    return index < count - 1 and index in (0, count - 2)


def _skip_empty(rows: Sequence[ProseRow], start: int) -> int:
    while start < len(rows) and rows[start].empty:
        start += 1
    return start


def _without_last_empty(rows: Sequence[R]) -> tuple[R, ...]:
    end = len(rows)
    while end and rows[end - 1].empty:
        end -= 1
    return tuple(rows[:end])
