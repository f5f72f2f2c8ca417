"""The key of a handout: the answers of every worksheet, small, under its name; who has which.

Each page says in white on black that it is the key, so that it is not handed out with the rest.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import chain
from math import fsum
from typing import Final

from layout.pages.common.caption import own_title
from layout.pages.common.design import Design, board_at, cap, heading, stacked
from layout.pages.common.misfit import Misfit, Misfits
from layout.pages.worksheet.handout import Exercise, Handout, Worksheet
from layout.pages.worksheet.pupil_list import pupil_list
from layout.picture.items import Fill, Item
from layout.picture.shapes import rectangle
from layout.type.fitting import shrunk_line
from layout.type.lines import Line
from layout.type.paragraph import one_line, set_words
from layout.type.typography import polish

MOST_COLUMNS: Final = 6
MOST_TITLE_LINES: Final = 2
NUMBER_GAP: Final = 0.55
"""White between number and title, in ems of the title."""

BAND_PADDING: Final = 0.55
"""Black around the words of the band, in capitals of its face."""

WHITE: Final = 1.0

EPSILON: Final = 1e-6


@dataclass(frozen=True, slots=True)
class _KeyAnswer:
    """An answer with its words; `name` is its worksheet's where it is the first of that."""

    name: str
    exercise: Exercise
    number: Line
    title: tuple[Line, ...]
    note: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class _KeyRow:
    """Answers side by side, all as wide: how deep names, titles, grids and notes are."""

    tiles: tuple[_KeyAnswer, ...]
    names: float
    above: float
    grid: float
    below: float

    @property
    def depth(self) -> float:
        """From the names to the notes."""
        return self.names + self.above + self.grid + self.below


@dataclass(frozen=True, slots=True)
class _KeySetting:
    """All rows of the key with so many columns, and which of them stand on each page."""

    width: float
    pages: tuple[tuple[_KeyRow, ...], ...]


def key_pages(handout: Handout, design: Design) -> list[tuple[Item, ...]]:
    """The items of each page of the key.

    As few pages as can be; on these, the answers of a worksheet together, and the largest that can
    be. Raises Misfits where cells come out too small, or a name too long.
    """
    every = [_pages_of(each, handout, design) for each in _settings(handout, design)]
    return min(every, key=len)


def _pages_of(setting: _KeySetting, handout: Handout, design: Design) -> list[tuple[Item, ...]]:
    """The items of each page; under the answers, who has which sheet."""
    pages = [list(_page_items(rows, setting.width, handout, design)) for rows in setting.pages]
    used = _band_depth(design) + _rows_depth(setting.pages[-1], design) + design.page.gap
    for part in pupil_list(handout, design, used, _band_depth(design)):
        if part.starts_page:
            pages.append([*_band(handout, design)])
        pages[-1] += part.items
    return [tuple(page) for page in pages]


def _settings(handout: Handout, design: Design) -> list[_KeySetting]:
    """The key in so many columns as cells are large enough for, the largest answers first; before
    all others those in which the answers of a worksheet stay together. Raises Misfits.
    """
    smallest = design.page.cells.smallest_in_answers
    most = min(MOST_COLUMNS, sum(len(each.exercises) for each in handout.worksheets))
    found: list[_KeySetting] = []
    apart: list[_KeySetting] = []
    for columns in range(1, most + 1):
        width = (design.measure - (columns - 1) * design.page.gap) / columns
        cells = [design.cell(each.puzzle, width, design.depth) for each in handout.exercises()]
        if min(cells) < smallest:
            break
        try:
            tiles = [_tiles(each, width, design) for each in handout.worksheets]
        except Misfits:
            if not found:
                raise
            break
        for rows, settings in (
            (_kept_together(tiles, columns), found),
            (_run_on(tiles, columns), apart),
        ):
            every = [_row(row, design, width) for row in rows]
            settings.append(_KeySetting(width, tuple(_paged(every, design))))
    if not found:
        message = (
            f"an answer gets cells of {min(cells):.1f} mm; the style wants {smallest:g} mm or more"
        )
        raise Misfits([Misfit(message, path=("key",))])
    return found + apart


def _kept_together(
    worksheets: Sequence[Sequence[_KeyAnswer]], columns: int
) -> Iterator[Sequence[_KeyAnswer]]:
    """The answers of each row: those of a worksheet begin a row, or have room beside the last."""
    row: list[_KeyAnswer] = []
    for tiles in worksheets:
        if row and len(row) + len(tiles) > columns:
            yield row
            row = []
        row += tiles
        while len(row) > columns:
            yield row[:columns]
            row = row[columns:]
    if row:
        yield row


def _run_on(
    worksheets: Sequence[Sequence[_KeyAnswer]], columns: int
) -> Iterator[Sequence[_KeyAnswer]]:
    """The answers of each row where they follow one another without a gap."""
    every = list(chain.from_iterable(worksheets))
    for start in range(0, len(every), columns):
        yield every[start : start + columns]


def _tiles(worksheet: Worksheet, width: float, design: Design) -> list[_KeyAnswer]:
    name = worksheet.key_name(design.words)
    return [
        _tile(each, "" if index else name, width, design)
        for index, each in enumerate(worksheet.exercises)
    ]


def _tile(exercise: Exercise, name: str, width: float, design: Design) -> _KeyAnswer:
    faces, puzzle, quotes = design.faces, exercise.puzzle, design.words.quote_marks
    number = one_line(str(exercise.number), faces.caption_number)
    beside = width - number.width - NUMBER_GAP * faces.caption.size
    most, where = MOST_TITLE_LINES, "in the key"
    title = own_title(puzzle, faces.caption, beside, design, most=most, where=where)
    grade = design.words.grades.bands[exercise.grade.band.value]
    said = [grade, polish(puzzle.credits.constructor, quotes)]
    note = set_words(", ".join(each for each in said if each), faces.caption_note, width)
    return _KeyAnswer(name, exercise, number, title.lines, note)


def _row(tiles: Sequence[_KeyAnswer], design: Design, width: float) -> _KeyRow:
    faces = design.faces
    names = max(len(_name_lines(tile, width, design)) for tile in tiles)
    lines = max(1, *(len(tile.title) for tile in tiles))
    notes = max(len(tile.note) for tile in tiles)
    return _KeyRow(
        tuple(tiles),
        names * faces.lesser_number.leading + (0.35 * faces.lesser_number.size if names else 0.0),
        cap(faces.caption) + (lines - 1) * faces.caption.leading + 0.5 * faces.caption.size,
        max(_grid_depth(tile.exercise, width, design) for tile in tiles),
        0.6 * faces.caption_note.size + notes * faces.caption_note.leading,
    )


def _name_lines(tile: _KeyAnswer, width: float, design: Design) -> tuple[Line, ...]:
    return set_words(tile.name, design.faces.lesser_number, width) if tile.name else ()


def _wide(exercise: Exercise, width: float, design: Design) -> float:
    """The width of an answer's grid."""
    largest = design.page.cells.largest_in_answers
    return design.board_width(exercise.puzzle, width, design.depth, largest)


def _grid_depth(exercise: Exercise, width: float, design: Design) -> float:
    return design.board_height(exercise.puzzle, _wide(exercise, width, design))


def _paged(rows: Sequence[_KeyRow], design: Design) -> Iterator[tuple[_KeyRow, ...]]:
    """The rows of each page."""
    room = design.depth - _band_depth(design)
    page: list[_KeyRow] = []
    for row in rows:
        if page and _rows_depth([*page, row], design) > room:
            yield tuple(page)
            page = []
        page.append(row)
    yield tuple(page)


def _rows_depth(rows: Sequence[_KeyRow], design: Design) -> float:
    return fsum(row.depth for row in rows) + 0.8 * design.page.gap * (len(rows) - 1)


def _band_depth(design: Design) -> float:
    """How deep the band is, with the white under it."""
    face = design.faces.title
    return (1 + 2 * BAND_PADDING) * cap(face) + design.page.gap


def _band(handout: Handout, design: Design) -> Iterator[Item]:
    """That this is the key, white on black, and of what. Raises Misfits for a long title."""
    words, faces = design.words, design.faces
    high, pad = (1 + 2 * BAND_PADDING) * cap(faces.title), BAND_PADDING * cap(faces.title)
    yield Fill((rectangle(0.0, 0.0, design.measure, high),))
    key = one_line(words.worksheet.key, faces.title)
    baseline = pad + cap(faces.title)
    yield heading(key.at(1.5 * pad, baseline, WHITE), "H1")
    said = words.lists.comma.join(each for each in (handout.title, handout.class_) if each)
    room = design.measure - key.width - 4.5 * pad
    text, face = polish(said, words.quote_marks), faces.prose.face
    named = shrunk_line(text, face, room, design.page.least)
    if named.width > room + EPSILON:
        raise Misfits([Misfit("the title is too long for its place in the key", ("title",))])
    yield from named.at(design.measure - 1.5 * pad - named.width, baseline, WHITE)


def _page_items(
    rows: Sequence[_KeyRow], width: float, handout: Handout, design: Design
) -> Iterator[Item]:
    yield from _band(handout, design)
    y = _band_depth(design)
    for row in rows:
        for column, tile in enumerate(row.tiles):
            yield from _tile_items(tile, column * (width + design.page.gap), y, row, width, design)
        y += row.depth + 0.8 * design.page.gap


def _tile_items(
    tile: _KeyAnswer, x: float, y: float, row: _KeyRow, width: float, design: Design
) -> Iterator[Item]:
    """An answer: its worksheet's name, words over it, grid, words under it."""
    faces, exercise = design.faces, tile.exercise
    names = _name_lines(tile, width, design)
    yield from stacked(names, faces.lesser_number.leading, x, y + cap(faces.lesser_number))
    y += row.names
    first = y + cap(faces.caption)
    indent = tile.number.width + NUMBER_GAP * faces.caption.size
    title = stacked(tile.title, faces.caption.leading, x + indent, first)
    yield heading((*tile.number.at(x, first), *title))
    top, wide = y + row.above, _wide(exercise, width, design)
    yield board_at(exercise.puzzle, x, top, wide, design, exercise.answer)
    note = top + design.board_height(exercise.puzzle, wide) + 0.6 * faces.caption_note.size
    yield from stacked(tile.note, faces.caption_note.leading, x, note + cap(faces.caption_note))
