"""Notes to words: the marks that lead to them, and their own words set small."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import count, islice
from typing import Final

from layout.type.face import Voices
from layout.type.fonts import Font
from layout.type.lines import Line
from layout.type.markup import NOTED, MarkupBlock, VoicedText
from layout.type.paragraph import Align, set_paragraph
from layout.type.typography import TIE

SUPERIORS: Final = "⁰¹²³⁴⁵⁶⁷⁸⁹"
SIGNS: Final = "*†‡§"
"""What notes are marked with where a font has no superior figures, doubled where they are spent."""

SMALLER: Final = 0.82
"""The size of notes, as a share of that of the words that they belong to."""


@dataclass(frozen=True, slots=True)
class Note:
    """A note, set: its lines as they stand at the foot of a page."""

    lines: tuple[Line, ...]


def note_voices(voices: Voices, least: float) -> Voices:
    """The fonts of notes to words in some voices: smaller, but none under `least` (the em)."""
    share = max(SMALLER, min(least / voices.size, 1.0))
    return Voices(
        voices.roman, voices.italic, voices.bold, share * voices.size, share * voices.leading
    )


def marks(wanted: int, of: Font) -> tuple[str, ...]:
    """The marks of so many notes in a font: superior figures, or signs where it lacks any."""
    figures = [
        "".join(SUPERIORS[int(digit)] for digit in str(number)) for number in range(1, wanted + 1)
    ]
    if all(of.has(char) for figure in figures for char in figure):
        return tuple(figures)
    signs = (sign * times for times in count(1) for sign in SIGNS)
    return tuple(islice(signs, wanted))


def marked(runs: Sequence[VoicedText], left: Sequence[str]) -> tuple[VoicedText, ...]:
    """The runs with the marks of their notes, taken in order."""
    own = iter(left)
    return tuple(VoicedText(next(own)) if run.text == NOTED else run for run in runs)


def lines_of_marks(block: MarkupBlock, own: Sequence[str], lines: Sequence[Line]) -> list[int]:
    """The line on which each mark of a set block came to stand.

    A mark is found by how many like it stand before it in the block: figures may stand in words.
    """
    found, before, left = [], "", iter(own)
    for run in block.runs:
        if run.text != NOTED:
            before += run.text
            continue
        mark = next(left)
        found.append(_line_with(mark, before.count(mark), lines))
        before += mark
    return found


def _line_with(mark: str, earlier: int, lines: Sequence[Line]) -> int:
    for index, line in enumerate(lines):
        here = line.text.count(mark)
        if earlier < here:
            return index
        earlier -= here
    return len(lines) - 1


def set_note(
    mark: str,
    runs: Sequence[VoicedText],
    voices: Voices,
    measure: float,
    align: Align,
    language: str,
) -> Note:
    """A note with its mark before it, in voices of its own."""
    said = (VoicedText(mark + TIE), *runs)
    return Note(set_paragraph(said, voices, measure, align, 0.0, language))
