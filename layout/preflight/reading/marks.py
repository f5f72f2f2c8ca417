"""What stands on a page: letters, paint, images, and the inks that they are in."""

from dataclasses import dataclass
from functools import cached_property
from typing import Final

from layout.preflight.reading.faces import Face
from layout.preflight.reading.geometry import Box, Point, box_around

WHITE_FROM: Final = 0.999
"""How light an ink is that counts for paper."""


@dataclass(frozen=True, slots=True)
class Ink:
    """A colour: the name of its space, and so much of each component as the file says."""

    space: str
    values: tuple[float, ...]

    @property
    def coverage(self) -> float:
        """How much ink is laid down, all plates added up."""
        if self.space == "DeviceGray":
            return 1 - min(self.values, default=1.0)
        if self.space in ("DeviceCMYK", "Separation", "DeviceN"):
            return sum(self.values)
        return 0.0

    @property
    def is_white(self) -> bool:
        """Whether nothing is printed where it is painted."""
        if self.space in ("DeviceCMYK", "Separation", "DeviceN"):
            return bool(self.values) and max(self.values) <= 1 - WHITE_FROM
        return bool(self.values) and min(self.values) >= WHITE_FROM


BLACK: Final = Ink("DeviceGray", (0.0,))


@dataclass(frozen=True, slots=True)
class Letter:
    """A character that is shown: its origin, its em in points, the box of its ink.

    `box` is None for a space; `end` is where the next one begins; `order` grows with what is
    painted later.
    """

    text: str
    origin: Point
    end: Point
    size: float
    box: Box | None
    face: Face
    code: int
    ink: Ink
    order: int


@dataclass(frozen=True)
class Contour:
    """One run of the pen, with the controls of its curves among its points."""

    points: tuple[Point, ...]
    closed: bool
    curved: bool

    @cached_property
    def box(self) -> Box:
        """The box of its points: for a disc of four curves that of the disc."""
        return box_around(self.points)

    @cached_property
    def is_square(self) -> bool:
        """Whether every step is level or upright."""
        pairs = zip(self.points, self.points[1:], strict=False)
        return not self.curved and all(
            abs(x1 - x2) < SLANT or abs(y1 - y2) < SLANT for (x1, y1), (x2, y2) in pairs
        )


SLANT: Final = 0.01
"""Points by which a level line may rise by rounding."""


@dataclass(frozen=True)
class Paint:
    """A path that is stroked, filled or both; `box` is that of its ink, as far as it is seen.

    `order` grows with what is painted later.
    """

    contours: tuple[Contour, ...]
    box: Box
    stroke: Ink | None
    fill: Ink | None
    width: float
    order: int

    @property
    def is_seen(self) -> bool:
        """Whether it leaves ink on paper."""
        return any(ink is not None and not ink.is_white for ink in (self.stroke, self.fill))


@dataclass(frozen=True, slots=True)
class PlacedImage:
    """An image: its box on the page, its pixels an inch in its worse direction."""

    box: Box
    resolution: float
    space: str
    bits: int
    order: int


@dataclass(frozen=True, slots=True)
class Marks:
    """All that a page's content paints, in its order.

    `inks` are the spaces of all that are set, painted with or not, `plates` the names of spot inks
    among them, `coverage` the most ink that one of them lays down, 1 for all of one plate; `states`
    names what of transparency, screens and transfer curves is asked for; `operators` are how many
    there are.
    """

    letters: tuple[Letter, ...]
    paints: tuple[Paint, ...]
    images: tuple[PlacedImage, ...]
    inks: frozenset[str]
    states: frozenset[str]
    faces: tuple[Face, ...]
    operators: int
    plates: frozenset[str] = frozenset()
    coverage: float = 0.0
