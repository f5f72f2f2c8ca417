"""Fonts as a file embeds them: of each what is shown, in subsets of up to 255 characters.

reportlab knows how a subset is made, and gives its characters their codes as they are met.
"""

from collections.abc import Callable, Iterable, Iterator
from functools import cache, lru_cache
from io import BytesIO
from pathlib import Path as FilePath
from typing import TYPE_CHECKING, Any, Final, TypeAlias, cast

from layout.picture.items import Text
from layout.type.fonts import OWN_FILE, find_font, font, installed_fonts
from layout.type.own_fonts import font_data

if TYPE_CHECKING:
    from reportlab.pdfbase.ttfonts import TTFont

NO_BREAK_SPACE: Final = "\u00a0"

KEPT_RUNS: Final = 4096
"""Runs of text that are kept as they were written: figures above all come again and again."""

Shown: TypeAlias = tuple[tuple[str, str], ...]
"""What shows a run of text: the name of a subset, and the operator with the codes in it."""


class Subsets:
    """The subsets of one file, which grow with what is shown."""

    def __init__(self) -> None:
        from reportlab.pdfgen.canvas import Canvas

        # What a canvas begins with unless told is not embedded.
        begin: Any = _face(installed_fonts()[0]).fontName
        # Its types say nothing of its document.
        self._canvas = cast(Any, Canvas("", pageCompression=0, invariant=1, initialFontName=begin))
        self._document = self._canvas._doc
        self.shown: Callable[[str, str, tuple[float, ...]], Shown] = lru_cache(KEPT_RUNS)(
            self._shown
        )

    def show(self, text: Text) -> Shown:
        """The operators for a text, each character where the advances before it put it.

        Moves are whole thousandths of an em, and none lets the next ones drift. Raises
        MissingFontError, and MissingGlyphError for what the font can't show.
        """
        return self.shown(text.text, text.font, text.advances)

    def _shown(self, text: str, name: str, advances: tuple[float, ...]) -> Shown:
        face = _face(name)
        moves = iter(_moves(text, name, advances))
        return tuple(
            (
                face.getSubsetInternalName(subset, self._document),
                _operator(zip(codes, moves, strict=False)),
            )
            for subset, codes in face.splitString(text, self._document)
        )

    def file(self) -> bytes:
        """A file whose only page has all of them among its resources."""
        self._canvas.showPage()
        data: bytes = self._canvas.getpdfdata()
        return data


def _face(name: str) -> "TTFont":
    return _registered(find_font(name), own=name.startswith(OWN_FILE))


@cache
def _registered(path: FilePath, *, own: bool) -> "TTFont":
    """By its file, since two names of one font must not make two subsets."""
    from reportlab.pdfbase.pdfmetrics import registerFont
    from reportlab.pdfbase.ttfonts import TTFont

    # Else all of ASCII would be embedded, shown or not.
    file = BytesIO(font_data(path)) if own else str(path)
    face = TTFont(str(path), file, asciiReadable=False)
    registerFont(face)
    return face


@cache
def _width(name: str, char: str) -> float:
    """How far showing a character moves on, in 1/1000 of an em; raises MissingGlyphError."""
    font(name).check(char)
    # A subset has one for the other, so that words are found that are typed with plain spaces.
    shown = " " if char == NO_BREAK_SPACE else char
    return _face(name).stringWidth(shown, 1000)


def _moves(text: str, name: str, advances: Iterable[float]) -> list[int]:
    """How much farther than it is wide each character moves on, but the last, which need not."""
    drift, moves = 0.0, []
    for char, advance in zip(text, advances, strict=True):
        moves.append(round(drift))
        drift += advance * 1000 - _width(name, char) - moves[-1]
    return [*moves[1:], 0]


def _operator(codes: Iterable[tuple[int, int]]) -> str:
    """Shows characters by their codes, each with a move after it."""
    told = list(_told(codes))
    if len(told) == 1 and told[0].startswith("("):
        return f"{told[0]} Tj"
    return f"[{' '.join(told)}] TJ"


def _told(codes: Iterable[tuple[int, int]]) -> Iterator[str]:
    """Strings of characters, and the moves between them, which count to the left."""
    from reportlab.lib.rl_accel import escapePDF

    together = b""
    for code, move in codes:
        together += bytes([code])
        if move:
            yield f"({escapePDF(together)})"
            yield str(-move)
            together = b""
    if together:
        yield f"({escapePDF(together)})"
