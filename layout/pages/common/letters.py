"""Whether the fonts of a style sheet have every letter that a book needs."""

import unicodedata
from collections.abc import Iterable, Iterator
from dataclasses import fields
from typing import Final

from layout.pages.common.book import Book
from layout.pages.common.misfit import JobPath, Misfit, Misfits
from layout.style.board import BoardStyle
from layout.style.page import Faces
from layout.style.style import Style
from layout.type.face import Face
from layout.type.fonts import font, named
from verify.puzzle import Puzzle

IGNORED: Final = "\n\t\u00ad"
"""Characters that are never printed themselves."""


def check_letters(book: Book, style: Style) -> None:
    """Raises Misfits for every text with a letter that a font of the style sheet lacks."""
    check_texts(_job_texts(book), (numbered.puzzle for numbered in book.puzzles()), style)


def check_texts(
    texts: Iterable[tuple[JobPath, str]], puzzles: Iterable[Puzzle], style: Style
) -> None:
    """The same for a job's own texts, each with where it stands there, and its puzzles."""
    words = _fonts(style.page.faces)
    found = [_misfit(text, words, path, None, "") for path, text in texts]
    misfits = [misfit for misfit in (*found, *_in_puzzles(puzzles, style)) if misfit]
    if misfits:
        raise Misfits(misfits)


def _in_puzzles(puzzles: Iterable[Puzzle], style: Style) -> Iterator[Misfit | None]:
    words, digits = _fonts(style.page.faces), _digit_fonts(style.board)
    for puzzle in puzzles:
        yield from (_misfit(text, words, (), puzzle, name) for name, text in _texts(puzzle))
        yield _misfit("".join(puzzle.symbols), digits, (), puzzle, "symbols")


def _fonts(faces: Faces) -> tuple[str, ...]:
    """Every font that words are set in, each once."""
    names: dict[str, None] = {}
    for field in fields(faces):
        face = getattr(faces, field.name)
        used = (face.font,) if isinstance(face, Face) else (face.roman, face.italic, face.bold)
        names.update(dict.fromkeys(used))
    return tuple(names)


def _digit_fonts(style: BoardStyle) -> tuple[str, ...]:
    digits, steps = style.digits, style.steps
    return tuple(
        dict.fromkeys((digits.given, digits.filled, steps.mark, steps.strong, steps.placed))
    )


def _job_texts(book: Book) -> Iterator[tuple[JobPath, str]]:
    """The job's own words, and where they stand in it."""
    yield ("title",), book.title
    yield ("subtitle",), book.subtitle
    yield ("author",), book.author
    yield ("imprint", "publisher"), book.imprint.publisher
    yield ("imprint", "edition"), book.imprint.edition
    yield ("imprint", "copyright"), book.imprint.copyright
    matter = book.matter
    yield ("running-title",), matter.running_title
    yield ("front", "dedication"), matter.dedication
    yield ("front", "foreword"), matter.foreword
    yield ("back", "afterword"), matter.afterword
    yield ("back", "about"), matter.about
    for index, line in enumerate(book.imprint.lines):
        yield ("imprint", "others", index), line
    for index, section in enumerate(book.sections):
        yield ("sections", index, "title"), section.title
        yield ("sections", index, "running-title"), section.running_title
        yield ("sections", index, "intro"), section.intro


def _texts(puzzle: Puzzle) -> Iterator[tuple[str, str]]:
    """What is printed of a manifest's words, by their field."""
    yield "title", puzzle.title
    yield "constructor", puzzle.credits.constructor
    yield "words", puzzle.words


def _misfit(
    text: str, names: tuple[str, ...], path: JobPath, puzzle: Puzzle | None, field: str
) -> Misfit | None:
    """What is missing, or None. The first letter is told; a text has often many of a kind."""
    for char in unicodedata.normalize("NFC", text):
        lacking = next((name for name in names if not font(name).shows(char)), None)
        if lacking is not None and char not in IGNORED:
            message = (
                f'found {named(char)}, which the font "{font(lacking).name}" of this style has not'
            )
            return Misfit(message, path, puzzle, field)
    return None
