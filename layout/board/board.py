"""A puzzle's board as a picture: its grid, its marks, its givens, and its answer if wanted."""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Final, TypeVar

from layout.board.digits import digit, halo, label_feet, with_room
from layout.board.extent import Extent
from layout.board.grid import grid_lines
from layout.board.helpers import helper_digits
from layout.marks.drawers import draw_marks, lined_cells, tell_marks
from layout.marks.lattice import Lattice
from layout.marks.outskirts import Outskirts, outskirts
from layout.picture.fade import faded
from layout.picture.items import Item, Picture, Text
from layout.picture.order import SHAPES, Layer, Painted, in_order, shapes_in
from layout.picture.shape_symbols import SHAPES as SHAPE_SYMBOLS
from layout.picture.shape_symbols import are_shapes
from layout.style.board import (
    AreaLook,
    BadgeLook,
    BoardStyle,
    CageLook,
    DigitLook,
    MarkLooks,
    Weight,
)
from verify.board import Board, Cell
from verify.marks import Area, Badge, Border, Cage, Clue, Mark
from verify.pencil import Grid
from verify.puzzle import Puzzle

SHAPE_SIZE: Final = 1.28
"""How large a drawn shape is that stands for a digit, by the height of a figure."""


LEAST_LABEL: Final = 1.23
"""The least height of a label's figures, in millimetres: that of type of 5 points."""

MOST_LABEL: Final = 0.26
"""The share of a cell that a label's figures may take to be so high."""

InCell = TypeVar("InCell", CageLook, AreaLook, BadgeLook)


def draw_board(
    puzzle: Puzzle,
    style: BoardStyle,
    width: float,
    *,
    answer: Grid | None = None,
    helpers: bool = False,
    labels: bool = False,
) -> Picture:
    """The board exactly `width` millimetres wide, over the outer edges of its frame, or over
    the room for the clues outside where it has any.

    With an `answer` the open cells are filled in, told from the givens by their font, and
    the shapes are kept light, without labels in corners unless `labels` are wanted. With
    `helpers` every open cell has all digits small along its edges. Raises FontError for a
    symbol that the fonts can't show, NoLook for a mark that the style leaves out and
    NoRoomForHelpers.
    """
    marks = shown_marks(puzzle)
    lattice = _lattice(puzzle.board, marks, style, width)
    painted = _painted(puzzle, marks, style, lattice, answer, helpers=helpers, labels=labels)
    return finished(puzzle, painted, lattice, width, tell_board(puzzle, answer))


def board_items(
    puzzle: Puzzle,
    style: BoardStyle,
    width: float,
    answer: Grid | None = None,
    *,
    labels: bool = False,
) -> tuple[Item, ...]:
    """What `draw_board` draws, for who tells it in words of their own."""
    marks = shown_marks(puzzle)
    lattice = _lattice(puzzle.board, marks, style, width)
    return in_order(_painted(puzzle, marks, style, lattice, answer, helpers=False, labels=labels))


def _painted(
    puzzle: Puzzle,
    marks: Sequence[Mark],
    style: BoardStyle,
    lattice: Lattice,
    answer: Grid | None,
    *,
    helpers: bool,
    labels: bool,
) -> list[Painted]:
    """All that is painted of a board, each thing with its layer."""
    labelled = labels or not answer
    marks = marks if labelled else _without_labels(marks)
    looks = with_readable_labels(style.marks, lattice.side) if labelled else style.marks
    painted = shapes_in(style.ink, draw_marks(marks, looks, lattice))
    if answer:
        painted = in_light(painted, style.answer.shapes, style.answer.cages)
    painted += ((Layer.GRID, line) for line in board_lines(marks, style, lattice))
    if helpers:
        painted += list(helper_digits(puzzle, style, lattice, painted))
    look = with_room(style.digits, label_feet(painted, lattice).values())
    lined = lined_cells(marks, style.marks)
    if are_shapes(puzzle.symbols):
        painted += _shapes(puzzle, look, lattice, answer, lined)
        return painted
    for cell, text in _digits(puzzle, look, lattice, answer):
        painted.append((Layer.DIGIT, text))
        if cell in lined:
            painted.append((Layer.HALO, halo(text, 2 * look.halo * lattice.side)))
    return painted


def with_readable_labels(looks: MarkLooks, side: float) -> MarkLooks:
    """The looks for cells of a side, labels in them no smaller than type of 5 points.

    Where cells are too small for that, labels keep their part of them.
    """
    least = min(LEAST_LABEL, MOST_LABEL * side)

    def all_of(labelled: Mapping[str, InCell]) -> dict[str, InCell]:
        return {
            role: replace(look, label_height=_no_lower(look.label_height, least))
            for role, look in labelled.items()
        }

    return replace(
        looks, cages=all_of(looks.cages), areas=all_of(looks.areas), badges=all_of(looks.badges)
    )


def _no_lower(height: Weight, least: float) -> Weight:
    return replace(height, least=max(height.least, least))


def board_lines(marks: Sequence[Mark], style: BoardStyle, lattice: Lattice) -> tuple[Item, ...]:
    """The lines of the grid, heavy around the blocks that are borders."""
    borders = tuple(mark.cells for mark in marks if isinstance(mark, Border))
    return grid_lines(lattice, borders, style.lines)


def finished(
    puzzle: Puzzle, painted: Sequence[Painted], lattice: Lattice, width: float, words: str
) -> Picture:
    """The picture of a board that is painted, and told in words."""
    height = puzzle.board.rows * lattice.side + 2 * lattice.top
    return Picture(width, height, in_order(painted), puzzle.title, words)


def lay_out(puzzle: Puzzle, style: BoardStyle, width: float) -> Lattice:
    """The lattice of a board whose picture is that wide, the grid in its middle."""
    return _lattice(puzzle.board, shown_marks(puzzle), style, width)


def _lattice(board: Board, marks: Iterable[Mark], style: BoardStyle, width: float) -> Lattice:
    """The lattice of a board with these marks."""
    outside = outskirts(marks, style.marks.clues, board)
    side = _extent(board, outside, style).side(width)
    frame = style.lines.frame.at(side)
    left, top = frame / 2 + outside.across * side, frame / 2 + outside.down * side
    return Lattice(board, side, left, top, frame, outside)


def extent_of(puzzle: Puzzle, style: BoardStyle) -> Extent:
    """How many cells wide and deep the picture of a puzzle's board is."""
    outside = outskirts(puzzle.marks(), style.marks.clues, puzzle.board)
    return _extent(puzzle.board, outside, style)


def _extent(board: Board, outside: Outskirts, style: BoardStyle) -> Extent:
    """The board, and the room outside it on either side."""
    across, down = board.columns + 2 * outside.across, board.rows + 2 * outside.down
    return Extent(across, down, style.lines.frame)


def shown_marks(puzzle: Puzzle) -> tuple[Mark, ...]:
    """The marks as they are drawn and told: digits in labels as the puzzle's symbols."""
    return spelled(puzzle.marks(), puzzle)


def spelled(marks: Iterable[Mark], puzzle: Puzzle) -> tuple[Mark, ...]:
    """Marks with the digits in their labels as the puzzle's symbols."""

    def of(mark: Mark) -> Mark:
        if not isinstance(mark, Badge | Clue) or not mark.digits:
            return mark
        symbols = [puzzle.symbol(digit) for digit in mark.digits]
        # Outside, gaps within a clue would look like those between two clues.
        close = isinstance(mark, Clue) and all(len(symbol) == 1 for symbol in symbols)
        return replace(mark, label=("" if close else " ").join(symbols), digits=())

    return tuple(map(of, marks))


def _without_labels(marks: Sequence[Mark]) -> tuple[Mark, ...]:
    """Marks as an answer shows them: labels in corners would leave its digits less room."""
    return tuple(
        replace(mark, label="") if isinstance(mark, Cage | Area) else mark for mark in marks
    )


def in_light(
    painted: Iterable[Painted], shapes: float, cages: float, signs: float = 1.0
) -> list[Painted]:
    """What is painted of marks, so much of the ink of its shapes, cages and signs left.

    Letters keep theirs.
    """
    kept = {**dict.fromkeys(SHAPES, shapes), Layer.CAGE: cages, Layer.SIGN: signs}

    def light(layer: Layer, item: Item) -> Item:
        part = kept.get(layer, 1.0)
        return item if part == 1.0 or isinstance(item, Text) else faded(item, part)

    return [(layer, light(layer, item)) for layer, item in painted]


def _digits(
    puzzle: Puzzle, look: DigitLook, lattice: Lattice, answer: Grid | None
) -> Iterator[tuple[Cell, Text]]:
    """Givens, and in the open cells the answer's digits."""
    for cell, given in enumerate(puzzle.givens):
        if given:
            yield cell, _digit(puzzle, given, look.given, look, lattice, cell)
        elif answer and answer[cell]:
            yield cell, _digit(puzzle, answer[cell], look.filled, look, lattice, cell)


def _shapes(
    puzzle: Puzzle,
    look: DigitLook,
    lattice: Lattice,
    answer: Grid | None,
    lined: Collection[Cell],
) -> Iterator[Painted]:
    """Drawn shapes in the place of digits: givens solid, the answer's in outline."""
    size = SHAPE_SIZE * look.height * lattice.side
    for cell, given in enumerate(puzzle.givens):
        filled = answer[cell] if answer else 0
        if given or filled:
            shape = SHAPE_SYMBOLS[puzzle.symbol(given or filled)]
            draw = shape.solid if given else shape.open
            yield from ((Layer.DIGIT, item) for item in draw(lattice.centre(cell), size))
            if cell in lined:
                edge = 2 * look.halo * lattice.side
                yield Layer.HALO, shape.halo(lattice.centre(cell), size, edge)


def _digit(
    puzzle: Puzzle, value: int, name: str, look: DigitLook, lattice: Lattice, cell: Cell
) -> Text:
    return digit(puzzle.symbol(value), name, look.height, look.widest, lattice, cell)


def tell_board(puzzle: Puzzle, answer: Grid | None = None) -> str:
    """The board in words, for a reader who can't see it."""
    board = puzzle.board
    parts = [f"A grid of {board.rows} rows and {board.columns} columns"]
    if board.boxes:
        parts[0] += f" in boxes of {board.boxes[0]} by {board.boxes[1]}"
    parts += _tell_answer(puzzle, answer) if answer else _tell_givens(puzzle)
    parts += (f"{words[:1].upper()}{words[1:]}" for words in tell_marks(shown_marks(puzzle), board))
    return ". ".join(parts) + "."


def _tell_givens(puzzle: Puzzle) -> Iterator[str]:
    """The givens of each row that has any."""
    board = puzzle.board
    if not any(puzzle.givens):
        yield "No givens"
    for number, cells in enumerate(board.row_lines(), start=1):
        given = [
            f"{puzzle.symbol(puzzle.givens[cell])} in column {column}"
            for column, cell in enumerate(cells, start=1)
            if puzzle.givens[cell]
        ]
        if given:
            yield f"Row {number}: {', '.join(given)}"


def _tell_answer(puzzle: Puzzle, answer: Grid) -> Iterator[str]:
    """Every row filled in."""
    for number, cells in enumerate(puzzle.board.row_lines(), start=1):
        yield f"Row {number} filled in: {' '.join(puzzle.symbol(answer[cell]) for cell in cells)}"
