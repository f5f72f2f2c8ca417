"""A puzzle that has a page to itself.

The grids of a section all hang from the same height, so that those of facing pages stand
side by side: the longest title and the longest rule text of the section say where.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import chain, cycle
from typing import Final

from layout.language.wording import rule_sentences
from layout.pages.book.references import references_of
from layout.pages.common.book import Numbered
from layout.pages.common.caption import Fitted, fitted_credit, fitted_titles, rule_lines, too_small
from layout.pages.common.coordinates import coordinates
from layout.pages.common.design import Design, board_at, cap, heading, stacked
from layout.pages.common.gauge import Gauge, gauge
from layout.pages.common.misfit import Misfits, gathered
from layout.pages.common.page import Labels, Page
from layout.picture.items import Anchor, Item
from layout.type.face import Voices
from layout.type.fonts import font
from layout.type.lines import Line
from layout.type.markup import noted_words
from layout.type.notes import marked, marks, note_voices, set_note
from layout.type.paragraph import one_line, set_paragraph

SINK: Final = 0.6
"""The part of the free depth that lies above the title; the rest lies under the rule text."""

NEARLY: Final = 0.8
"""What a grid keeps of its size where one place for all of them is worth it."""

ABOVE_GRID: Final = 1.7
BELOW_GRID: Final = 1.15
"""White between the grid and the last line above it, the first below: in leadings of those."""


@dataclass(frozen=True, slots=True)
class _Caption:
    """What is said around the grid."""

    numbered: Numbered
    title: Fitted
    credit: Fitted
    number: Line
    gauge: Gauge | None
    rules: tuple[Line, ...]
    notes: tuple[Line, ...] = ()


@dataclass(frozen=True, slots=True)
class _Stand:
    """Where the grid's upper edge lies, and how deep it may be, in millimetres."""

    top: float
    room: float


def pages_of_one(
    title: str, puzzles: Sequence[Numbered], design: Design, *, hinted: bool = False
) -> tuple[Page, ...]:
    """A page for each puzzle. Raises Misfits for what is too long, and for cells too small."""
    titles = _titles(puzzles, design)
    captions = gathered(
        partial(_caption, numbered, title, design)
        for numbered, title in zip(puzzles, titles, strict=True)
    )
    stands = _stands(captions, design)
    _check_cells(captions, stands, design)
    return tuple(
        Page(
            partial(_draw, caption, stand, design),
            anchors=(Anchor(caption.numbered.puzzle_anchor, 0.0),),
            head=title,
            references=references_of(caption.numbered, design, hinted=hinted),
        )
        for caption, stand in zip(captions, stands, strict=True)
    )


def _titles(puzzles: Sequence[Numbered], design: Design) -> list[Fitted]:
    """The titles, in one size."""
    measures = [_beside(_number(each, design), design) for each in puzzles]
    return fitted_titles([each.puzzle for each in puzzles], design.faces.title, measures, design)


def _number(numbered: Numbered, design: Design) -> Line:
    return one_line(str(numbered.number), design.faces.number)


def _beside(number: Line, design: Design) -> float:
    """How wide a title may be beside its number."""
    faces = design.faces
    return design.measure - max(number.width, 2 * faces.number.size) - faces.title.size


def _caption(numbered: Numbered, title: Fitted, design: Design) -> _Caption:
    faces = design.faces
    number = _number(numbered, design)
    beside = _beside(number, design)
    graded = gauge(numbered.grade, design.words.grades, faces.note)
    taken = graded.width + faces.credit.size if graded else 0.0
    rules, notes = _rules(numbered, design)
    return _Caption(
        numbered,
        title,
        fitted_credit(numbered.puzzle, faces.credit, min(beside, design.measure - taken), design),
        number,
        graded,
        rules,
        notes,
    )


def _rules(numbered: Numbered, design: Design) -> tuple[tuple[Line, ...], tuple[Line, ...]]:
    """The lines of the rules, and those of their notes for the foot of the page."""
    puzzle, voices = numbered.puzzle, design.faces.rules
    block = noted_words(puzzle.words, design.words.quote_marks)
    if not block.notes:
        return rule_lines(rule_sentences(puzzle, design.words), voices, design.measure, design), ()
    left = marks(len(block.notes), font(voices.roman))
    said = marked(block.runs, left)
    small, language = _small(design), design.language
    notes = (
        set_note(mark, runs, small, design.measure, "ragged", language).lines
        for mark, runs in zip(left, block.notes, strict=True)
    )
    lines = set_paragraph(said, voices, design.measure, language=language)
    return lines, tuple(chain.from_iterable(notes))


def _small(design: Design) -> Voices:
    """The voices of notes to rules."""
    return note_voices(design.faces.rules, design.page.least)


def _stands(captions: Sequence[_Caption], design: Design) -> list[_Stand]:
    """The place of each grid: one for all, or each its own where that makes one much smaller."""
    common, own = _stand(captions, design), [_stand([caption], design) for caption in captions]
    cells = _cells(captions, [common], design), _cells(captions, own, design)
    smallest, largest = design.page.cells.smallest, design.page.cells.largest
    nearly = (
        together >= max(NEARLY * min(alone, largest), min(alone, smallest))
        for together, alone in zip(*cells, strict=True)
    )
    return [common] * len(captions) if all(nearly) else own


def _cells(
    captions: Sequence[_Caption], stands: Sequence[_Stand], design: Design
) -> Iterator[float]:
    """The sides of cells, in one place for all or in one for each."""
    for caption, stand in zip(captions, cycle(stands), strict=False):
        yield design.cell(caption.numbered.puzzle, design.measure, stand.room)


def _stand(captions: Sequence[_Caption], design: Design) -> _Stand:
    """The place of the grids, from the deepest words above and below them."""
    faces = design.faces
    above = max(_above(caption, design) for caption in captions)
    below = max(_below(caption, design) for caption in captions)
    below += BELOW_GRID * faces.rules.leading + cap(faces.rules)
    room = design.depth - above - below
    deepest = max(_height(caption, room, design) for caption in captions)
    return _Stand(above + SINK * (room - deepest), room)


def _below(caption: _Caption, design: Design) -> float:
    """What the lines of the rules take, and notes with the white above them."""
    leading = design.faces.rules.leading
    notes = len(caption.notes) * _small(design).leading + leading if caption.notes else 0.0
    return len(caption.rules) * leading + notes


def _above(caption: _Caption, design: Design) -> float:
    """From the top of the title to the grid."""
    face = caption.title.face
    return cap(face) + caption.title.drop + _under_title(design) + caption.credit.drop


def _under_title(design: Design) -> float:
    """From the last baseline of the title to the grid: the credit has its place there."""
    return (1.25 + ABOVE_GRID) * design.faces.credit.leading


def _width(caption: _Caption, room: float, design: Design) -> float:
    """How wide the grid is drawn."""
    puzzle = caption.numbered.puzzle
    return design.board_width(puzzle, design.measure, room, design.page.cells.largest)


def _height(caption: _Caption, room: float, design: Design) -> float:
    """How high the grid is drawn."""
    return design.board_height(caption.numbered.puzzle, _width(caption, room, design))


def _check_cells(captions: Sequence[_Caption], stands: Sequence[_Stand], design: Design) -> None:
    smallest = design.page.cells.smallest
    small = [
        too_small(caption.numbered, cell, smallest, "on a page of its own")
        for caption, cell in zip(captions, _cells(captions, stands, design), strict=True)
        if cell < smallest
    ]
    if small:
        raise Misfits(small)


def _draw(caption: _Caption, stand: _Stand, design: Design, labels: Labels) -> Iterator[Item]:
    faces, numbered = design.faces, caption.numbered
    title_y = stand.top - _under_title(design) - caption.credit.drop
    title = caption.title
    yield heading(stacked(title.lines, title.face.leading, 0.0, title_y - title.drop))
    yield from caption.number.at(design.measure - caption.number.width, title_y)
    credit, credit_y = caption.credit, title_y + 1.25 * faces.credit.leading
    yield from stacked(credit.lines, credit.face.leading, 0.0, credit_y)
    if caption.gauge:
        yield from caption.gauge.at(design.measure - caption.gauge.width, credit_y)
    width = _width(caption, stand.room, design)
    board = board_at(numbered.puzzle, (design.measure - width) / 2, stand.top, width, design)
    yield board
    yield from coordinates(numbered.puzzle, (design.measure - width) / 2, stand.top, width, design)
    height = _height(caption, stand.room, design)
    y = stand.top + height + BELOW_GRID * faces.rules.leading + cap(faces.rules)
    yield from stacked(caption.rules, faces.rules.leading, 0.0, y)
    leading = _small(design).leading
    y = design.depth - (len(caption.notes) - 1) * leading
    yield from stacked(caption.notes, leading, 0.0, y)
