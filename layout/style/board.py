"""How a puzzle's board looks: what a style sheet says under `board`.

Shares are of a cell's side. Greys stand in a style sheet as the share of ink (`20%`) and are held
so (0 is white, 1 is black). Widths of lines go with the cell, within bounds, so that one
style sheet serves a thumbnail and a poster.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Final, TypeAlias

from layout.lengths import Length, Share
from layout.picture.items import Ink
from layout.style.second_ink import SecondInk
from layout.type.font_name import FontName
from verify.marks import Area, Badge, Border, Cage, Clue, Mark, Ray, Sign, Tint, Trail

OfCell: TypeAlias = Annotated[float, Share(0, 100, "a cell's side")]
"""A length as a share of a cell's side."""

Dark: TypeAlias = Annotated[float, Share(0, 100, "black")]
"""How much ink: 0 is paper, 1 is black."""

Kept: TypeAlias = Annotated[float, Share(0, 100, "its ink")]
"""How much of the ink of something stays."""


BROAD: Final = 0.2
"""A trail as wide as this share of a cell is a ground to a digit, a narrower one a line."""


@dataclass(frozen=True, slots=True)
class Weight:
    """A width or height: a share of the cell, but never under `least` or over `most`."""

    of_cell: Annotated[OfCell, "how wide or high it is"]
    least: Annotated[float, Length(0, 10), "it is never less"] = 0.0
    most: Annotated[float, Length(0.05, 100), "it is never more"] = 100.0

    def at(self, cell: float) -> float:
        """The width or height in millimetres where a cell has that side."""
        return min(max(self.of_cell * cell, self.least), self.most)


@dataclass(frozen=True, slots=True)
class LineLook:
    """The grid: its lines and its holes."""

    hairline: Annotated[Weight, "the width of lines between two cells"]
    box: Annotated[Weight, "the width of lines around boxes and regions"]
    frame: Annotated[Weight, "the width of the line around the grid"]
    hole: Annotated[Dark, "the grey of places that are no cells"]


@dataclass(frozen=True, slots=True)
class DigitLook:
    """Givens, the digits that an answer fills in, and small ones that can be crossed out."""

    given: Annotated[FontName, "the font of givens"]
    filled: Annotated[FontName, "the font of digits that an answer fills in"]
    height: Annotated[OfCell, "the height of a figure"]
    widest: Annotated[OfCell, "how wide several characters may be before they are set smaller"]
    halo: Annotated[OfCell, "the white kept around a digit that a line runs behind"]
    helper: Annotated[FontName, "the font of small digits that can be crossed out"]
    helper_height: Annotated[Weight, "the height of their figures"]
    helper_inset: Annotated[OfCell, "how far they stand from the edges of the cell"]


@dataclass(frozen=True, slots=True)
class AnswerLook:
    """An answer keeps what is drawn behind its digits light."""

    shapes: Annotated[Kept, "how much stays of a shape"]
    cages: Annotated[Kept, "how much stays of a cage's outline"]


@dataclass(frozen=True, slots=True)
class StepLook:
    """A step of a walk: what it adds to the board.

    The mark that speaks has all of its ink; shapes, cages and signs of the others are kept light.
    """

    shapes: Annotated[Kept, "how much stays of a shape that does not speak"]
    cages: Annotated[Kept, "how much stays of a cage's outline, and of a sign's"]
    mark: Annotated[FontName, "the font of pencil marks, and of the numbers beside the board"]
    strong: Annotated[FontName, "the font of those that the step speaks of"]
    height: Annotated[Weight, "the height of their figures"]
    margin: Annotated[OfCell, "what stays free of pencil marks along the edges of a cell"]
    told: Annotated[Weight, "the height of the figures by which something is said of an open cell"]
    stroke: Annotated[Weight, "the width of the stroke through what is struck"]
    reason: Annotated[Dark, "the ground of the cells where one looks"]
    edge: Annotated[Weight, "the width of the line around that ground"]
    inset: Annotated[OfCell, "how far that line stays from the cells' edges"]
    ring: Annotated[OfCell, "the diameter of the ring around what pushes"]
    ring_line: Annotated[Weight, "the width of its line"]
    placed: Annotated[FontName, "the font of a digit that is placed"]
    box: Annotated[Weight, "the width of the line of a square around what follows"]
    box_size: Annotated[OfCell, "the side of that square"]
    follows: Annotated[OfCell, 'the height of a digit that follows from an "if", in a broken ring']
    badges: Annotated[
        float,
        Share(20, 100, "its size"),
        "what a badge or a head at an edge keeps, for marks to stand beside it",
    ]


@dataclass(frozen=True, slots=True)
class TrailLook:
    """A shape through cells: a line with what stands at its ends."""

    width: Annotated[Weight, "how wide it is"]
    ink: Annotated[Dark, "its grey"]
    edge: Annotated[Weight, "the width of a line around it"]
    edge_ink: Annotated[Dark, "the grey of that line; without ink there is none"]
    clear: Annotated[OfCell, "the white kept around it where it passes over something"]
    pen: Annotated[
        Weight, "the width of either line where it is a double one; 0% for a single line"
    ] = Weight(0.0)
    dash: Annotated[OfCell, "about how long its dashes are; 0% for a whole line"] = 0.0
    gap: Annotated[OfCell, "how far its dashes or dots are apart"] = 0.0
    dots: Annotated[bool, "whether it is of dots, or of dashes with a dot in between"] = False
    rungs: Annotated[OfCell, "how far its cross strokes are apart; 0% for none"] = 0.0
    rung: Annotated[OfCell, "how long they are"] = 0.0
    bulb: Annotated[OfCell, "the diameter of a bulb"] = 0.0
    ring: Annotated[OfCell, "the outer diameter of a ring at its start"] = 0.0
    ring_line: Annotated[Weight, "the width of a ring's or a circle's own line"] = Weight(0.03)
    circle: Annotated[OfCell, "the outer diameter of circles at both ends"] = 0.0
    circle_ink: Annotated[Dark, "what fills a circle"] = 0.0
    head: Annotated[OfCell, "the length of an arrowhead"] = 0.0
    tip: Annotated[
        OfCell,
        "how far past the middle of the last cell it ends, so that a digit there does not hide it",
    ] = 0.0

    @property
    def broad(self) -> bool:
        """Whether digits stand on it as on a ground, rather than on white before a line."""
        return self.width.of_cell >= BROAD

    @property
    def double(self) -> bool:
        """Whether it is two lines, white between them."""
        return self.pen.of_cell > 0


@dataclass(frozen=True, slots=True)
class CageLook:
    """An outline along the edges of cells, and the label in its corner."""

    line: Annotated[Weight, "the width of the outline"]
    ink: Annotated[Dark, "its grey"]
    inset: Annotated[OfCell, "how far it stays from the cells' edges"]
    dash: Annotated[OfCell, "about how long its dashes are; 0% for a whole line"]
    gap: Annotated[OfCell, "how far its dashes are apart"]
    label: Annotated[FontName, "the font of the label in its corner"]
    label_height: Annotated[Weight, "the height of the label's figures"]
    label_corner: Annotated[OfCell, "how far they stand from the cell's upper and left edges"]


@dataclass(frozen=True, slots=True)
class AreaLook:
    """A ground behind cells, and the label in its corner, as for a cage."""

    ink: Annotated[Dark, "its grey"]
    edge: Annotated[Weight, "the width of a line around it"]
    edge_ink: Annotated[Dark, "the grey of that line; without ink there is none"]
    inset: Annotated[OfCell, "how far that line stays from the cells' edges"]
    label: Annotated[FontName, "the font of the label in its corner"]
    label_height: Annotated[Weight, "the height of the label's figures"]
    label_corner: Annotated[OfCell, "how far they stand from the cell's upper and left edges"]


@dataclass(frozen=True, slots=True)
class TintLook:
    """A shape behind a digit, or heads at the edges of its cell."""

    size: Annotated[OfCell, "its side or diameter, or the length of heads at the edges"]
    ink: Annotated[Dark, "its grey"]
    edge: Annotated[Weight, "the width of a line around it"]
    edge_ink: Annotated[Dark, "the grey of that line; without ink there is none"]


@dataclass(frozen=True, slots=True)
class SignLook:
    """A sign on an edge."""

    line: Annotated[Weight, "the width of its line"]
    length: Annotated[OfCell, "how long it is"]
    spread: Annotated[OfCell, "how open it is"]
    ground: Annotated[OfCell, "the white kept around it"]


@dataclass(frozen=True, slots=True)
class BadgeLook:
    """A disc on an edge or a corner.

    It grows sideways for a label of several figures, but never beyond `widest`; then the label is
    set smaller.
    """

    size: Annotated[OfCell, "its diameter"]
    ink: Annotated[Dark, "what fills it"]
    line: Annotated[Weight, "the width of its outline; 0% for none"]
    ground: Annotated[OfCell, "the white kept around it"]
    widest: Annotated[OfCell, "how wide it may grow for its label, which is set smaller then"]
    label: Annotated[FontName, "the font of its label"]
    label_height: Annotated[Weight, "the height of the label's figures"]


@dataclass(frozen=True, slots=True)
class ClueLook:
    """A label outside the board."""

    label: Annotated[FontName, "its font"]
    label_height: Annotated[Weight, "the height of its figures"]
    widest: Annotated[OfCell, "how wide it may be before it is set smaller"]
    room: Annotated[OfCell, "how deep the strip along the board is that it stands in"]
    arrow: Annotated[OfCell, "the length of the arrow that shows a diagonal"] = 0.0
    line: Annotated[Weight, "the width of that arrow's line"] = Weight(0.02)


@dataclass(frozen=True, slots=True)
class RayLook:
    """A straight line across the board."""

    line: Annotated[Weight, "its width"]
    ink: Annotated[Dark, "its grey"]


@dataclass(frozen=True, slots=True)
class MarkLooks:
    """How the marks of each kind look, by the role that a rule gives them.

    Borders have no look of their own: they are drawn as the grid's box lines.
    """

    trails: Annotated[Mapping[str, TrailLook], "lines and shapes through cells, by their role"]
    cages: Annotated[Mapping[str, CageLook], "outlines with a label in a corner, by their role"]
    areas: Annotated[Mapping[str, AreaLook], "grounds behind several cells, by their role"]
    tints: Annotated[Mapping[str, TintLook], "shapes in single cells, by their role"]
    signs: Annotated[Mapping[str, SignLook], "signs on edges between two cells, by their role"]
    badges: Annotated[Mapping[str, BadgeLook], "discs on edges and corners, by their role"]
    clues: Annotated[Mapping[str, ClueLook], "labels outside the board, by their role"]
    rays: Annotated[Mapping[str, RayLook], "straight lines across the board, by their role"]

    def knows(self, mark: Mark) -> bool:
        """Whether the style sheet says how the mark looks."""
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

    lines: Annotated[LineLook, "the lines of the grid, and its holes"]
    digits: Annotated[DigitLook, "the digits in cells"]
    answer: Annotated[AnswerLook, "what an answer keeps light behind its digits"]
    steps: Annotated[StepLook, "pencil marks, and what a step of a walk shows"]
    marks: Annotated[MarkLooks, "the marks of the rules"]
    ink: Annotated[Ink | None, SecondInk(), "the ink of shapes behind digits, instead of black"] = (
        None
    )
