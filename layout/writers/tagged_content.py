"""Pages drawn passage by passage, each marked for the structure tree (ISO 32000-1, 14.7.4)."""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import chain
from math import inf
from typing import Final

from layout.picture.items import Anchor, Item, Path, Point, Text
from layout.writers.passages import Kind, Passage, Run, passages
from layout.writers.pdf_content import POINT, Content

NOWHERE: Final = (inf, inf, -inf, -inf)
"""The box around nothing yet."""


@dataclass(frozen=True, slots=True)
class Piece:
    """A run of marked content by its number on the page; `link` is that of its link, if it is one.

    `words` is what the link says.
    """

    mcid: int
    link: int | None = None
    words: str = ""


@dataclass(frozen=True, slots=True)
class Element:
    """A passage as the tree has it; `box` is around a figure: left, bottom, right and top."""

    kind: Kind
    pieces: tuple[Piece, ...]
    alt: str = ""
    box: tuple[float, float, float, float] = (0.0, 0.0, 0.0, 0.0)


class TaggedContent(Content):
    """Draws one page with its passages marked, and keeps what the tree is made of."""

    elements: list[Element]

    def draw(self, items: Iterable[Item]) -> bytes:
        """The content of the page with its passages in their order."""
        self.elements = []
        self._marked, self._box = 0, NOWHERE
        for passage in passages(items):
            self._passage(passage)
        return self._finished()

    def _passage(self, passage: Passage) -> None:
        if passage.kind == "Artifact":
            self._artifact(passage)
            return
        self._box = NOWHERE
        pieces = tuple([self._piece(passage.kind, run) for run in passage.runs])
        self.elements.append(Element(passage.kind, pieces, passage.alt, self._box))

    def _artifact(self, passage: Passage) -> None:
        """What is passed over; anchors are not even drawn."""
        for run in passage.runs:
            drawn = not all(isinstance(item, Anchor) for item in run.items)
            if drawn:
                self._mark("/Artifact BMC")
            self._draw_at(run.x, run.y, run.items)
            if drawn:
                self._mark("EMC")

    def _piece(self, kind: Kind, run: Run) -> Piece:
        number, self._marked = self._marked, self._marked + 1
        self._mark(f"/{'Link' if run.link else kind} <</MCID {number}>> BDC")
        self._draw_at(run.x, run.y, run.items)
        self._mark("EMC")
        if run.link is None:
            return Piece(number)
        self.link(run.link)
        words = "".join(item.text for item in run.items if isinstance(item, Text)).strip()
        return Piece(number, len(self.links) - 1, words)

    def _mark(self, operators: str) -> None:
        self._leave_text()
        self._lines.append(operators)

    def text(self, text: Text) -> None:
        """Shows a text; its origin lies in the box around the passage."""
        super().text(text)
        if text.text:
            self._grow([(text.x, text.y)])

    def _path(self, path: Path) -> str:
        for contour in path:
            pairs = (zip(each[::2], each[1::2], strict=True) for each in contour.segments)
            self._grow([contour.start, *chain.from_iterable(pairs)])
        return super()._path(path)

    def _grow(self, points: Iterable[Point]) -> None:
        """Makes the box so large that it holds some points, to a third of a micrometre."""
        left, bottom, right, top = self._box
        for x, y in points:
            across = round(self._left + x * POINT, 3)
            up = round(self._top - y * POINT, 3)
            left, bottom = min(left, across), min(bottom, up)
            right, top = max(right, across), max(top, up)
        self._box = left, bottom, right, top
