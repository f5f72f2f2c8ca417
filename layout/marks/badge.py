"""Badges: a disc on the edge between two cells or on the corner of four, with a label or bare.

Each clears the lines below it with a white ground of its own.
"""

from collections.abc import Iterator, Sequence
from math import hypot
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

PAD: Final = 0.1
"""White between a label and the rim, as a share of the disc's diameter."""

COLUMN: Final = 1.14
ROW: Final = 1.24
"""From digit to digit in a disc of several: in widths, and in heights."""

LONGEST_LINE: Final = 2
"""Digits on one line of a disc; more stand on two lines."""


def draw(mark: Badge, look: BadgeLook, lattice: Lattice) -> Iterator[Painted]:
    """White ground, disc, outline and label, the middle on the edge or the corner."""
    middle = _middle(mark, lattice)
    texts = _label(mark, look, middle, lattice) if mark.label else []
    line = look.line.at(lattice.side)
    shape = _shape(texts, look, middle, lattice, line / 2)
    if look.ground:
        yield Layer.SIGN, Stroke((shape,), line + 2 * look.ground * lattice.side, 1.0)
    yield Layer.SIGN, Fill((shape,), 1 - look.ink)
    if line:
        yield Layer.SIGN, Stroke((shape,), line)
    yield from ((Layer.SIGN, text) for text in texts)


def tell(mark: Badge, board: Board) -> str:
    """The role, the label and the cells around it."""
    label = f" {mark.label}" if mark.label else ""
    return f"{mark.role}{label}: {' '.join(map(board.name, mark.cells))}"


def _middle(mark: Badge, lattice: Lattice) -> Point:
    """The middle of its cells: on an edge or a corner."""
    xs, ys = zip(*lattice.centres(mark.cells), strict=True)
    return sum(xs) / len(xs), sum(ys) / len(ys)


def _shape(
    texts: Sequence[Text], look: BadgeLook, middle: Point, lattice: Lattice, inset: float
) -> Contour:
    """A disc, drawn out sideways around a label that is wider than it."""
    radius = look.size * lattice.side / 2 - inset
    if len(texts) != 1:
        return disc(middle, radius)
    left, bottom, right, top = (
        each * texts[0].size for each in font(look.label).bounds(texts[0].text)
    )
    half = (right - left) / 2 + PAD * look.size * lattice.side
    # Where the rim is as high as the label it has turned in by so much.
    turned = radius - (radius**2 - ((top - bottom) / 2) ** 2) ** 0.5
    reach = min(half + turned, look.widest * lattice.side / 2 - inset) - radius
    if reach <= 0:
        return disc(middle, radius)
    return capsule([along(middle, (1.0, 0.0), way) for way in (-reach, reach)], radius)


def _label(mark: Badge, look: BadgeLook, middle: Point, lattice: Lattice) -> list[Text]:
    """The label as one text; several symbols, which a space parts, each as its own."""
    symbols = mark.label.split(" ")
    side = lattice.side
    room = look.size * side / 2 - look.line.at(side) - PAD * look.size * side / 2
    height = look.label_height.at(side)
    if len(symbols) == 1:
        return [_one(mark.label, look, height, middle, lattice)]
    return _several(symbols, look, height, room, middle)


def _one(words: str, look: BadgeLook, height: float, middle: Point, lattice: Lattice) -> Text:
    """A label in the middle, small enough for the disc at its widest."""
    face, side = font(look.label), lattice.side
    left, bottom, right, top = face.bounds(words)
    inner = look.size * side - 2 * look.line.at(side)
    wide = look.widest * side - 2 * look.line.at(side) - 2 * PAD * look.size * side
    size = min(
        height / face.digit_height,
        (1 - 2 * PAD) * inner / (top - bottom),
        wide / (right - left),
    )
    return centred(words, look.label, size, middle)


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
    return [
        centred(
            symbol,
            look.label,
            size,
            (
                x + (column - (len(row) - 1) / 2) * across * size,
                y + (index - (len(rows) - 1) / 2) * down * size,
            ),
        )
        for index, row in enumerate(rows)
        for column, symbol in enumerate(row)
    ]


def _rows(symbols: Sequence[str]) -> list[Sequence[str]]:
    """Up to two side by side; three or four as two lines, the upper one no shorter."""
    if len(symbols) <= LONGEST_LINE:
        return [symbols]
    half = (len(symbols) + 1) // 2
    return [symbols[:half], symbols[half:]]
