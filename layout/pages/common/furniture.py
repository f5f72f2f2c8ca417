"""What is printed around the text area: running heads, folios, references in the foot."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from math import fsum
from typing import Final

from layout.language.words import fill
from layout.pages.common.design import Design, link_over
from layout.pages.common.format import ASCENT
from layout.pages.common.page import Labels, Page, Reference
from layout.picture.items import Group, Item
from layout.type.face import Face
from layout.type.lines import Line
from layout.type.paragraph import one_line
from layout.type.typography import polish

BETWEEN_REFERENCES: Final = 1.6
"""White between two references in the foot, in ems."""


def furniture(
    page: Page, recto: bool, label: str, book_title: str, design: Design, labels: Labels
) -> Iterator[Item]:
    """Head and foot of a page, in page coordinates; the outer edge is the one off the spine.

    A verso's head is the title of the book, a recto's that of the part.
    """
    layout = design.format
    left = layout.left(recto)
    right = left + layout.measure
    if page.head:
        head = page.head if recto else book_title
        line = shortened(polish(head, design.words.quote_marks), design.faces.head, layout.measure)
        yield _passed_over(line.at(right - line.width if recto else left, layout.head))
    if page.folio:
        line = one_line(label, design.faces.folio)
        yield _passed_over(line.at(right - line.width if recto else left, layout.folio))
    if page.references:
        yield from _references(page.references, recto, label, design, labels)


def _passed_over(items: Iterable[Item]) -> Group:
    """Heads and folios are not read out: they would cut into sentences."""
    return Group(0.0, 0.0, tuple(items), role="furniture")


def _references(
    references: Sequence[Reference], recto: bool, label: str, design: Design, labels: Labels
) -> Iterator[Item]:
    """References side by side at the inner edge, or over one another; else the last alone."""
    layout, face = design.format, design.faces.note
    told = [_told(each, design, labels) for each in references]
    apart = BETWEEN_REFERENCES * face.size
    room = layout.measure - one_line(label, design.faces.folio).width - apart
    left = layout.left(recto)
    taken = fsum(each.line.width for each in told) + apart * (len(told) - 1)
    if taken <= room:
        x = left if recto else left + layout.measure - taken
        for each in told:
            yield from each.at(x, layout.folio)
            x += each.line.width + apart
        return
    y = layout.folio - (len(told) - 1) * face.leading
    if y - ASCENT * face.size < layout.trim.height - layout.foot:
        y, told = layout.folio, told[-1:]
    for each in told:
        yield from each.at(left if recto else left + layout.measure - each.line.width, y)
        y += face.leading


@dataclass(frozen=True, slots=True)
class _ToldReference:
    """A reference in words, and what leads where: parts of its line, each up to a width."""

    line: Line
    parts: tuple[tuple[float, str], ...]

    def at(self, x: float, y: float) -> Iterator[Item]:
        """The line and its links from a point on the baseline on."""
        yield from self.line.at(x, y)
        start = 0.0
        for end, anchor in self.parts:
            link = link_over(self.line, x + start, y, anchor)
            yield replace(link, width=end - start)
            start = end


def _told(reference: Reference, design: Design, labels: Labels) -> _ToldReference:
    """A reference with the pages that it names, each once."""
    face = design.faces.note
    pages = {labels.get(anchor, ""): anchor for anchor in reversed(reference.anchors)}
    named = list(reversed(pages.items()))
    if len(named) == 1:
        line = one_line(fill(reference.sentence, page=named[0][0]), face)
        return _ToldReference(line, ((line.width, reference.anchor),))
    said = fill(reference.several, pages=design.words.lists.join([label for label, _ in named]))
    parts, end = [], 0
    for label, anchor in named:
        end = said.index(label, end) + len(label)
        parts.append((one_line(said[:end], face).width, anchor))
    return _ToldReference(one_line(said, face), tuple(parts))


def shortened(text: str, face: Face, measure: float) -> Line:
    """The words on one line, the last of them left out where they run over."""
    words = text.split(" ")
    line = one_line(text, face)
    while line.width > measure and len(words) > 1:
        words.pop()
        line = one_line(" ".join(words).rstrip(",;:–— ") + "…", face)
    while line.width > measure:
        words = [words[0][:-1]]
        line = one_line(words[0] + "…", face)
    return line
