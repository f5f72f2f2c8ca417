"""Fonts: all embedded, and a glyph and a text for every code that is shown."""

from collections.abc import Iterator

from layout.preflight.checks.finding import Finding
from layout.preflight.reading.faces import Face
from layout.preflight.reading.finished import FinishedFile


def check_fonts(file: FinishedFile) -> Iterator[Finding]:
    """What is wrong with each font, on the first page that has it."""
    told: set[tuple[Face, str]] = set()
    for leaf in file.leaves:
        found = [(face, words) for face in leaf.marks.faces for words in _of_face(face)]
        shown = {(id(letter.face), letter.code): letter for letter in leaf.marks.letters}
        for letter in shown.values():
            glyph = letter.face.glyph(letter.code)
            if letter.face.fault or (glyph.drawn and glyph.told and glyph.fits):
                continue
            found += [(letter.face, words) for words in _of_letter(letter.face, letter.code)]
        for each in found:
            if each not in told:
                told.add(each)
                yield Finding("fonts", leaf.number, each[1])


def _of_face(face: Face) -> Iterator[str]:
    if not face.embedded:
        yield f"{face.name} is not embedded"
    if face.fault:
        yield f"{face.name} can't be read: {face.fault}"


def _of_letter(face: Face, code: int) -> Iterator[str]:
    """What is wrong with a letter that is shown."""
    glyph = face.glyph(code)
    if not glyph.drawn:
        yield f"{face.name} has no glyph for code {code}, so a box is printed"
    if not glyph.told:
        yield f"{face.name} does not say what code {code} stands for"
    if not glyph.fits:
        yield f"{face.name} says another width for {glyph.text!r} than its own program"
