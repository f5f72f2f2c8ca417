"""Answer strips: narrow columns of answers to be cut apart, one for each child to check with.

Every worksheet has its strip. What is left of the last page repeats them, for these pages are
copied for a whole class.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import cycle, islice
from math import fsum
from typing import Final

from layout.pages.common.design import Design, board_at, cap, stacked
from layout.pages.common.misfit import Misfit, Misfits
from layout.pages.worksheet.handout import Exercise, Handout, Worksheet
from layout.picture.items import Group, Item, Stroke
from layout.picture.shapes import polyline
from layout.type.lines import Line
from layout.type.paragraph import one_line, set_words
from layout.type.typography import polish

MOST_STRIPS: Final = 4
"""Strips side by side."""

PADDING: Final = 4.0
"""White between an answer and the line to cut along, in millimetres."""

CUT: Final = 0.7 * 25.4 / 72
DASH: Final = (2.2, 1.6)
"""The line to cut along: its width and its dashes, in millimetres."""


@dataclass(frozen=True, slots=True)
class _StripAnswer:
    """An answer with the line over it, and the depth of its grid."""

    exercise: Exercise
    title: Line
    wide: float
    grid: float


@dataclass(frozen=True, slots=True)
class _Strip:
    """What stands on one strip: a heading, and answers under one another."""

    heading: tuple[Line, ...]
    answers: tuple[_StripAnswer, ...]


def strip_pages(handout: Handout, design: Design) -> list[tuple[Item, ...]]:
    """The items of each page of strips. Raises Misfits where cells come out too small."""
    columns = _columns(handout, design)
    width = design.measure / columns
    strips = [
        strip for each in handout.worksheets for strip in _strips(handout, each, width, design)
    ]
    high = max(_strip_depth(strip, design) for strip in strips)
    rows = max(1, int(design.depth / high))
    on_page = rows * columns
    wanted = -(-len(strips) // on_page) * on_page
    every = list(islice(cycle(strips), wanted))
    return [
        tuple(_page_items(every[start : start + on_page], columns, width, high, design))
        for start in range(0, wanted, on_page)
    ]


def _columns(handout: Handout, design: Design) -> int:
    """How many strips side by side have cells that can be read. Raises Misfits."""
    smallest = design.page.cells.smallest_in_answers
    for columns in range(MOST_STRIPS, 0, -1):
        room = design.measure / columns - 2 * PADDING
        cells = [design.cell(each.puzzle, room, design.depth) for each in handout.exercises()]
        if min(cells) >= smallest:
            return columns
    message = f"a strip has cells of {min(cells):.1f} mm; the style wants {smallest:g} mm or more"
    raise Misfits([Misfit(message, path=("strips",))])


def _strips(
    handout: Handout, worksheet: Worksheet, width: float, design: Design
) -> Iterator[_Strip]:
    """The strip of a worksheet; several where its answers take more than the depth of a page."""
    inner, faces = width - 2 * PADDING, design.faces
    name = worksheet.name(design.words)
    title = set_words(polish(handout.title, design.words.quote_marks), faces.caption, inner)
    heading = (*title, *(set_words(name, faces.caption_number, inner) if name else ()))
    room = design.depth - 2 * PADDING - _heading_depth(heading, design)
    answers: list[_StripAnswer] = []
    used = 0.0
    for exercise in worksheet.exercises:
        answer = _answer(exercise, inner, design)
        deep = _answer_depth(answer, design)
        if answers and used + deep > room:
            yield _Strip(heading, tuple(answers))
            answers, used = [], 0.0
        answers.append(answer)
        used += deep
    yield _Strip(heading, tuple(answers))


def _answer(exercise: Exercise, inner: float, design: Design) -> _StripAnswer:
    puzzle, largest = exercise.puzzle, design.page.cells.largest_in_answers
    wide = design.board_width(puzzle, inner, design.depth, largest)
    title = one_line(str(exercise.number), design.faces.caption_number)
    return _StripAnswer(exercise, title, wide, design.board_height(puzzle, wide))


def _heading_depth(heading: Sequence[Line], design: Design) -> float:
    return len(heading) * design.faces.caption.leading + 0.5 * design.faces.caption.leading


def _answer_depth(answer: _StripAnswer, design: Design) -> float:
    face = design.faces.caption_number
    return cap(face) + 0.5 * face.size + answer.grid + face.leading


def _strip_depth(strip: _Strip, design: Design) -> float:
    answers = fsum(_answer_depth(answer, design) for answer in strip.answers)
    return 2 * PADDING + _heading_depth(strip.heading, design) + answers


def _page_items(
    strips: Sequence[_Strip], columns: int, width: float, high: float, design: Design
) -> Iterator[Item]:
    """Strips in rows, and the lines between them."""
    for index, strip in enumerate(strips):
        row, column = divmod(index, columns)
        yield Group(column * width + PADDING, row * high, tuple(_strip_items(strip, design)))
    rows = len(strips) // columns
    lines = [[(x * width, 0.0), (x * width, rows * high)] for x in range(columns + 1)]
    lines += [[(0.0, y * high), (columns * width, y * high)] for y in range(rows + 1)]
    for line in lines:
        yield Stroke((polyline(line),), CUT, dash=DASH)


def _strip_items(strip: _Strip, design: Design) -> Iterator[Item]:
    faces = design.faces
    y = PADDING + cap(faces.caption)
    yield from stacked(strip.heading, faces.caption.leading, 0.0, y)
    y = PADDING + _heading_depth(strip.heading, design)
    for answer in strip.answers:
        face = faces.caption_number
        yield from answer.title.at(0.0, y + cap(face))
        top = y + cap(face) + 0.5 * face.size
        exercise = answer.exercise
        yield board_at(exercise.puzzle, 0.0, top, answer.wide, design, exercise.answer)
        y += _answer_depth(answer, design)
