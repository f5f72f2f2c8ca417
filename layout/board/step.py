"""A step of a walk as a picture: what pushes, what follows, and the mark that speaks."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Final, TypeVar

from layout.board.board import (
    board_lines,
    extent_of,
    finished,
    in_light,
    lay_out,
    shown_marks,
    spelled,
    tell_board,
)
from layout.board.digits import LABEL_GAP, digit, halo, label_feet
from layout.board.extent import Extent
from layout.marks.boxed import barred, boxed, numbered, ringed, ringed_loosely
from layout.marks.drawers import draw_marks, lined_cells
from layout.marks.label import LOWEST_FOOT
from layout.marks.lattice import Lattice
from layout.marks.numerals import ROOM, numerals
from layout.marks.pencil_marks import least_side, mark_places, pencil_marks, stroke_through
from layout.marks.reason import dead_house, reason
from layout.marks.told import TWO_ROWS, TellingDigit, counted, draw_told, is_on_one_row, known
from layout.picture.items import Item, Picture, Text
from layout.picture.order import Layer, Painted, shapes_in
from layout.style.board import (
    AreaLook,
    BadgeLook,
    BoardStyle,
    CageLook,
    ClueLook,
    MarkLooks,
    Weight,
)
from verify.board import Board, Cell
from verify.marks import Area, Cage, Mark, Tint
from verify.pencil import Mask, digits_of, every_digit, is_single
from verify.puzzle import Puzzle
from verify.walk.facts.step import Link
from verify.walk.report.replay import Scene

Labelled = TypeVar("Labelled", CageLook, AreaLook, BadgeLook, ClueLook)

HEADS: Final = ("inward", "outward")
"""The shapes of a tint that stand at the edges of a cell, where marks are."""

MOST_BOXED: Final = 16
"""Digits that stand in squares; where more are placed they are told by their font alone."""

UNDER_LABELS: Final = 0.44
"""The most that digits are high where labels stand in corners, as a share of the cell."""

IN_SQUARE: Final = 0.04
"""White between a square and what is told in it, both sides together, as a share of the cell."""

FOOT: Final = 0.05
"""White between what is told under a label and the foot of the cell, as a share of the cell."""

UNDER_LABEL: Final = 0.03
"""White between a label in a corner and what is told, as a share of the cell."""


def draw_step(
    puzzle: Puzzle, style: BoardStyle, width: float, scene: Scene, *, every_mark: bool = False
) -> Picture:
    """The board, its rows and columns numbered, exactly `width` millimetres wide.

    Where clues stand outside there are no numbers, which could be taken for clues.

    What pushes stands in a ring, what follows in a square: a digit, or in small what is known of
    the cell. The mark that speaks has all of its ink. With `every_mark` all pencil marks stand
    in their cells, those that go with a stroke. What follows from an "if" is numbered. Raises
    FontError and NoLook as `draw_board` does.
    """
    lattice, look = step_lattice(puzzle, style, width), style.steps
    marks, speaking = shown_marks(puzzle), spoken_marks(puzzle, scene)
    looks = _legible(style.marks, look.height.least)
    silent = [mark for mark in marks if mark not in speaking]
    # Among others the number of the mark at work is told by a heavy font.
    heavy = _legible(style.marks, look.height.least, look.strong if silent else "")
    if every_mark:
        looks, heavy = (_beside_marks(marks, each, look.badges) for each in (looks, heavy))
    painted = in_light(draw_marks(silent, looks, lattice), look.shapes, look.cages, look.cages)
    painted = shapes_in(style.ink, [*painted, *draw_marks(speaking, heavy, lattice)])
    drawer = _Drawer(puzzle, style, lattice, scene, label_feet(painted, lattice))
    labels = [item for layer, item in painted if layer is Layer.LABEL and isinstance(item, Text)]
    painted += ((Layer.GRID, line) for line in board_lines(marks, style, lattice))
    painted += drawer.frames(labels, every_mark=every_mark)
    lined = lined_cells(marks, style.marks) | drawer.barred_cells
    for cell, layer, item in drawer.contents(every_mark=every_mark):
        painted.append((layer, item))
        if cell in lined and isinstance(item, Text):
            painted.append((Layer.HALO, halo(item, 2 * style.digits.halo * lattice.side)))
    words = f"{tell_board(puzzle)} {tell_scene(scene, puzzle)}"
    picture = finished(puzzle, painted, lattice, width, words)
    if lattice.outskirts.across or lattice.outskirts.down:
        return picture
    below = lattice.top + puzzle.board.rows * lattice.side + lattice.frame / 2
    return replace(picture, height=below, items=(*numerals(look, lattice), *picture.items))


def draw_clean(puzzle: Puzzle, style: BoardStyle, width: float) -> Picture:
    """The puzzle before any step, as large as in steps, each mark with all of its ink."""
    marks = tuple(
        Link(use.rule.name, constraint) for use in puzzle.uses for constraint in use.constraints
    )
    pencil = (0,) * len(puzzle.givens)
    return draw_step(puzzle, style, width, Scene(pencil, puzzle.givens, speaking=marks))


def spoken_marks(puzzle: Puzzle, scene: Scene) -> tuple[Mark, ...]:
    """What is drawn for the marks at work; of a shape that forks, the branches at work alone."""
    found: list[Mark] = []
    for use in puzzle.uses:
        at_work = tuple(
            link.constraint
            for link in scene.speaking
            if link.rule == use.rule.name and link.constraint in use.constraints
        )
        if at_work:
            found += use.rule.draw(puzzle.board, at_work)
    return spelled(found, puzzle)


def step_lattice(puzzle: Puzzle, style: BoardStyle, width: float) -> Lattice:
    """The lattice of a board whose picture is that wide, with room for the numbers."""
    lattice = lay_out(puzzle, style, width)
    if lattice.outskirts.across or lattice.outskirts.down:
        return lattice
    side = step_extent(puzzle, style).side(width)
    frame = style.lines.frame.at(side)
    corner = frame / 2 + ROOM * side
    return Lattice(puzzle.board, side, corner, corner, frame)


def step_extent(puzzle: Puzzle, style: BoardStyle) -> Extent:
    """How many cells wide and deep the picture of a step is: with its numbers, or its clues."""
    board, bare = puzzle.board, extent_of(puzzle, style)
    if (bare.across, bare.down) != (board.columns, board.rows):
        return bare
    return Extent(board.columns + ROOM, board.rows + ROOM, style.lines.frame)


def least_step_side(
    puzzle: Puzzle, style: BoardStyle, *, every_mark: bool, told: bool = True
) -> float:
    """The least side of a cell in which all that steps say is as high as the style wants it.

    Under a label in a corner there is room for two rows of what is `told`.
    """
    look = style.steps
    sides = [least_side(puzzle.symbols, look)] if every_mark else [0.0]
    for mark in shown_marks(puzzle):
        if isinstance(mark, Cage | Area) and mark.label:
            looks = style.marks.cages if isinstance(mark, Cage) else style.marks.areas
            corner, label = looks[mark.role].label_corner, look.height.least
            sides.append(label / (LOWEST_FOOT - corner))
            if told:
                free = 1 - FOOT - UNDER_LABEL - corner
                sides.append((TWO_ROWS * look.told.least + label) / free)
    return max(sides)


def _legible(looks: MarkLooks, least: float, label: str = "") -> MarkLooks:
    """The looks, with labels that grow with their cells and are never lower than that.

    With a `label` they are set in that font.
    """

    def all_of(labelled: Mapping[str, Labelled]) -> dict[str, Labelled]:
        return {
            role: replace(
                look,
                label_height=Weight(look.label_height.of_cell, least),
                label=label or look.label,
            )
            for role, look in labelled.items()
        }

    return replace(
        looks,
        cages=all_of(looks.cages),
        areas=all_of(looks.areas),
        badges=all_of(looks.badges),
        clues=all_of(looks.clues),
    )


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
        self._look, self._feet = style.steps, feet
        self._digits = style.digits
        self._places = mark_places(puzzle.symbols, style.steps, lattice.side, feet)
        self._struck = dict(scene.struck)
        self._follows = {each.cell: (at, each.digit) for at, each in enumerate(scene.chain)}
        self._placed = dict(scene.placed)
        for cell, left in scene.told:
            if cell in scene.concluded and is_single(left) and not scene.written[cell]:
                self._placed.setdefault(cell, left.bit_length() - 1)

    @property
    def barred_cells(self) -> frozenset[Cell]:
        """The cell that nothing fits, where an "if" ends in one."""
        end = self._scene.dead_end
        return frozenset() if end is None or end.cell is None else frozenset((end.cell,))

    def frames(self, labels: list[Text], *, every_mark: bool) -> Iterator[Painted]:
        """Grounds, rings and squares, and where an "if" ends."""
        scene, look, lattice = self._scene, self._look, self._lattice
        end = scene.dead_end
        boxes = set(self._placed) if len(self._placed) <= MOST_BOXED else set[Cell]()
        rings, grounds = set(scene.pushing) - self._placed.keys(), set(scene.grounds)
        house = () if end is None or end.house is None else end.house.cells
        # A ring around marks, or around several rows, would touch them.
        if every_mark:
            grounds |= {*rings, *scene.concluded} - boxes - self._standing()
            rings &= self._standing()
        else:
            boxes |= set(scene.concluded) - self._placed.keys()
            tall = rings - boxes - self._standing() - set(self._on_one_row())
            grounds |= tall
            rings -= boxes | tall
        yield from reason(sorted(grounds - boxes - set(house)), look, lattice)
        if house:
            yield from dead_house(house, look, lattice)
        yield from boxed(sorted(boxes), labels, look, lattice)
        yield from ringed(sorted(rings), labels, look, lattice)
        follows = [cell for cell in self._follows if cell not in self._placed]
        yield from ringed_loosely(follows, look, lattice)
        for cell in self.barred_cells:
            yield barred(cell, look, lattice)
        for cell in follows:
            number, _ = self._follows[cell]
            if number:
                height = look.height.at(lattice.side) / lattice.side
                yield numbered(number, cell, height, look, lattice)

    def _standing(self) -> set[Cell]:
        """The cells with a digit that was there before."""
        return {cell for cell, value in enumerate(self._scene.written) if value}

    def _on_one_row(self) -> Iterator[Cell]:
        """The cells of which little is said."""
        every = every_digit(self._puzzle.board.digits)
        for cell, left in self._scene.told:
            if is_on_one_row(known(left, every, self._puzzle.symbols, self._look)):
                yield cell

    def contents(self, *, every_mark: bool) -> Iterator[tuple[Cell, Layer, Item]]:
        """The digit of each cell, or what is said of it, or its pencil marks."""
        told, counting = dict(self._scene.told), dict(self._scene.counting)
        every = every_digit(self._puzzle.board.digits)
        symbols, look = self._puzzle.symbols, self._look
        for cell in self._puzzle.board.cells:
            large = self._large(cell)
            if large is not None:
                yield cell, Layer.DIGIT, large
                if self._is_refuted(cell):
                    yield cell, Layer.STRIKE, stroke_through(large, look, self._lattice.side)
            elif every_mark:
                yield from self._pencil_marks(cell)
            elif cell in counting:
                struck = self._struck.get(cell, 0)
                yield from self._told(cell, counted(counting[cell], struck, symbols, look))
            elif cell in told:
                yield from self._told(cell, known(told[cell], every, symbols, look))

    def _is_refuted(self, cell: Cell) -> bool:
        """Whether a cell holds what is supposed, and is not so."""
        number, value = self._follows.get(cell, (1, 0))
        return not number and cell not in self._placed and bool(self._struck.get(cell, 0) >> value)

    def _told(
        self, cell: Cell, words: Sequence[TellingDigit]
    ) -> Iterator[tuple[Cell, Layer, Item]]:
        """Words in the middle of a cell, below the label in its corner."""
        if not words:
            return
        x, y = self._lattice.centre(cell)
        foot = self._feet.get(cell, 0.0)
        across = self._look.box_size - IN_SQUARE
        room = min(across, 1 - FOOT - foot - UNDER_LABEL) if foot else across
        down = max(0.5 - FOOT - room / 2, 0.0) if foot else 0.0
        middle = x, y + down * self._lattice.side
        for layer, item in draw_told(words, middle, (across, room), self._lattice.side, self._look):
            yield cell, layer, item

    def _pencil_marks(self, cell: Cell) -> Iterator[tuple[Cell, Layer, Item]]:
        """All marks in their places, those that go with a stroke."""
        struck = self._struck.get(cell, 0)
        about = dict(self._scene.counting).get(cell, 0) & ~struck
        mask = self._scene.pencil[cell]
        marks = pencil_marks(self._places, cell, mask, about, self._look, self._lattice)
        for value, text in marks:
            yield cell, Layer.PENCIL, text
            if struck >> value & 1:
                stroke = stroke_through(text, self._look, self._lattice.side)
                yield cell, Layer.STRIKE, stroke

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
        """A digit in the middle of its cell; under a label in the corner a little lower."""
        symbol = self._puzzle.symbol(value)
        if self._feet:
            height = min(height, UNDER_LABELS)
        text = digit(symbol, name, height, self._digits.widest, self._lattice, cell)
        foot = self._feet.get(cell, 0.0)
        lower = max(foot + 2 * LABEL_GAP + height / 2 - 0.5, 0.0) if foot else 0.0
        return replace(text, y=text.y + lower * self._lattice.side)


def tell_scene(scene: Scene, puzzle: Puzzle) -> str:
    """What a step does, for a reader who can't see it; the marks before it are left out."""
    board = puzzle.board
    told = [
        ("In rings", _names(scene.pushing, board)),
        ("Where one looks", _names(scene.grounds, board)),
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
