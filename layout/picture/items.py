"""The handful of items that every picture and every page is made of.

All lengths are millimetres, from the upper left corner, y downwards. Greys run from 0
(black) to 1 (white), of black unless an `ink` is named. Writers read items and nothing else.
"""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import Literal, TypeAlias

Point: TypeAlias = tuple[float, float]

Segment: TypeAlias = tuple[float, ...]
"""Two numbers go straight to a point; six are a cubic curve: two controls, then the point."""


@dataclass(frozen=True, slots=True)
class Ink:
    """An ink beside black: how much cyan, magenta, yellow and black it is made of, from 0 to 1.

    With a name it is a spot ink, printed from a plate of its own; without one it is made of the
    four on the press. How dark something is in it says its `grey`, as in black.
    """

    name: str
    parts: tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Contour:
    """One run of the pen: where it starts, how it goes on, whether it closes."""

    start: Point
    segments: tuple[Segment, ...]
    closed: bool = False


Path: TypeAlias = tuple[Contour, ...]


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line of some width along a path; `dash` alternates drawn and left out."""

    path: Path
    width: float
    grey: float = 0.0
    cap: Literal["butt", "round", "square"] = "butt"
    join: Literal["miter", "round"] = "miter"
    dash: tuple[float, ...] = ()
    ink: Ink | None = None


@dataclass(frozen=True, slots=True)
class Fill:
    """The inside of a path (nonzero rule)."""

    path: Path
    grey: float = 0.0
    ink: Ink | None = None


@dataclass(frozen=True, slots=True)
class Text:
    """A run of text in one font, its origin on the baseline at the left.

    `size` is the em in millimetres. `advances` holds one width a character, in ems, with
    kerning worked in.
    """

    x: float
    y: float
    text: str
    font: str
    size: float
    advances: tuple[float, ...]
    grey: float = 0.0
    ink: Ink | None = None


@dataclass(frozen=True, slots=True)
class Insert:
    """The page of another PDF, placed in a rectangle.

    `page` is a file of that page alone, in greys, with all that it needs in it.
    """

    x: float
    y: float
    width: float
    height: float
    page: bytes


@dataclass(frozen=True, slots=True)
class Link:
    """A rectangle that leads to an anchor of the same document."""

    x: float
    y: float
    width: float
    height: float
    target: str


@dataclass(frozen=True, slots=True)
class Anchor:
    """A place that links and the outline lead to."""

    name: str
    y: float


@dataclass(frozen=True, slots=True)
class Group:
    """Items that are one thing, moved to a place.

    Of a picture `title` says what it is, and `description` what is seen on it, or tells that when
    it is asked: only who hears the page wants so many words. `role` is for what else such a reader
    must know: a heading of a level, or furniture to be passed over.
    """

    x: float
    y: float
    items: tuple["Item", ...]
    title: str = ""
    description: str | Callable[[], str] = ""
    role: Literal["", "H1", "H2", "furniture"] = ""

    @property
    def told(self) -> str:
        """What is seen on it, in words."""
        return self.description() if callable(self.description) else self.description


Item: TypeAlias = Stroke | Fill | Text | Insert | Link | Anchor | Group


def one_by_one(items: Iterable[Item]) -> Iterator[Item]:
    """The items in order, in place of a group those in it."""
    for item in items:
        if isinstance(item, Group):
            yield from one_by_one(item.items)
        else:
            yield item


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing of its own: its size in millimetres, its items in order of painting.

    `title` and `description` say in words what is seen, for a reader who can't see it.
    """

    width: float
    height: float
    items: tuple[Item, ...]
    title: str = ""
    description: str = ""
