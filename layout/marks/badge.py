"""Badges: a disc on the edge between two cells or on the corner of four, with a label or bare.

Each clears the lines below it with a white ground of its own.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import fsum, hypot, sqrt
from typing import Final

from layout.marks.label import centred
from layout.marks.lattice import Lattice
from layout.picture.items import Contour, Fill, Point, Stroke, Text
from layout.picture.order import Layer, Painted
from layout.picture.shapes import along, capsule, disc
from layout.style.board import BadgeLook
from layout.type.fonts import font
from verify.board import Board
from verify.marks import Badge

PAD: Final = 0.06
"""White between a label and the outline, as a share of the disc's diameter."""

COLUMN: Final = 1.42
ROW: Final = 1.24
"""From digit to digit in a disc of several: in widths, and in heights."""

LEAST_REACH: Final = 1e-6
"""A disc drawn out by less, in millimetres, is a disc."""

LONGEST_LINE: Final = 2
"""Digits on one line of a disc; more stand on two lines."""


def draw(mark: Badge, look: BadgeLook, lattice: Lattice) -> Iterator[Painted]:
    """White ground, disc, outline and label, the middle on the edge or the corner."""
    middle, side = _middle(mark, lattice), lattice.side
    line = look.line.at(side)
    symbols = mark.label.split(" ") if mark.label else []
    room = _room(mark.label, look, side)
    reach = 0.0
    texts: list[Text] = []
    if len(symbols) == 1:
        size = min(look.label_height.at(side) / font(look.label).digit_height, room.fit(symbols[0]))
        texts, reach = [centred(symbols[0], look.label, size, middle)], room.reach(symbols[0], size)
    elif symbols:
        texts = _several(symbols, look, look.label_height.at(side), room.radius, middle)
    shape = _pill(middle, reach, look.size * side / 2 - line / 2)
    if look.ground:
        yield Layer.SIGN, Stroke((shape,), line + 2 * look.ground * side, 1.0)
    yield Layer.SIGN, Fill((shape,), 1 - look.ink)
    if line:
        yield Layer.SIGN, Stroke((shape,), line)
    yield from ((Layer.SIGN, text) for text in texts)


def tell(mark: Badge, board: Board) -> str:
    """The role, the label and the cells around it."""
    label = f" {mark.label}" if mark.label else ""
    return f"{mark.role}{label}: {' '.join(map(board.name, mark.cells))}"


@dataclass(frozen=True, slots=True)
class _Room:
    """What a label may take: a disc of this radius, which may be drawn out sideways so far."""

    font: str
    radius: float
    most: float

    def fit(self, words: str) -> float:
        """The largest size at which the ink lies within the disc, drawn out to its most."""
        half, tall = self._halves(words)
        if half / tall * self.radius <= self.most:
            return self.radius / tall
        # The ink's corner lies on the round end: (half s - most)^2 + (tall s)^2 = radius^2.
        square = half**2 + tall**2
        rest = half**2 * self.most**2 - square * (self.most**2 - self.radius**2)
        return (half * self.most + sqrt(rest)) / square

    def reach(self, words: str, size: float) -> float:
        """How far the disc has to be drawn out to either side for words of that size."""
        half, tall = self._halves(words)
        return max(half * size - sqrt(max(self.radius**2 - (tall * size) ** 2, 0.0)), 0.0)

    def _halves(self, words: str) -> tuple[float, float]:
        """Half the width and half the height of the ink, in ems."""
        left, bottom, right, top = font(self.font).bounds(words)
        return (right - left) / 2, (top - bottom) / 2


def _room(label: str, look: BadgeLook, side: float) -> _Room:
    """The room within the outline: a disc for one figure, more for several."""
    radius = (0.5 - PAD) * look.size * side - look.line.at(side)
    beyond = max(look.widest - look.size, 0.0) if len(label) > 1 else 0.0
    return _Room(look.label, radius, beyond * side / 2)


def _middle(mark: Badge, lattice: Lattice) -> Point:
    """The middle of its cells: on an edge or a corner."""
    xs, ys = zip(*lattice.centres(mark.cells), strict=True)
    return fsum(xs) / len(xs), fsum(ys) / len(ys)


def _pill(middle: Point, reach: float, radius: float) -> Contour:
    """A disc, drawn out to both sides."""
    ends = [along(middle, (1.0, 0.0), way) for way in (-reach, reach)]
    return capsule(ends, radius) if reach > LEAST_REACH else disc(middle, radius)


def _several(
    symbols: Sequence[str], look: BadgeLook, height: float, room: float, middle: Point
) -> list[Text]:
    """Symbols on one line or two, all the same size, within `room` of the middle."""
    face = font(look.label)
    wide = max(right - left for left, _, right, _ in map(face.bounds, symbols))
    rows = _rows(symbols)
    longest = max(map(len, rows))
    across, down = COLUMN * wide, ROW * face.digit_height
    # The corners of the block, half a symbol beyond the middles of the outermost ones.
    reach = hypot(
        (longest - 1) * across / 2 + wide / 2,
        (len(rows) - 1) * down / 2 + face.digit_height / 2,
    )
    size = min(height / face.digit_height, room / reach)
    x, y = middle
    texts = []
    for index, row in enumerate(rows):
        # One baseline for a row, on which figures are centred, whatever their own ink.
        baseline = y + (index - (len(rows) - 1) / 2) * down * size + face.digit_height * size / 2
        for column, symbol in enumerate(row):
            at = x + (column - (len(row) - 1) / 2) * across * size
            texts.append(replace(centred(symbol, look.label, size, (at, y)), y=baseline))
    return texts


def _rows(symbols: Sequence[str]) -> list[Sequence[str]]:
    """Up to two side by side; three or four as two lines, the upper one no shorter."""
    if len(symbols) <= LONGEST_LINE:
        return [symbols]
    half = (len(symbols) + 1) // 2
    return [symbols[:half], symbols[half:]]
