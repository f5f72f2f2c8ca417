"""A second ink beside black, and items in it."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from layout.picture.items import Fill, Group, Ink, Item, Stroke, Text, one_by_one


def in_ink(item: Item, ink: Ink | None) -> Item:
    """The item in an ink, as dark as it is; what is white stays paper."""
    if isinstance(item, Stroke | Fill | Text):
        return replace(item, ink=ink) if item.grey < 1 else item
    if isinstance(item, Group):
        return replace(item, items=tuple(in_ink(each, ink) for each in item.items))
    return item


def headings_in_ink(items: Iterable[Item], ink: Ink) -> Iterator[Item]:
    """The items, those of headings in an ink."""
    for item in items:
        if isinstance(item, Group) and not item.title:
            if item.role in ("H1", "H2"):
                yield in_ink(item, ink)
            else:
                yield replace(item, items=tuple(headings_in_ink(item.items, ink)))
        else:
            yield item


def is_coloured(items: Iterable[Item]) -> bool:
    """Whether anything is in another ink than black."""
    return any(
        isinstance(item, Stroke | Fill | Text) and item.ink is not None
        for item in one_by_one(items)
    )


@dataclass(frozen=True, slots=True)
class Shade:
    """So much of each of red, green and blue light, from 0 to 1, as a screen shows an ink."""

    red: float
    green: float
    blue: float


def shade(ink: Ink, grey: float) -> Shade:
    """What a screen shows where an ink is so light: 0 is all of it, 1 is paper.

    Cyan takes red, magenta green and yellow blue; black takes of each what is left. A screen's
    colours and a press's are never quite alike.
    """
    cyan, magenta, yellow, black = (part * (1 - grey) for part in ink.parts)
    return Shade(*((1 - part) * (1 - black) for part in (cyan, magenta, yellow)))
