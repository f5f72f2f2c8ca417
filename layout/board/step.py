"""A step of a walk as a picture: the board with its pencil marks, and what the step does."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Final

from layout.board.board import board_lines, finished, in_light, lay_out, shown_marks, tell_board
from layout.board.digits import digit, halo, label_feet, with_room
from layout.board.extent import Extent
from layout.marks.boxed import barred, boxed, numbered, ringed
from layout.marks.drawers import draw_marks, lined_cells
from layout.marks.lattice import Lattice
from layout.marks.numerals import ROOM, numerals
from layout.marks.pencil_marks import MarkPlaces, mark_places, pencil_marks, stroke_through
from layout.marks.reason import dead_house, reason
from layout.picture.items import Picture, Text
from layout.picture.order import Layer, Painted
from layout.style.board import BadgeLook, BoardStyle, MarkLooks, Weight
from verify.board import Board, Cell
from verify.marks import Mark, Tint
from verify.pencil import Mask, digits_of
from verify.puzzle import Puzzle
from verify.walk.report.replay import Scene

HEADS: Final = ("inward", "outward")
"""The shapes of a tint that stand at the edges of a cell, where marks are."""


def draw_step(puzzle: Puzzle, style: BoardStyle, width: float, scene: Scene) -> Picture:
    """The board, its rows and columns numbered, exactly `width` millimetres wide.

    Where clues stand outside there are no numbers, which could be taken for clues.

    What is placed stands large in a square, what is struck has a stroke through it, the cells
    that count are shaded and outlined. What follows from an "if" is numbered. Raises FontError
    and NoLook as `draw_board` does.
    """
    lattice = step_lattice(puzzle, style, width)
    marks, look = shown_marks(puzzle), style.steps
    looks = _beside_marks(marks, style.marks, look.badges)
    painted = in_light(list(draw_marks(marks, looks, lattice)), look.shapes, look.cages)
    painted += ((Layer.GRID, line) for line in board_lines(marks, style, lattice))
    drawer = _Drawer(puzzle, style, lattice, scene, label_feet(painted, lattice))
    labels = [item for layer, item in painted if layer is Layer.LABEL and isinstance(item, Text)]
    painted += drawer.frames(labels)
    lined = lined_cells(marks, style.marks) | drawer.barred_cells
    for cell, layer, text in drawer.texts():
        painted.append((layer, text))
        if cell in lined:
            painted.append((Layer.HALO, halo(text, 2 * style.digits.halo * lattice.side)))
    painted += drawer.strokes()
    words = f"{tell_board(puzzle)} {tell_scene(scene, puzzle)}"
    picture = finished(puzzle, painted, lattice, width, words)
    if lattice.outskirts.across or lattice.outskirts.down:
        return picture
    below = lattice.top + puzzle.board.rows * lattice.side + lattice.frame / 2
    return replace(picture, height=below, items=(*numerals(look, lattice), *picture.items))


def step_lattice(puzzle: Puzzle, style: BoardStyle, width: float) -> Lattice:
    """The lattice of a board whose picture is that wide, with room for the numbers."""
    lattice, board = lay_out(puzzle, style, width), puzzle.board
    if lattice.outskirts.across or lattice.outskirts.down:
        return lattice
    side = Extent(board.columns + ROOM, board.rows + ROOM, style.lines.frame).side(width)
    frame = style.lines.frame.at(side)
    corner = frame / 2 + ROOM * side
    return Lattice(board, side, corner, corner, frame)


def _beside_marks(marks: Sequence[Mark], looks: MarkLooks, part: float) -> MarkLooks:
    """The looks, badges and heads at edges smaller, so that pencil marks stand clear of them."""

    def smaller(look: BadgeLook) -> BadgeLook:
        height = look.label_height
        label = Weight(height.of_cell * part, height.least * part, height.most)
        return replace(look, size=look.size * part, widest=look.widest * part, label_height=label)

    heads = {mark.role for mark in marks if isinstance(mark, Tint) and mark.shape in HEADS}
    tints = {
        role: replace(look, size=look.size * part) if role in heads else look
        for role, look in looks.tints.items()
    }
    badges = {role: smaller(look) for role, look in looks.badges.items()}
    return replace(looks, badges=badges, tints=tints)


class _Drawer:
    """Draws what one scene adds to its board."""

    def __init__(
        self,
        puzzle: Puzzle,
        style: BoardStyle,
        lattice: Lattice,
        scene: Scene,
        feet: Mapping[Cell, float],
    ) -> None:
        self._puzzle, self._scene, self._lattice = puzzle, scene, lattice
        self._look = style.steps
        self._digits = with_room(style.digits, feet.values())
        self._places: MarkPlaces = mark_places(puzzle.symbols, style.steps, feet)
        self._placed = dict(scene.placed)
        self._follows = {
            each.cell: (number, each.digit) for number, each in enumerate(scene.chain) if number
        }
        self._struck = dict(scene.struck)

    @property
    def barred_cells(self) -> frozenset[Cell]:
        """The cell that nothing fits, where an "if" ends in one."""
        end = self._scene.dead_end
        return frozenset() if end is None or end.cell is None else frozenset((end.cell,))

    def frames(self, labels: list[Text]) -> Iterator[Painted]:
        """The ground of the reasons, squares around what is placed, and where an "if" ends."""
        end, look, lattice = self._scene.dead_end, self._look, self._lattice
        house = () if end is None or end.house is None else end.house.cells
        yield from reason([c for c in self._scene.reasons if c not in house], look, lattice)
        if house:
            yield from dead_house(house, look, lattice)
        yield from boxed(self._placed, labels, look, lattice)
        yield from ringed(self._follows, look, lattice)
        for cell in self.barred_cells:
            yield barred(cell, look, lattice)
        for cell, (number, _) in self._follows.items():
            yield numbered(number, cell, self._places.height, look, lattice)

    def texts(self) -> Iterator[tuple[Cell, Layer, Text]]:
        """The digit of each cell, or its pencil marks."""
        for cell in self._puzzle.board.cells:
            large = self._large(cell)
            if large is not None:
                yield cell, Layer.DIGIT, large
            else:
                yield from ((cell, Layer.PENCIL, text) for _, text in self._marks(cell))

    def strokes(self) -> Iterator[Painted]:
        """A stroke through each mark that is struck."""
        for cell, mask in self._scene.struck:
            if self._large(cell) is None:
                for value, text in self._marks(cell):
                    if mask >> value & 1:
                        yield Layer.STRIKE, stroke_through(text, self._look, self._lattice)

    def _marks(self, cell: Cell) -> Iterator[tuple[int, Text]]:
        strong = self._strong(cell)
        mask = self._scene.pencil[cell]
        return pencil_marks(self._places, cell, mask, strong, self._look, self._lattice)

    def _strong(self, cell: Cell) -> Mask:
        """The marks that the step speaks of and keeps."""
        about = dict(self._scene.about).get(cell, 0)
        return about & ~self._struck.get(cell, 0)

    def _large(self, cell: Cell) -> Text | None:
        """The digit that stands in a cell, is placed there or follows there."""
        look, given = self._digits, self._puzzle.givens[cell]
        if given:
            return self._digit(given, look.given, look.height, cell)
        if self._scene.written[cell]:
            return self._digit(self._scene.written[cell], look.filled, look.height, cell)
        if cell in self._placed:
            return self._digit(self._placed[cell], self._look.placed, look.height, cell)
        if cell in self._follows:
            height = min(self._look.follows, look.height)
            return self._digit(self._follows[cell][1], look.filled, height, cell)
        return None

    def _digit(self, value: int, name: str, height: float, cell: Cell) -> Text:
        symbol = self._puzzle.symbol(value)
        return digit(symbol, name, height, self._digits.widest, self._lattice, cell)


def tell_scene(scene: Scene, puzzle: Puzzle) -> str:
    """What a step does, for a reader who can't see it; the marks before it are left out."""
    board = puzzle.board
    told = [
        ("Cells that count", _names(scene.reasons, board)),
        ("Supposed and followed", _digits(((e.cell, 1 << e.digit) for e in scene.chain), puzzle)),
        ("Struck", _digits(scene.struck, puzzle)),
        ("Placed", _digits(((cell, 1 << value) for cell, value in scene.placed), puzzle)),
    ]
    return " ".join(f"{what}: {words}." for what, words in told if words)


def _names(cells: tuple[Cell, ...], board: Board) -> str:
    return " ".join(map(board.name, cells))


def _digits(masks: Iterable[tuple[Cell, Mask]], puzzle: Puzzle) -> str:
    return ", ".join(
        f"{' '.join(map(puzzle.symbol, digits_of(mask)))} in {puzzle.board.name(cell)}"
        for cell, mask in masks
    )
