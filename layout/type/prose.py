"""Prose: blocks set as rows of a baseline grid, and cut into pages.

Every row is one leading deep, so that the lines of facing pages stand side by side.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import islice, pairwise
from math import ceil
from typing import Final, TypeVar

from layout.type.face import Voices
from layout.type.fonts import font
from layout.type.lines import Line
from layout.type.markup import MarkupBlock, VoicedText
from layout.type.notes import Note, lines_of_marks, marked, marks, note_voices, set_note
from layout.type.paragraph import Align, one_line, set_paragraph

BULLET: Final = "•"
HANG: Final = 1.1
NUMBER_HANG: Final = 1.7
"""Ems that the items of a list hang from their bullet, or from their number."""


@dataclass(frozen=True, slots=True)
class ProseRow:
    """One row: its lines, each with where it starts from the left; none in an empty row.

    With `keep` no page may end after it. Its `notes` stand at the foot of the page that it is on.
    """

    lines: tuple[tuple[float, Line], ...] = ()
    keep: bool = False
    notes: tuple[Note, ...] = ()

    @property
    def empty(self) -> bool:
        """Whether nothing stands in it."""
        return not self.lines


R = TypeVar("R", bound=ProseRow)


@dataclass(frozen=True, slots=True)
class Column:
    """A column of prose: its fonts, its measure in millimetres, how its lines end.

    Paragraphs are told apart by an indent of one em, but a first one needs none; lists and
    headings have an empty row before them, and a list one after it. Notes are smaller, but never
    under `least` (the em).
    """

    voices: Voices
    measure: float
    align: Align = "justified"
    language: str = "en"
    least: float = 0.0

    @property
    def small(self) -> Voices:
        """The voices of its notes."""
        return note_voices(self.voices, self.least)

    def rows(self, blocks: Sequence[MarkupBlock]) -> tuple[ProseRow, ...]:
        """The rows of some blocks."""
        rows: list[ProseRow] = []
        wanted = sum(len(block.notes) for block in blocks)
        own = iter(marks(wanted, font(self.voices.roman)))
        for before, block in pairwise((None, *blocks)):
            assert block is not None, "only the first has nothing before it"  # noqa: S101
            if before is not None and _parted(before, block):
                rows.append(ProseRow(keep=before.kind == "heading"))
            follows = before is not None and before.kind == block.kind == "paragraph"
            left = tuple(islice(own, len(block.notes)))
            rows += self._rows_of(block, self.voices.size if follows else 0.0, left)
        return tuple(rows)

    def _rows_of(
        self, block: MarkupBlock, indent: float, left: Sequence[str]
    ) -> Iterator[ProseRow]:
        """The rows of a block whose notes have these marks."""
        ems = NUMBER_HANG if block.number else HANG
        hang = ems * self.voices.size if block.kind == "item" else 0.0
        printed = replace(block, runs=marked(block.runs, left))
        lines = self._lines(printed, self.measure - hang, indent)
        at = lines_of_marks(block, left, lines)
        for index, line in enumerate(lines):
            set_lines = [(hang + (0.0 if index else indent), line)]
            if block.kind == "item" and not index:
                sign = f"{block.number}." if block.number else BULLET
                set_lines.insert(0, (0.0, one_line(sign, self.voices.face)))
            keep = block.kind == "heading" or _holds(index, len(lines))
            notes = [
                self._note(mark, runs)
                for mark, runs, on in zip(left, block.notes, at, strict=True)
                if on == index
            ]
            yield ProseRow(tuple(set_lines), keep, tuple(notes))

    def _note(self, mark: str, runs: Sequence[VoicedText]) -> Note:
        return set_note(mark, runs, self.small, self.measure, self.align, self.language)

    def note_rows(self, rows: Sequence[ProseRow]) -> int:
        """How many rows the notes of some rows take at the foot of a page, with white above."""
        count = sum(len(note.lines) for row in rows for note in row.notes)
        return ceil(count * self.small.leading / self.voices.leading - 1e-9) + 1 if count else 0

    def _lines(self, block: MarkupBlock, measure: float, indent: float) -> tuple[Line, ...]:
        if block.kind != "heading":
            voices, runs, align = self.voices, block.runs, self.align
            return set_paragraph(runs, voices, measure, align, indent, self.language)
        bold = tuple(VoicedText(run.text, "bold") for run in block.runs)
        return set_paragraph(bold, self.voices, measure)


def cut_pages(
    rows: Sequence[R],
    capacity: int,
    first: int | None = None,
    note_rows: Callable[[Sequence[R]], int] = lambda _: 0,
) -> tuple[tuple[R, ...], ...]:
    """Rows by page, `capacity` of them on each and `first` on the first, as far as they may part.

    Notes take `note_rows` of what is on their page. No page begins or ends with an empty row. The
    first page stays empty where it is too short for what must stay together.
    """
    pages: list[tuple[R, ...]] = []
    start = _skip_empty(rows, 0)
    while start < len(rows):
        room = capacity if pages or first is None else first
        end = min(start + room, len(rows))
        # A row that has a whole page must have its place there, whatever its notes take.
        least = start + 1 if room == capacity else start
        while end > least and end - start + note_rows(rows[start:end]) > room:
            end -= 1
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
