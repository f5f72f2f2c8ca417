"""How a puzzle's board looks: what a style sheet says under `board`.

Shares are of a cell's side. Greys stand in a sheet as the share of ink (`20%`) and are held
so (0 is white, 1 is black). Widths of lines go with the cell, within bounds, so that one
sheet serves a thumbnail and a poster.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Final, TypeAlias

from layout.lengths import Length, Share
from layout.type.font_name import FontName
from verify.marks import Area, Badge, Border, Cage, Clue, Mark, Ray, Sign, Tint, Trail

OfCell: TypeAlias = Annotated[float, Share(0, 100)]
"""A length as a share of a cell's side."""

Ink: TypeAlias = Annotated[float, Share(0, 100)]
"""How much ink: 0 is paper, 1 is black."""


BROAD: Final = 0.2
"""A trail as wide as this share of a cell is a ground to a digit, a narrower one a line."""


@dataclass(frozen=True, slots=True)
class Weight:
    """A width or height: a share of the cell, but never under `least` or over `most`."""

    of_cell: OfCell
    least: Annotated[float, Length(0, 10)] = 0.0
    most: Annotated[float, Length(0.05, 100)] = 100.0

    def at(self, cell: float) -> float:
        """The width or height in millimetres where a cell has that side."""
        return min(max(self.of_cell * cell, self.least), self.most)


@dataclass(frozen=True, slots=True)
class LineLook:
    """The grid: between two cells, around boxes and regions, and around it all; and its holes."""

    hairline: Weight
    box: Weight
    frame: Weight
    hole: Ink


@dataclass(frozen=True, slots=True)
class DigitLook:
    """Givens, and the digits that an answer fills in.

    `height` is the height of a figure; `widest` is what a symbol of several characters may
    take of the cell's width before it is set smaller; `halo` is the white kept around a digit
    that a line runs behind.

    `helper` is the font of the small digits that can be crossed out, `helper_height` the height
    of their figures, `helper_inset` how far they stand from the edges of the cell.
    """

    given: FontName
    filled: FontName
    height: OfCell
    widest: OfCell
    halo: OfCell
    helper: FontName
    helper_height: Weight
    helper_inset: OfCell


@dataclass(frozen=True, slots=True)
class AnswerLook:
    """An answer keeps what is drawn behind its digits light: the parts of the ink that stay."""

    shapes: Annotated[float, Share(0, 100)]
    cages: Annotated[float, Share(0, 100)]


@dataclass(frozen=True, slots=True)
class StepLook:
    """A step of a walk: what it adds to the board, whose shapes and cages are kept light.

    Pencil marks are set in `mark`, those that the step speaks of in `strong`; `height` is the
    most that their figures take, `margin` what stays free along the edges of a cell. `stroke`
    goes through what is struck, `reason` and its `edge` are the ground of the cells that count
    and the line around them, `inset` from the cells' edges.

    A digit that is placed is set in `placed`, in a square of side `box_size`; one that follows
    from an "if" is `follows` high, in a ring. `badges` is the part of its size that a badge or a
    head at an edge keeps, for marks to stand beside it.
    """

    shapes: Annotated[float, Share(0, 100)]
    cages: Annotated[float, Share(0, 100)]
    mark: FontName
    strong: FontName
    height: OfCell
    margin: OfCell
    stroke: Weight
    reason: Ink
    edge: Weight
    inset: OfCell
    placed: FontName
    box: Weight
    box_size: OfCell
    follows: OfCell
    badges: Annotated[float, Share(20, 100)]


@dataclass(frozen=True, slots=True)
class TrailLook:
    """A shape through cells: its width and ink, and an edge line around it where it has one.

    `core` is the part of its width that stays white along its middle: a double line. `dash` and
    `gap` break it into dashes of about that length; with `dots` it is made of dots, a gap apart,
    or of dashes with a dot in between. `rungs` is how far its cross strokes lie apart, `rung` how
    long they are.

    `bulb`, `ring` and `circle` are outer diameters; `ring_line` is the width of a ring's or
    circle's own line, `circle_ink` what fills a circle. `head` is the length of an arrowhead,
    `tip` how far past the middle of the last cell it ends, so that a digit there does not hide
    it. `clear` is the white kept around it where it passes over something.
    """

    width: Weight
    ink: Ink
    edge: Weight
    edge_ink: Ink
    clear: OfCell
    core: Annotated[float, Share(0, 90)] = 0.0
    dash: OfCell = 0.0
    gap: OfCell = 0.0
    dots: bool = False
    rungs: OfCell = 0.0
    rung: OfCell = 0.0
    bulb: OfCell = 0.0
    ring: OfCell = 0.0
    ring_line: Weight = Weight(0.03)
    circle: OfCell = 0.0
    circle_ink: Ink = 0.0
    head: OfCell = 0.0
    tip: OfCell = 0.0

    @property
    def broad(self) -> bool:
        """Whether digits stand on it as on a ground, rather than on white before a line."""
        return self.width.of_cell >= BROAD


@dataclass(frozen=True, slots=True)
class CageLook:
    """An outline `inset` from the cells' edges, and the label in its corner.

    It is dashed, or solid where `dash` is 0. `label_height` is the height of its figures,
    `label_corner` how far they stand from the cell's upper and left edges.
    """

    line: Weight
    ink: Ink
    inset: OfCell
    dash: OfCell
    gap: OfCell
    label: FontName
    label_height: Weight
    label_corner: OfCell


@dataclass(frozen=True, slots=True)
class AreaLook:
    """A ground behind cells, and the label in its corner, as for a cage.

    An edge line, where it has one, lies `inset` from the cells' edges.
    """

    ink: Ink
    edge: Weight
    edge_ink: Ink
    inset: OfCell
    label: FontName
    label_height: Weight
    label_corner: OfCell


@dataclass(frozen=True, slots=True)
class TintLook:
    """A shape behind a digit: its side or diameter, its ink, and its edge line.

    Of heads at the edges `size` is the length.
    """

    size: OfCell
    ink: Ink
    edge: Weight
    edge_ink: Ink


@dataclass(frozen=True, slots=True)
class SignLook:
    """A sign on an edge: how long and how open it is, and the white ground around it."""

    line: Weight
    length: OfCell
    spread: OfCell
    ground: OfCell


@dataclass(frozen=True, slots=True)
class BadgeLook:
    """A disc on an edge or a corner: its diameter, its ink, its outline where it has one.

    The disc grows sideways for a label of several figures, but never beyond `widest`; then the
    label is set smaller. `ground` is the white kept around it.
    """

    size: OfCell
    ink: Ink
    line: Weight
    ground: OfCell
    widest: OfCell
    label: FontName
    label_height: Weight


@dataclass(frozen=True, slots=True)
class ClueLook:
    """A label outside the board.

    `room` is how deep the strip along the board is that it stands in, `widest` what it may take
    of a cell's width before it is set smaller. `arrow` is the length of the arrow that shows a
    diagonal, `line` its width.
    """

    label: FontName
    label_height: Weight
    widest: OfCell
    room: OfCell
    arrow: OfCell = 0.0
    line: Weight = Weight(0.02)


@dataclass(frozen=True, slots=True)
class RayLook:
    """A straight line across the board."""

    line: Weight
    ink: Ink


@dataclass(frozen=True, slots=True)
class MarkLooks:
    """How the marks of each kind look, by the role that a rule gives them.

    Borders have no look of their own: they are drawn as the grid's box lines.
    """

    trails: Mapping[str, TrailLook]
    cages: Mapping[str, CageLook]
    areas: Mapping[str, AreaLook]
    tints: Mapping[str, TintLook]
    signs: Mapping[str, SignLook]
    badges: Mapping[str, BadgeLook]
    clues: Mapping[str, ClueLook]
    rays: Mapping[str, RayLook]

    def knows(self, mark: Mark) -> bool:
        """Whether the sheet says how the mark looks."""
        return isinstance(mark, Border) or mark.role in self._of_kind(mark)

    def _of_kind(self, mark: Mark) -> Mapping[str, object]:
        kinds: Mapping[type, Mapping[str, object]] = {
            Trail: self.trails,
            Cage: self.cages,
            Area: self.areas,
            Tint: self.tints,
            Sign: self.signs,
            Badge: self.badges,
            Clue: self.clues,
            Ray: self.rays,
        }
        return kinds[type(mark)]


@dataclass(frozen=True, slots=True)
class BoardStyle:
    """Everything about the look of a board."""

    lines: LineLook
    digits: DigitLook
    answer: AnswerLook
    steps: StepLook
    marks: MarkLooks
