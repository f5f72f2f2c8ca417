"""The spine of a cover: title and author from top to bottom, where it is wide enough."""

from collections.abc import Iterator
from typing import Final

from layout.pages.common.design import Design
from layout.picture.items import Fill, Item, Stroke
from layout.picture.shapes import rectangle
from layout.press.label import FRAME
from layout.press.turned import turned_line
from layout.press.wrap import Wrap
from layout.type.face import Face
from layout.type.fonts import font
from layout.type.lines import Line
from layout.type.paragraph import one_line
from layout.type.typography import polish

CLEAR: Final = 1.5875
"""What stays free of letters on each side of the spine: 0.0625 in (common practice)."""

INSET: Final = 0.7
"""How far the label keeps from the folds, in millimetres."""

LARGEST: Final = 0.5
"""The most of the spine's width that a letter's em takes."""

PADDING: Final = 1.3
"""White before and after the words, in ems."""


def spine_items(title: str, author: str, wrap: Wrap, design: Design, top: float) -> Iterator[Item]:
    """A label with the title, and one with the author at the foot if the spine takes it too."""
    quotes, face = design.words.quote_marks, design.faces.author
    named = _line(polish(title, quotes), face, wrap.spine, design.page.least)
    if named is None or named.width > wrap.height - 2 * top:
        return
    length = named.width + 2 * PADDING * named.size
    yield from _label(named, wrap, top, length)
    made = _line(polish(author, quotes), face, wrap.spine, design.page.least, named.size)
    if made is not None and made.size >= named.size * 0.9:
        taken = made.width + 2 * PADDING * made.size
        y = wrap.height - top - taken
        if y > top + length:
            yield from _label(made, wrap, y, taken)


def _line(
    text: str, face: Face, spine: float, least: float, most: float | None = None
) -> Line | None:
    """The words as large as the spine holds them between its clear edges; None under `least`."""
    _, foot, _, head = font(face.font).bounds(text)
    if head <= foot:
        return None
    size = min((spine - 2 * CLEAR) / (head - foot), LARGEST * spine, most or face.size)
    return one_line(text, face.scaled(size / face.size)) if size >= least else None


def _label(line: Line, wrap: Wrap, y: float, length: float) -> Iterator[Item]:
    """White in a fine frame, and the words turned, their ink in the middle of the spine."""
    left, width = wrap.folds[0] + INSET, wrap.spine - 2 * INSET
    box = (rectangle(left, y, width, length),)
    yield Fill(box, 1.0)
    yield Stroke(box, FRAME)
    _, foot, _, head = font(line.spans[0].font).bounds(line.text)
    middle = wrap.folds[0] + wrap.spine / 2
    baseline = middle - (head + foot) / 2 * line.size
    yield from turned_line(line, baseline, y + PADDING * line.size)
