"""The puzzles of a worksheet's page: heading, grid, and room for notes beside the grid or below."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from math import fsum
from typing import Final

from layout.board.board import draw_board
from layout.language.words import fill
from layout.pages.common.caption import Fitted, own_title, rounded_down, rule_lines
from layout.pages.common.design import Design, cap, heading, stacked, told_board
from layout.pages.common.misfit import Misfit, Misfits, gathered
from layout.pages.worksheet.handout import Exercise, Handout
from layout.picture.cannot import CannotDraw
from layout.picture.items import Group, Item, Stroke
from layout.picture.shapes import rectangle
from layout.type.lines import Line
from layout.type.paragraph import one_line
from layout.type.typography import polish
from verify.puzzle import Puzzle

NUMBER_GAP: Final = 0.6
"""White between number and title, in ems of the title."""

UNDER_HEADING: Final = 0.5
"""White between the words and the grid, in leadings of the words."""

BESIDE: Final = 24.0
"""The narrowest room for notes beside a grid, in millimetres; twice that on a page of its own."""

BELOW: Final = 22.0
"""The least depth of the room for notes under a grid that fills the width, in millimetres."""

NOTES_LINE: Final = 0.7 * 25.4 / 72
"""The width of the line around the room for notes, in millimetres."""

MOST_TITLE_LINES: Final = 2

COLUMNS: Final = {1: (1,), 2: (1,), 4: (2,), 6: (2, 3)}
"""In how many columns the puzzles of a page can stand, by how many there are."""


@dataclass(frozen=True, slots=True)
class _Area:
    """A rectangle of the page, in millimetres from its text area's upper left corner."""

    x: float
    y: float
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class _ExerciseWords:
    """What stands over a grid, set in lines."""

    exercise: Exercise
    number: Line
    title: Fitted
    credit: Line | None
    sentences: tuple[Line, ...]

    def depth(self, design: Design) -> float:
        """From the top of the heading to the grid."""
        rules = design.faces.lesser_rules
        heading = cap(design.faces.lesser_title) + self.title.drop
        return heading + (len(self.sentences) + UNDER_HEADING) * rules.leading


@dataclass(frozen=True, slots=True)
class _Block:
    """A puzzle in its place: the words at the top of `place`, the grid within `room`."""

    words: _ExerciseWords
    place: _Area
    room: _Area

    def cell(self, design: Design) -> float:
        """The side of a cell if the grid took all the room."""
        return design.cell(self.words.exercise.puzzle, self.room.width, self.room.height)


def blocks(
    handout: Handout,
    page: Sequence[Exercise],
    own: Sequence[Sequence[str]],
    top: float,
    design: Design,
) -> tuple[Item, ...]:
    """The puzzles of a page under its head, in as many columns as give the largest cells.

    Raises Misfits for long words and small cells.
    """
    said = list(zip(page, own, strict=True))
    most = _Area(0.0, top, design.measure, design.depth - top)
    tried: list[list[_Block]] = []
    fault = Misfits(())
    for columns in COLUMNS[handout.per_page]:
        try:
            tried.append(_arranged(said, columns, handout.per_page // columns, most, design))
        except Misfits as misfits:
            fault = misfits
    if not tried:
        raise fault
    best = max(tried, key=lambda every: min(each.cell(design) for each in every))
    drawn = gathered(partial(_drawn, each, handout, design) for each in best)
    return tuple(item for each in drawn for item in each)


def _arranged(
    said: Sequence[tuple[Exercise, Sequence[str]]],
    columns: int,
    rows: int,
    most: _Area,
    design: Design,
) -> list[_Block]:
    """Blocks row by row; the grids have the same room, and those of a row hang side by side."""
    gap = design.page.gap
    width = (most.width - (columns - 1) * gap) / columns
    words = gathered(partial(_words, each, own, width, design) for each, own in said)
    depths = [each.depth(design) for each in words]
    above = [max(depths[row * columns :][:columns] or depths) for row in range(rows)]
    room = (most.height - (rows - 1) * gap - fsum(above)) / rows
    found: list[_Block] = []
    for index, each in enumerate(words):
        row, column = divmod(index, columns)
        x, y = column * (width + gap), most.y + fsum(above[:row]) + row * (room + gap)
        place = _Area(x, y, width, above[row] + room)
        found.append(_Block(each, place, _Area(x, y + above[row], width, max(room, 1.0))))
    return found


def _words(exercise: Exercise, own: Sequence[str], width: float, design: Design) -> _ExerciseWords:
    """Number, title, constructor where there is room for the name, and sentences."""
    faces, puzzle = design.faces, exercise.puzzle
    number = one_line(str(exercise.number), faces.lesser_number)
    beside = width - number.width - NUMBER_GAP * faces.lesser_title.size
    most = MOST_TITLE_LINES
    title = own_title(puzzle, faces.lesser_title, beside, design, most=most, where="on the page")
    constructor = polish(puzzle.credits.constructor, design.words.quote_marks)
    name = one_line(constructor, faces.lesser_credit)
    taken = title.lines[-1].width if title.lines else 0.0
    room = beside - taken - 2 * faces.lesser_title.size
    credit = name if name.spans and name.width <= room else None
    sentences = rule_lines(own, faces.lesser_rules, width, design)
    return _ExerciseWords(exercise, number, title, credit, sentences)


def _drawn(block: _Block, handout: Handout, design: Design) -> tuple[Item, ...]:
    """A puzzle with its words and the room for notes. Raises Misfits where cells are too small."""
    puzzle = block.words.exercise.puzzle
    grid = _grid_place(puzzle, block.room, handout.per_page, design)
    _check_cell(puzzle, grid.width, handout.per_page, design)
    return (
        *_heading(block.words, block.place, design),
        _board(puzzle, grid, handout.helpers, design),
        *_notes(grid, block.room, design),
    )


def _heading(words: _ExerciseWords, place: _Area, design: Design) -> Iterator[Item]:
    faces = design.faces
    y = place.y + cap(faces.lesser_title)
    indent = words.number.width + NUMBER_GAP * faces.lesser_title.size
    title = stacked(words.title.lines, words.title.face.leading, place.x + indent, y)
    yield heading((*words.number.at(place.x, y), *title))
    y += words.title.drop
    if words.credit is not None:
        yield from words.credit.at(place.x + place.width - words.credit.width, y)
    rules = faces.lesser_rules
    yield from stacked(words.sentences, rules.leading, place.x, y + rules.leading)


def _grid_place(puzzle: Puzzle, room: _Area, per_page: int, design: Design) -> _Area:
    """Where the grid lies: large, but with room for notes beside it or, alone on a page, below."""
    largest, gap = design.page.cells.largest, design.page.gap
    kept, below = room.width, 0.0
    if per_page <= 2:
        kept -= (3 - per_page) * BESIDE + gap
    if per_page == 1:
        below = design.board_width(puzzle, room.width, room.height - BELOW - gap, largest)
    width = max(below, design.board_width(puzzle, kept, room.height, largest))
    x = room.x + (room.width - width) / 2 if width > kept else room.x
    return _Area(x, room.y, width, design.board_height(puzzle, width))


def _check_cell(puzzle: Puzzle, width: float, per_page: int, design: Design) -> None:
    """Raises Misfits where cells are under the smallest that the style wants."""
    cell, smallest = design.cell(puzzle, width, float("inf")), design.page.cells.smallest
    if cell < smallest:
        message = (
            f"a grid of {puzzle.board.columns} columns gets cells of {rounded_down(cell)} mm, "
            f"{per_page} to a page; the style wants {smallest:g} mm or more"
        )
        raise Misfits([Misfit(message, puzzle=puzzle, field="size")])


def _board(puzzle: Puzzle, place: _Area, helpers: bool, design: Design) -> Group:
    """The grid. Raises Misfits where helper digits have no room in its cells."""
    try:
        picture = draw_board(puzzle, design.board, place.width, helpers=helpers)
    except CannotDraw as fault:
        message = f"{puzzle.file}: {fault}"
        raise Misfits([Misfit(message, path=("helpers",))]) from None
    told = partial(told_board, puzzle, design.words)
    return Group(place.x, place.y, picture.items, picture.title, told)


def _notes(grid: _Area, room: _Area, design: Design) -> Iterator[Item]:
    """A frame for notes, beside the grid or under it; none where there is too little room."""
    gap = design.page.gap
    left, below = grid.x + grid.width + gap, grid.y + grid.height + gap
    beside = _Area(left, grid.y, room.x + room.width - left, grid.height)
    under = _Area(room.x, below, room.width, room.y + room.height - below)
    if grid.x > room.x:
        yield from _frame(under, design)
    elif beside.width >= BESIDE:
        yield from _frame(beside, design)


def _frame(place: _Area, design: Design) -> Iterator[Item]:
    """A thin frame, named in its corner where the words have room."""
    half = NOTES_LINE / 2
    box = rectangle(place.x + half, place.y + half, place.width - 2 * half, place.height - 2 * half)
    yield Stroke((box,), NOTES_LINE)
    face = design.faces.lesser_note
    words = one_line(fill(design.words.worksheet.notes), face)
    if words.width + face.size <= place.width:
        yield from words.at(place.x + 0.5 * face.size, place.y + 0.5 * face.size + cap(face))
