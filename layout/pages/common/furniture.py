"""What is printed around the text area: running heads, folios, references in the foot."""

from collections.abc import Iterable, Iterator, Sequence
from math import fsum
from typing import Final

from layout.language.words import fill
from layout.pages.common.design import Design, refer
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
    """References side by side at the inner edge; the last alone where they would meet the folio."""
    layout, face = design.format, design.faces.note
    apart = BETWEEN_REFERENCES * face.size
    widths = [
        one_line(fill(each.sentence, page=labels.get(each.anchor, "")), face).width
        for each in references
    ]
    taken = fsum(widths) + apart * len(widths) + one_line(label, design.faces.folio).width
    if taken > layout.measure:
        references, widths = references[-1:], widths[-1:]
    left = layout.left(recto)
    x = left if recto else left + layout.measure - fsum(widths) - apart * (len(widths) - 1)
    for each, width in zip(references, widths, strict=True):
        yield from refer(each, labels, face, x, layout.folio, layout.measure)
        x += width + apart


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
