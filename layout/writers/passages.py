"""What is read on a page, passage by passage: headings, paragraphs, figures, and what is not read.

Pages are items in fixed places. Here they are put together again for a reader who hears them:
lines that lie under one another in one size are a paragraph, a group that says what it is becomes
a figure, and lines and areas between them, like all furniture, are passed over.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from math import fsum
from typing import Final, Literal, TypeAlias

from layout.picture.items import Anchor, Group, Item, Link, Text

Kind: TypeAlias = Literal["H1", "H2", "P", "Figure", "Artifact"]
"""A standard structure type (ISO 32000-1, 14.8.4), or what is none."""

NEXT_LINE: Final = 1.75
"""How far below a line, in ems, the next one of the same paragraph may lie."""

INDENT: Final = 0.5
"""How much farther in than a paragraph's other lines a line begins that opens a new one, in ems."""

WORD_GAP: Final = 0.12
"""White between two texts of a line, in ems, that is heard as a space."""

SPACE: Final = 0.25
"""The advance of a space that is added at the end of a line, in ems; nobody sees it."""

HYPHENS: Final = ("-", "\u2010", "\u00ad", "/", "\u2013", "\u2014")
"""What a line may end with and go on in the next without a space."""


@dataclass(frozen=True, slots=True)
class Run:
    """Items that are read in one go, moved to a place; `link` leads from them, if anything does."""

    x: float
    y: float
    items: tuple[Item, ...]
    link: Link | None = None


@dataclass(frozen=True, slots=True)
class Passage:
    """Runs that are one thing; `alt` says in words what a figure shows."""

    kind: Kind
    runs: tuple[Run, ...]
    alt: str = ""


def passages(items: Iterable[Item]) -> Iterator[Passage]:
    """The passages of a page, in the order in which it is painted. Anchors are in none."""
    lines: list[Run] = []
    for x, y, item in _flat(items, 0.0, 0.0):
        if isinstance(item, Text):
            if item.text:
                if lines and not _goes_on(lines, x, y, item):
                    yield _paragraph("P", lines)
                    lines = []
                lines.append(Run(x, y, (item,)))
        elif isinstance(item, Link):
            lines = _linked(lines, x, y, item)
        else:
            if lines and not isinstance(item, Anchor):
                yield _paragraph("P", lines)
                lines = []
            yield _single(x, y, item)
    if lines:
        yield _paragraph("P", lines)


def _flat(items: Iterable[Item], x: float, y: float) -> Iterator[tuple[float, float, Item]]:
    """Items and where they are moved to; groups only where they are one thing to a reader."""
    for item in items:
        if isinstance(item, Group) and not (item.role or item.title):
            yield from _flat(item.items, x + item.x, y + item.y)
        else:
            yield x, y, item


def _single(x: float, y: float, item: Item) -> Passage:
    """A group that is one thing, or a line or an area by itself."""
    if not isinstance(item, Group):
        return Passage("Artifact", (Run(x, y, (item,)),))
    inner = x + item.x, y + item.y
    if item.role in ("H1", "H2"):
        texts = [Run(*inner, (each,)) for each in item.items if isinstance(each, Text)]
        return _paragraph(item.role, texts)
    if item.role:
        return Passage("Artifact", (Run(*inner, item.items),))
    return Passage("Figure", (Run(*inner, item.items),), item.told or item.title)


def _goes_on(lines: list[Run], x: float, y: float, text: Text) -> bool:
    """Whether a text belongs to the paragraph that the lines before it have begun."""
    last = lines[-1]
    before = _text(last)
    down = (y + text.y) - (last.y + before.y)
    if abs(down) < 1e-6:
        return True
    if text.size != before.size or not 0 < down <= NEXT_LINE * text.size:
        return False
    firsts = [run for run in lines if _text(run).y + run.y == before.y + last.y]
    return x + text.x <= min(run.x + _text(run).x for run in firsts) + INDENT * text.size


def _text(run: Run) -> Text:
    (item,) = run.items
    assert isinstance(item, Text), "only texts are put together to paragraphs"  # noqa: S101
    return item


def _linked(lines: list[Run], x: float, y: float, link: Link) -> list[Run]:
    """The runs, those that lie in a link's rectangle leading where it does."""

    def inside(run: Run) -> bool:
        text = _text(run)
        across, down = run.x + text.x - x - link.x, run.y + text.y - y - link.y
        return -1e-6 <= across <= link.width and 0 <= down <= link.height

    placed = replace(link, x=link.x + x, y=link.y + y)
    return [replace(run, link=placed) if inside(run) else run for run in lines]


def _paragraph(kind: Kind, runs: list[Run]) -> Passage:
    """The runs with a space at the end of each that no other one goes on without."""
    spaced = [_with_space(run) if _parted(run, after) else run for run, after in pairwise(runs)]
    return Passage(kind, tuple(_joined([*spaced, *runs[-1:]])))


def _parted(run: Run, after: Run) -> bool:
    """Whether a space is heard between two runs."""
    text, other = _text(run), _text(after)
    if text.text.endswith(" "):
        return False
    if abs(run.y + text.y - after.y - other.y) > 1e-6:
        return not text.text.endswith(HYPHENS)
    end = run.x + text.x + fsum(text.advances) * text.size
    return after.x + other.x - end > WORD_GAP * text.size


def _with_space(run: Run) -> Run:
    text = _text(run)
    spaced = replace(text, text=text.text + " ", advances=(*text.advances, SPACE))
    return replace(run, items=(spaced,))


def _joined(runs: list[Run]) -> Iterator[Run]:
    """Runs in a row that lead nowhere, or to the same link, as one."""
    group: list[Run] = []
    for run in runs:
        if group and (run.link, run.x, run.y) != (group[-1].link, group[-1].x, group[-1].y):
            yield _one(group)
            group = []
        group.append(run)
    if group:
        yield _one(group)


def _one(group: list[Run]) -> Run:
    items = tuple(item for run in group for item in run.items)
    return replace(group[0], items=items)
