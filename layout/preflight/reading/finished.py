"""A finished file, read whole: its pages, its outline, and what it says of itself."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from layout.preflight.reading.geometry import Box
from layout.preflight.reading.marks import Marks
from layout.preflight.reading.phrases import Phrase
from layout.preflight.reading.structure import Structure


@dataclass(frozen=True, slots=True)
class Target:
    """Where a link or a line of the outline leads: a page, counted from 1, and a height on it.

    `page` is 0 where it leads nowhere, `uri` an address outside the file.
    """

    page: int
    top: float | None = None
    uri: str = ""


@dataclass(frozen=True, slots=True)
class LinkBox:
    """A part of a page that leads somewhere."""

    box: Box
    target: Target


@dataclass(frozen=True, slots=True)
class Leaf:
    """A page. `number` counts from 1, `label` is what the file calls it.

    `boxes` are those that the page has or inherits, by the names of ISO 32000-1, 14.11.2, without
    "Box"; `kinds` are the kinds of its annotations but links, `phrases` its letters put
    together; `fault` says what of its content can't be read.
    """

    number: int
    label: str
    boxes: Mapping[str, Box]
    turned: int
    unit: float
    marks: Marks
    links: tuple[LinkBox, ...]
    kinds: tuple[tuple[str, Box], ...]
    group: bool
    phrases: tuple[Phrase, ...] = ()
    fault: str = ""

    @property
    def trim(self) -> Box:
        """What is left of the page when it is cut; all of it where the file does not say."""
        return self.boxes.get("Trim") or self.boxes.get("Art") or self.boxes["Media"]

    @property
    def bleed(self) -> Box:
        """How far ink may go over the trim."""
        return self.boxes.get("Bleed") or self.trim

    @property
    def is_recto(self) -> bool:
        """Whether it is a right-hand page: the first is."""
        return self.number % 2 == 1


@dataclass(frozen=True, slots=True)
class OutlineLine:
    """A line of the outline; level 0 is the outermost."""

    title: str
    level: int
    target: Target


@dataclass(frozen=True, slots=True)
class Intent:
    """An output intent: the printing that the file is made for.

    `profile` has the class, the colour space and the number of components of its profile.
    """

    kind: str
    condition: str
    registry: str
    info: str
    profile: tuple[str, str, int] | None


@dataclass(frozen=True, slots=True)
class FinishedFile:
    """All that is known of a file.

    `info` is its information dictionary, `xmp` the plain properties of its metadata by prefix and
    name, `catalog` the keys of its catalog; `labelled` where it says what its pages are called.
    """

    name: str
    header: str
    leaves: tuple[Leaf, ...]
    labelled: bool
    outline: tuple[OutlineLine, ...]
    info: Mapping[str, str]
    xmp: Mapping[str, str]
    xmp_fault: str
    catalog: frozenset[str]
    language: str
    identifiers: tuple[bytes, ...]
    intents: tuple[Intent, ...]
    encrypted: bool
    structure: Structure | None = None
    banned: frozenset[str] = field(default_factory=frozenset)
    """What no standard for presses allows: scripts, forms, files inside, packed objects."""
