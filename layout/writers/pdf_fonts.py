"""Fonts as a canvas knows them: by the name of their file, with widths of their own.

reportlab embeds of each font what is shown, in subsets of up to 255 characters.
"""

from collections.abc import Iterable
from functools import cache, lru_cache
from io import BytesIO
from pathlib import Path as FilePath
from typing import Final

from layout.picture.items import Group, Item, Text
from layout.type.fonts import OWN_FILE, find_font, font
from layout.type.own_fonts import font_data

NO_BREAK_SPACE: Final = "\u00a0"


@cache
def canvas_font(name: str) -> str:
    """What a canvas calls the font of that name; raises MissingFontError.

    By its file, since two names of one font must not make two subsets.
    """
    return _registered(find_font(name), own=name.startswith(OWN_FILE))


def first_font(items: Iterable[Item]) -> str | None:
    """The font of the first text among some items."""
    for item in items:
        if isinstance(item, Text):
            return item.font
        if isinstance(item, Group) and (found := first_font(item.items)):
            return found
    return None


@cache
def _registered(path: FilePath, *, own: bool) -> str:
    from reportlab.pdfbase.pdfmetrics import registerFont
    from reportlab.pdfbase.ttfonts import TTFont

    # Else all of ASCII would be embedded, shown or not.
    file = BytesIO(font_data(path)) if own else str(path)
    registerFont(TTFont(str(path), file, asciiReadable=False))
    return str(path)


@cache
def _width(name: str, char: str) -> float:
    """How far a canvas moves on for a character, in 1/1000 of an em; raises MissingGlyphError."""
    from reportlab.pdfbase.pdfmetrics import stringWidth

    font(name).check(char)
    # A canvas shows one for the other, so that words are found that are typed with plain spaces.
    shown = " " if char == NO_BREAK_SPACE else char
    return stringWidth(shown, canvas_font(name), 1000)


def moved(text: Text) -> str:
    """The text as a canvas is to show it, each character where the advances before it put it.

    Moves are whole thousandths of an em, and none lets the next ones drift. Raises
    MissingGlyphError for what the font can't show.
    """
    return _moved(text.text, text.font, text.advances)


@lru_cache(maxsize=65536)
def _moved(text: str, name: str, advances: tuple[float, ...]) -> str:
    drift, moves = 0.0, []
    for char, advance in zip(text, advances, strict=True):
        moves.append(round(drift))
        drift += advance * 1000 - _width(name, char) - moves[-1]
    if not any(moves):
        return text
    return _shaped(text, (*moves[1:], 0))


def _shaped(text: str, moves: Iterable[int]) -> str:
    """A text with a move after each of its characters, in 1/1000 of an em."""
    from reportlab.pdfbase.ttfonts import ShapeData, ShapedStr

    # A canvas writes by how much the advance is more than the width, and neither of them.
    shape = [
        ShapeData(0, x_advance=move, y_advance=0, x_offset=0, y_offset=0, width=0) for move in moves
    ]
    # The types of reportlab don't say that it is a list.
    return ShapedStr(text, shape)  # type: ignore[arg-type]
