"""The grade of a puzzle as it is printed: a word, and a gauge with a mark for each band."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from layout.language.book_words import GradeWords
from layout.language.words import fill
from layout.pages.common.book import Numbered
from layout.picture.items import Contour, Fill, Group, Item, Stroke
from layout.type.face import Face
from layout.type.lines import Line
from layout.type.paragraph import one_line
from verify.walk.report.grade import GRADED, Band, Grade

MARK: Final = 0.24
MARK_GAP: Final = 0.17
MARK_HEIGHT: Final = 0.5
"""A mark's width, the white to the next, and its height over the baseline, in ems."""

EDGE: Final = 0.055
LEAST_EDGE: Final = 0.12
"""The line around a mark that is not filled: in ems, and in millimetres at the least."""

WORD_GAP: Final = 0.45
"""White between the word and the marks, in ems."""


@dataclass(frozen=True, slots=True)
class Gauge:
    """Marks for all bands, filled up to the puzzle's own, and the word before them.

    `word` is None where there is room for the marks alone; `says` is the grade for a reader
    who can't see the marks.
    """

    word: Line | None
    level: int
    size: float
    says: str

    @property
    def width(self) -> float:
        """How far word and marks run."""
        marks = (len(GRADED) * (MARK + MARK_GAP) - MARK_GAP) * self.size
        return marks if self.word is None else self.word.width + WORD_GAP * self.size + marks

    def at(self, x: float, y: float) -> Iterator[Item]:
        """The items from a point on the baseline on."""
        if self.word is not None:
            yield from self.word.at(x, y)
            x += self.word.width + WORD_GAP * self.size
        marks = (self._mark(index) for index in range(len(GRADED)))
        yield Group(x, y, tuple(marks), self.says)

    def _mark(self, index: int) -> Item:
        """Filled where the band is reached; else an outline that fills the same room."""
        left = index * (MARK + MARK_GAP) * self.size
        width, height = MARK * self.size, MARK_HEIGHT * self.size
        if index < self.level:
            return Fill((_box(left, width, height, 0.0),))
        edge = max(EDGE * self.size, LEAST_EDGE)
        return Stroke((_box(left, width, height, edge / 2),), edge)


def _box(left: float, width: float, height: float, inset: float) -> Contour:
    """A box that stands on the baseline."""
    right, top, foot = left + width - inset, inset - height, -inset
    corners = ((right, top), (right, foot), (left + inset, foot))
    return Contour((left + inset, top), corners, closed=True)


def gauge(grade: Grade, words: GradeWords, face: Face, *, marks_only: bool = False) -> Gauge | None:
    """The gauge of a grade in a face; None for an ungraded puzzle, of which nothing is said."""
    if grade.band is Band.UNGRADED:
        return None
    level = GRADED.index(grade.band) + 1
    name = words.bands[grade.band.value]
    says = fill(words.gauge, grade=name, level=level, levels=len(GRADED))
    return Gauge(None if marks_only else one_line(name, face), level, face.size, says)


def grade_range(puzzles: Sequence[Numbered], words: GradeWords) -> str:
    """From which grade to which some puzzles go, in words; nothing where none is graded."""
    bands = {numbered.grade.band for numbered in puzzles}
    found = [words.bands[band.value] for band in GRADED if band in bands]
    if len(found) < 2:
        return "".join(found)
    return fill(words.range, first=found[0], last=found[-1])
