"""Lines of text, set: every character has its place."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import fsum

from layout.picture.items import Text


@dataclass(frozen=True, slots=True)
class Span:
    """A run of a line in one font; `x` counts from the line's left end, in millimetres."""

    x: float
    text: str
    font: str
    advances: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Line:
    """A line at a size (the em, in millimetres); `width` is how far it runs."""

    width: float
    size: float
    spans: tuple[Span, ...]

    def at(self, x: float, y: float, grey: float = 0.0) -> Iterator[Text]:
        """The line's items, its baseline starting at a point."""
        for span in self.spans:
            yield Text(x + span.x, y, span.text, span.font, self.size, span.advances, grey)

    @property
    def text(self) -> str:
        """The characters of the line."""
        return "".join(span.text for span in self.spans)


def set_line(pieces: Sequence[tuple[str, str]], em: float, width: float | None = None) -> Line:
    """Sets pieces, each a font's name and its text, side by side.

    With a `width` the word spaces give so that the line runs exactly that far.
    """
    from layout.type.fonts import font, split_by_font

    runs = [run for name, text in pieces if text for run in split_by_font(name, text)]
    spread = [(name, text, font(name).advances(text)) for name, text in runs]
    natural = fsum(fsum(advances) for _, _, advances in spread) * em
    spaces = sum(text.count(" ") for _, text in pieces)
    give = (width - natural) / em / spaces if width is not None and spaces else 0.0
    spans, x = [], 0.0
    for name, text, advances in spread:
        if give:
            advances = tuple(
                advance + give if char == " " else advance
                for char, advance in zip(text, advances, strict=True)
            )
        spans.append(Span(x, text, name, advances))
        x += fsum(advances) * em
    return Line(x, em, tuple(spans))
