"""The key of a handout: the answers of every worksheet, small, under its name."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from layout.pages.common.caption import fitted_title
from layout.pages.common.design import Design, board_at, cap, fit, stacked
from layout.pages.common.misfit import Misfit, Misfits
from layout.pages.worksheet.handout import Exercise, Handout, Worksheet
from layout.picture.items import Item
from layout.type.lines import Line
from layout.type.paragraph import one_line, set_words
from layout.type.typography import polish

MOST_COLUMNS: Final = 4
MOST_TITLE_LINES: Final = 2
NUMBER_GAP: Final = 0.55
"""White between number and title, in ems of the title."""


@dataclass(frozen=True, slots=True)
class _KeyAnswer:
    """An answer with its words."""

    exercise: Exercise
    number: Line
    title: tuple[Line, ...]
    note: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class _KeyRow:
    """A row of answers, all as wide; `above`, `grid` and `below` are its depths.

    `name` is the worksheet's, where the row is its first.
    """

    name: str
    tiles: tuple[_KeyAnswer, ...]
    above: float
    grid: float
    below: float

    def depth(self, design: Design) -> float:
        """The whole depth, with the white that follows."""
        return self.heading(design) + self.above + self.grid + self.below + 0.8 * design.page.gap

    def heading(self, design: Design) -> float:
        """What the name of the worksheet takes."""
        return 1.6 * design.faces.lesser_title.leading if self.name else 0.0


def key_pages(handout: Handout, design: Design) -> list[tuple[Item, ...]]:
    """The items of each page of the key. Raises Misfits where cells come out too small."""
    columns, width = _columns(handout, design)
    rows = [
        row for worksheet in handout.worksheets for row in _rows(worksheet, columns, width, design)
    ]
    items, y = _title(handout, design)
    pages: list[tuple[Item, ...]] = []
    for row in rows:
        if y + row.depth(design) - 0.8 * design.page.gap > design.depth and items:
            pages.append(tuple(items))
            items, y = [], 0.0
        items += _row_items(row, y, width, design)
        y += row.depth(design)
    return [*pages, tuple(items)]


def _title(handout: Handout, design: Design) -> tuple[list[Item], float]:
    """The title of the worksheets, and that these are the answers."""
    faces = design.faces
    lines, face = fit(handout.title, faces.title, design, MOST_TITLE_LINES, ("title",))
    y = cap(face)
    items: list[Item] = [*stacked(lines, face.leading, 0.0, y)]
    y += (len(lines) - 1) * face.leading + 1.2 * faces.prose.leading
    said = ", ".join(each for each in (design.words.worksheet.key, handout.class_) if each)
    items += one_line(said, faces.prose.face).at(0.0, y)
    return items, y + 1.2 * design.page.gap


def _columns(handout: Handout, design: Design) -> tuple[int, float]:
    """How many answers side by side, and the width of each. Raises Misfits."""
    smallest = design.page.cells.smallest_in_answers
    most = min(MOST_COLUMNS, max(len(worksheet.exercises) for worksheet in handout.worksheets))
    for columns in range(most, 0, -1):
        width = (design.measure - (columns - 1) * design.page.gap) / columns
        cells = [design.cell(each.puzzle, width, design.depth) for each in handout.exercises()]
        if min(cells) >= smallest:
            return columns, width
    message = (
        f"an answer gets cells of {min(cells):.1f} mm; the style wants {smallest:g} mm or more"
    )
    raise Misfits([Misfit(message, path=("key",))])


def _rows(worksheet: Worksheet, columns: int, width: float, design: Design) -> Iterator[_KeyRow]:
    every = worksheet.exercises
    for start in range(0, len(every), columns):
        name = "" if start else worksheet.name(design.words)
        yield _row(name, every[start : start + columns], width, design)


def _row(name: str, exercises: Sequence[Exercise], width: float, design: Design) -> _KeyRow:
    faces = design.faces
    tiles = tuple(_tile(each, width, design) for each in exercises)
    lines = max(len(tile.title) for tile in tiles)
    notes = max(len(tile.note) for tile in tiles)
    return _KeyRow(
        name,
        tiles,
        cap(faces.caption) + (lines - 1) * faces.caption.leading + 0.5 * faces.caption.size,
        max(design.board_height(each.puzzle, _wide(each, width, design)) for each in exercises),
        0.6 * faces.caption_note.size + notes * faces.caption_note.leading,
    )


def _wide(exercise: Exercise, width: float, design: Design) -> float:
    """The width of an answer's grid."""
    largest = design.page.cells.largest_in_answers
    return design.board_width(exercise.puzzle, width, design.depth, largest)


def _tile(exercise: Exercise, width: float, design: Design) -> _KeyAnswer:
    faces, puzzle, quotes = design.faces, exercise.puzzle, design.words.quote_marks
    number = one_line(str(exercise.number), faces.caption_number)
    beside = width - number.width - NUMBER_GAP * faces.caption.size
    most, where = MOST_TITLE_LINES, "in the key"
    title = fitted_title(puzzle, faces.caption, beside, design, tight=True, most=most, where=where)
    grade = design.words.grades.bands[exercise.grade.band.value]
    said = [grade, polish(puzzle.credits.constructor, quotes)]
    note = set_words(", ".join(each for each in said if each), faces.caption_note, width)
    return _KeyAnswer(exercise, number, title.lines, note)


def _row_items(row: _KeyRow, y: float, width: float, design: Design) -> Iterator[Item]:
    faces = design.faces
    if row.name:
        line = one_line(row.name, faces.lesser_title)
        yield from line.at(0.0, y + cap(faces.lesser_title))
    y += row.heading(design)
    for column, tile in enumerate(row.tiles):
        yield from _tile_items(tile, column * (width + design.page.gap), y, row, width, design)


def _tile_items(
    tile: _KeyAnswer, x: float, y: float, row: _KeyRow, width: float, design: Design
) -> Iterator[Item]:
    """An answer: words over it, grid, words under it."""
    faces, exercise = design.faces, tile.exercise
    first = y + cap(faces.caption)
    yield from tile.number.at(x, first)
    indent = tile.number.width + NUMBER_GAP * faces.caption.size
    yield from stacked(tile.title, faces.caption.leading, x + indent, first)
    top, wide = y + row.above, _wide(exercise, width, design)
    yield board_at(exercise.puzzle, x, top, wide, design, exercise.answer)
    note = top + design.board_height(exercise.puzzle, wide) + 0.6 * faces.caption_note.size
    yield from stacked(tile.note, faces.caption_note.leading, x, note + cap(faces.caption_note))
