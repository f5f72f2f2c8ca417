"""A document: leaves of fixed items, and what a reader's program is told about them."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from layout.picture.items import Item


@dataclass(frozen=True, slots=True)
class DrawnLater:
    """Items that are drawn anew whenever they are gone through, so that nobody keeps them.

    The pages of a book are: all of them at once would take more room than its file.
    """

    draw: Callable[[], Iterable[Item]]

    def __iter__(self) -> Iterator[Item]:
        return iter(self.draw())


@dataclass(frozen=True, slots=True)
class Leaf:
    """One page: its trim size and bleed in millimetres, and its items.

    Item coordinates start at the upper left corner of the trim; what bleeds lies outside it.
    `label` is the page's number as a reader sees it ("xii", "23"), also where it is not printed.
    Around the bleed lies the `slug`, which a printer's marks stand in.
    """

    width: float
    height: float
    items: Iterable[Item]
    label: str
    bleed: float = 0.0
    slug: float = 0.0

    @property
    def rim(self) -> float:
        """How far the medium reaches over the trim."""
        return self.bleed + self.slug


@dataclass(frozen=True, slots=True)
class OutlineEntry:
    """A line of the outline: leads to an anchor; level 0 is the outermost."""

    title: str
    anchor: str
    level: int = 0


@dataclass(frozen=True, slots=True)
class Info:
    """The document's metadata; `language` as in BCP 47 ("en", "en-GB")."""

    title: str
    author: str = ""
    subject: str = ""
    language: str = "en"


@dataclass(frozen=True, slots=True)
class Document:
    """Leaves in reading order; the first is a recto."""

    leaves: tuple[Leaf, ...]
    info: Info
    outline: tuple[OutlineEntry, ...] = ()
