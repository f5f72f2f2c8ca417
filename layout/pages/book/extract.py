"""Some pages of a document, as a document of their own."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from layout.picture.document import Document, Leaf
from layout.picture.items import Anchor, Group, Item, Link, one_by_one


@dataclass(frozen=True, slots=True)
class PageRange:
    """From one page to another, both by the labels that a reader sees ("iv", "31")."""

    first: str
    last: str

    def __str__(self) -> str:
        return self.first if self.first == self.last else f"{self.first}-{self.last}"


class NoSuchPage(Exception):  # noqa: N818 - what is wrong, in the editor's terms
    """The document has no page of that label, or the last page stands before the first."""


def extract(document: Document, pages: PageRange) -> Document:
    """Those pages alone; links and lines of the outline that lead elsewhere are left out.

    Raises NoSuchPage.
    """
    leaves = _leaves_of(document.leaves, pages)
    drawn = (item for leaf in leaves for item in one_by_one(leaf.items))
    anchors = frozenset(item.name for item in drawn if isinstance(item, Anchor))
    kept = tuple(
        replace(leaf, items=tuple(_without_loose_links(leaf.items, anchors))) for leaf in leaves
    )
    outline = tuple(
        replace(entry, level=0) for entry in document.outline if entry.anchor in anchors
    )
    return replace(document, leaves=kept, outline=outline)


def _leaves_of(leaves: Sequence[Leaf], pages: PageRange) -> Sequence[Leaf]:
    labels = [leaf.label for leaf in leaves]
    for label in (pages.first, pages.last):
        if label not in labels:
            raise NoSuchPage(f"there is no page {label}; they go from {labels[0]} to {labels[-1]}")
    first, last = labels.index(pages.first), labels.index(pages.last)
    if last < first:
        raise NoSuchPage(f"page {pages.last} stands before page {pages.first}")
    return leaves[first : last + 1]


def _without_loose_links(items: Iterable[Item], anchors: frozenset[str]) -> Iterator[Item]:
    for item in items:
        if isinstance(item, Group):
            yield replace(item, items=tuple(_without_loose_links(item.items, anchors)))
        elif not isinstance(item, Link) or item.target in anchors:
            yield item
