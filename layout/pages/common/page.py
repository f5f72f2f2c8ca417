"""A page before its place in the book is known, and a part of the book made of pages."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import partial
from typing import TypeAlias

from layout.picture.items import Anchor, Item

Labels: TypeAlias = Mapping[str, str]
"""The label of the page that each anchor stands on."""

Draw: TypeAlias = Callable[[Labels], Iterable[Item]]
"""Gives the items of a page's text area, counted from its upper left corner."""


@dataclass(frozen=True, slots=True)
class Reference:
    """A sentence that names the page of an anchor: "answer on page {page}".

    Where it leads to `more` of them that stand on several pages, the sentence is another one:
    "answers on pages {pages}".
    """

    sentence: str
    anchor: str
    several: str = ""
    more: tuple[str, ...] = ()

    @property
    def anchors(self) -> tuple[str, ...]:
        """All that it leads to."""
        return (self.anchor, *self.more)


@dataclass(frozen=True, slots=True)
class Page:
    """One page: what stands in its text area, and what is printed around it.

    `anchors` name places in it for links and references. `head` is the running head of a
    recto; where it is empty neither side has one. `references` stand in the foot, opposite the
    folio; where they have no room side by side, over one another.
    """

    draw: Draw
    anchors: tuple[Anchor, ...] = ()
    head: str = ""
    folio: bool = True
    references: tuple[Reference, ...] = ()


@dataclass(frozen=True, slots=True)
class PartPages:
    """The pages of a part of a book; the first of them is a recto unless it may be any."""

    pages: tuple[Page, ...]
    front_matter: bool = False
    on_recto: bool = True


def fixed(items: Iterable[Item]) -> Draw:
    """Draws the same whatever the page numbers are."""
    return partial(_same, tuple(items))


def _same(items: tuple[Item, ...], labels: Labels) -> Iterable[Item]:
    return items


BLANK = Page(fixed(()), folio=False)
