"""Rows that lead somewhere: lines of the contents and of an index."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from layout.pages.common.design import Design, cap, link_over
from layout.pages.common.page import Page, fixed
from layout.pages.common.prose_pages import WHITE, chapter_title, rows_below, rows_in
from layout.picture.items import Anchor, Item
from layout.type.lines import Line
from layout.type.prose import ProseRow, cut_pages

WHITE_AT_TOP: Final = 1.4
"""White under a title at the top of a page, in leadings."""


@dataclass(frozen=True, slots=True)
class LinkedRow(ProseRow):
    """A row some lines of which are links: where each starts, and the anchor it leads to."""

    links: tuple[tuple[float, Line, str], ...] = ()

    @property
    def empty(self) -> bool:
        """Whether nothing stands in it."""
        return not (self.lines or self.links)


def listing_pages(
    title: str, anchor: str, rows: Sequence[LinkedRow], design: Design
) -> tuple[Page, ...]:
    """A title and the rows under it, on as many pages as they need; none without rows.

    The title stands at the top of the text area where that saves the second of two pages.
    """
    pages = _listing(title, anchor, rows, design, at_top=False)
    if len(pages) == 2:
        fewer = _listing(title, anchor, rows, design, at_top=True)
        pages = fewer if len(fewer) == 1 else pages
    return pages


def _listing(
    title: str, anchor: str, rows: Sequence[LinkedRow], design: Design, *, at_top: bool
) -> tuple[Page, ...]:
    items, y = chapter_title(title, design, at_top=at_top)
    voices = design.faces.prose
    white = WHITE_AT_TOP if at_top else WHITE
    above, room = rows_below(y, voices, white), rows_in(design.depth, voices)
    return tuple(
        Page(fixed(_linked_items(page, 0, design)), head=title)
        if index
        else Page(fixed([*items, *_linked_items(page, above, design)]), (Anchor(anchor, 0.0),))
        for index, page in enumerate(cut_pages(rows, room, room - above))
    )


def _linked_items(rows: Sequence[LinkedRow], first: int, design: Design) -> Iterator[Item]:
    """Rows on the baseline grid from its row `first`, with their links."""
    voices = design.faces.prose
    for index, row in enumerate(rows, start=first):
        y = cap(voices) + index * voices.leading
        for x, line in row.lines:
            yield from line.at(x, y)
        for x, line, anchor in row.links:
            yield from line.at(x, y)
            yield link_over(line, x, y, anchor)
