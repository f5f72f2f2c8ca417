"""A lesson's example: a puzzle and its answer side by side, and how to begin with it."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Final

from layout.board.board import lay_out
from layout.language.wording import all_symbols
from layout.language.words import fill, words_for
from layout.pages.book.lessons import Lesson, solved
from layout.pages.common.caption import rule_lines
from layout.pages.common.design import Design, board_at, cap, stacked
from layout.pages.common.lettered import called, letters_at
from layout.picture.items import Fill, Item
from layout.picture.shapes import rectangle
from layout.telling.level import Level
from layout.telling.telling import tell_walk
from layout.type.lines import Line
from layout.type.paragraph import set_words
from verify.board import Cell
from verify.walk.report.opening import opening
from verify.walk.told.path import as_told

LEAST: Final = 0.75
"""An example moves on rather than get smaller than this share of its size."""

READABLE: Final = 5.6
"""Nor than these millimetres of a cell: labels have 5 points there, and digits under them 6."""

UNDER: Final = 2.0
"""What the words under an example take, in leadings of these."""

BETWEEN: Final = 1.5
"""The least white between an example and its answer, in gaps, where these fill the measure."""

BESIDE_EMS: Final = 12.0
"""The narrowest column beside the two for the sentence on how to begin, in ems."""

LABELLED: Final = 5.5
"""Millimetres from which on cells hold labels beside the digits of an answer."""

SHADE: Final = 0.87
"""How light the cells are that the sentence speaks of: 0 is black."""

MOST_CELLS: Final = 4
MOST_LETTERS: Final = 175
"""A beginning that takes more cells or letters to tell is left to the reader."""


@dataclass(frozen=True, slots=True)
class Example:
    """The example of a lesson, its grids no larger than a side if that can be read."""

    lesson: Lesson
    side: float
    design: Design

    def width(self, room: float) -> float:
        """How wide the grids are in so much depth; nothing where they came out too small."""
        design = self.design
        puzzle, _ = solved(self.lesson.example)
        half = (design.measure - BETWEEN * design.page.gap) / 2
        largest = design.page.cells.largest
        readable = design.room_for(puzzle, READABLE)
        side = max(self.side, readable)
        whole = design.board_width(puzzle, min(half, side), side, largest)
        room -= self._words_depth(whole)
        enough = design.board_height(puzzle, min(whole, max(LEAST * whole, readable)))
        return design.board_width(puzzle, whole, room) if room >= enough else 0.0

    def depth(self, width: float) -> float:
        """How deep it is, with the words under it."""
        puzzle, _ = solved(self.lesson.example)
        return self.design.board_height(puzzle, width) + self._words_depth(width)

    @property
    def _begin(self) -> "_Beginning | None":
        lesson = self.lesson
        return _beginning(lesson.example, lesson.rules, self.design.words.language)

    def _words_depth(self, width: float) -> float:
        """What the words under the grids take."""
        faces = self.design.faces
        below = 0 if self._beside(width) else len(self._lines(self.design.measure))
        white = 0.5 if below else 0.0
        more = len(self._caption(width)) - 1
        return (UNDER + more) * faces.note.leading + (below + white) * faces.lesser_rules.leading

    def _caption(self, width: float) -> tuple[Line, ...]:
        """What stands under the puzzle, in as many lines as it has room for beside the next."""
        puzzle, _ = solved(self.lesson.example)
        words, note = self.design.words, self.design.faces.note
        symbols = all_symbols(puzzle.symbols, words)
        example = fill(words.pages.example, symbols=symbols)
        return set_words(example, note, self._right(width) - note.size)

    def _right(self, width: float) -> float:
        """Where the answer begins."""
        apart = self.design.page.gap * (1.0 if self._beside(width) else 3.0)
        return min(self.design.measure - width, width + apart)

    def _beside(self, width: float) -> bool:
        """Whether the sentence has room beside grids so wide."""
        puzzle, _ = solved(self.lesson.example)
        voices = self.design.faces.lesser_rules
        room = self._room_beside(width)
        if room < BESIDE_EMS * voices.size:
            return False
        deep = len(self._lines(room)) * voices.leading
        return deep <= self.design.board_height(puzzle, width) + self.design.faces.note.leading

    def _room_beside(self, width: float) -> float:
        return min(self.design.measure, self.design.page.measure) - 2 * (
            width + self.design.page.gap
        )

    def _lines(self, measure: float) -> tuple[Line, ...]:
        """The sentence in lines; none where there is none."""
        begin = self._begin
        if begin is None:
            return ()
        measure = min(measure, self.design.page.measure)
        return rule_lines((begin.sentence,), self.design.faces.lesser_rules, measure, self.design)

    def items(self, top: float, width: float) -> Iterator[Item]:
        """The example and its answer, each with a word under it, and the sentence."""
        design, (puzzle, answer) = self.design, solved(self.lesson.example)
        words, note, voices = design.words.pages, design.faces.note, design.faces.lesser_rules
        begin, beside = self._begin, self._beside(width)
        right = self._right(width)
        if begin is not None:
            yield from _shaded(self.lesson, begin.cells, top, width, design)
        yield board_at(puzzle, 0.0, top, width, design)
        labels = width / puzzle.board.columns >= LABELLED
        yield board_at(puzzle, right, top, width, design, answer, labels=labels)
        if begin is not None:
            yield from letters_at(puzzle, begin.cells, 0.0, top, width, design)
        y = top + design.board_height(puzzle, width) + 0.75 * note.size + cap(note)
        example = self._caption(width)
        yield from stacked(example, note.leading, 0.0, y)
        yield from stacked(set_words(words.example_answer, note, width), note.leading, right, y)
        if beside:
            x = right + width + design.page.gap
            lines = self._lines(self._room_beside(width))
            yield from stacked(lines, voices.leading, x, top + cap(voices))
        else:
            y += (len(example) - 1) * note.leading + 1.5 * voices.leading
            yield from stacked(self._lines(design.measure), voices.leading, 0.0, y)


@dataclass(frozen=True, slots=True)
class _Beginning:
    """A sentence on how to begin, and the cells that it calls by letters."""

    sentence: str
    cells: Mapping[Cell, str]


@cache
def _beginning(manifest: str, rules: tuple[str, ...], language: str) -> _Beginning | None:
    """How to begin by the rules that are taught; None where that is long or hard to tell."""
    puzzle, _ = solved(manifest)
    steps = opening(puzzle, frozenset(rules))[:1]
    cells = called(steps)
    if not cells or len(cells) > MOST_CELLS:
        return None
    words = words_for(language)
    named = {cell: fill(words.worksheet.cell, cell=letter) for cell, letter in cells.items()}
    telling = tell_walk(puzzle, as_told(puzzle, steps), words, Level.WHOLE, named)
    sentence = telling.steps[0].words
    return _Beginning(sentence, cells) if len(sentence) <= MOST_LETTERS else None


def _shaded(
    lesson: Lesson, cells: Mapping[Cell, str], top: float, width: float, design: Design
) -> Iterator[Item]:
    """Grey under the cells that are spoken of."""
    puzzle, _ = solved(lesson.example)
    lattice = lay_out(puzzle, design.board, width)
    for cell in cells:
        x, y = lattice.corner(*puzzle.board.place(cell))
        yield Fill((rectangle(x, top + y, lattice.side, lattice.side),), SHADE)
