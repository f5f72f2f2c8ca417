"""Light markup: paragraphs, lists and headings, with emphasis, from plain typed text.

Blank lines part paragraphs; a line that starts with `- ` is an item of a list, one that starts
with `# ` a heading. A paragraph that starts with `1. ` is the first item of a numbered list, and
lines that go on counting are the others. `*so*` is italic and `**so**` bold; a backslash takes the
next character as it is. Where notes are read, `((words))` is a note to what stands before it.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from layout.type.typography import Quotes, polish

Voice: TypeAlias = Literal["roman", "italic", "bold"]
BlockKind: TypeAlias = Literal["paragraph", "item", "heading"]

_ESCAPES: Final = {
    r"\*": "\ue000",
    r"\\": "\ue001",
    r"\-": "\ue002",
    r"\#": "\ue003",
    r"\.": "\ue004",
    r"\(": "\ue005",
}
"""Escaped characters stand in for themselves, out of the markup's sight, until it is read."""

_PLAIN: Final = {own: typed[1:] for typed, own in _ESCAPES.items()}

NOTED: Final = "\ue006"
"""What stands for the mark of a note until it is known how marks look."""

NOTE: Final = re.compile(r"\s*\(\(((?:(?!\n\s*\n).)+?)\)\)(?!\))", re.DOTALL)
"""A note in brackets, which ends with its paragraph at the latest."""


@dataclass(frozen=True, slots=True)
class VoicedText:
    """Words in one voice."""

    text: str
    voice: Voice = "roman"


@dataclass(frozen=True, slots=True)
class MarkupBlock:
    """A paragraph, an item of a list, which may have a number, or a heading.

    `notes` are the words of its notes, one for each run that is NOTED.
    """

    kind: BlockKind
    runs: tuple[VoicedText, ...]
    number: int = 0
    notes: tuple[tuple[VoicedText, ...], ...] = ()


def read_markup(text: str, quotes: Quotes, *, noted: bool = False) -> tuple[MarkupBlock, ...]:
    """The blocks of a text, with the quotes and dashes of the trade; with its notes if `noted`."""
    escaped = re.sub(r"\\[*\\\-#.(]", lambda found: _ESCAPES[found[0]], text)
    notes: list[str] = []

    def marked(found: re.Match[str]) -> str:
        notes.append(" ".join(found[1].split()))
        return NOTED

    if noted:
        escaped = NOTE.sub(marked, escaped.replace(NOTED, ""))
    left = iter(notes)
    return tuple(
        MarkupBlock(
            kind,
            _runs(polish(words, quotes)),
            number,
            tuple(
                _runs(polish(note, quotes)) for _, note in zip(_marks(words), left, strict=False)
            ),
        )
        for kind, words, number in _blocks(escaped.splitlines())
        if words
    )


def _marks(words: str) -> Sequence[str]:
    return re.findall(NOTED, words)


def noted_words(text: str, quotes: Quotes) -> MarkupBlock:
    """A paragraph of words that have notes, but no other markup."""
    notes = [found[1] for found in NOTE.finditer(text)]
    words = NOTE.sub(NOTED, text.replace(NOTED, ""))
    pieces = re.split(f"({NOTED})", polish(words, quotes))
    runs = tuple(VoicedText(piece) for piece in pieces if piece)
    return MarkupBlock("paragraph", runs, 0, tuple(plain_run(note, quotes) for note in notes))


def plain_run(text: str, quotes: Quotes, voice: Voice = "roman") -> tuple[VoicedText, ...]:
    """Words without markup, with the quotes and dashes of the trade."""
    return (VoicedText(polish(text, quotes), voice),)


def _blocks(lines: Sequence[str]) -> Iterator[tuple[BlockKind, str, int]]:
    """Kind, joined words and number of each block."""
    kind: BlockKind = "paragraph"
    words: list[str] = []
    number = last = 0
    for line in (*lines, ""):
        counted = _counted(line)
        if counted != last + 1 or (words and not last):
            counted = 0
        opens: BlockKind | None = "item" if counted else _opening(line)
        if not line.strip() or opens:
            yield kind, " ".join(words), number
            kind, words, number = opens or "paragraph", [], counted
            last = counted if opens else last
        words += line.split()[1 if opens else 0 :]
        if words and kind == "paragraph":
            last = 0
        if opens == "heading":
            yield kind, " ".join(words), 0
            kind, words = "paragraph", []


def _counted(line: str) -> int:
    """The number that a line starts with, or 0."""
    found = re.match(r"\s*([1-9]\d?)\.\s", line)
    return int(found[1]) if found else 0


def _opening(line: str) -> BlockKind | None:
    """What kind of block a line opens, where it says so."""
    if re.match(r"\s*-\s", line):
        return "item"
    return "heading" if re.match(r"\s*#\s", line) else None


def _runs(text: str) -> tuple[VoicedText, ...]:
    """Splits at the asterisks; one that has no partner is printed as it is."""
    pieces = re.split(rf"(\*{{1,2}}|{NOTED})", text)
    last_of = {piece: index for index, piece in enumerate(pieces)}
    runs: list[VoicedText] = []
    voice: Voice = "roman"
    for index, piece in enumerate(pieces):
        wanted = _VOICES.get(piece)
        if wanted and voice == "roman" and _starts(pieces, index, last_of):
            voice = wanted
        elif wanted and voice == wanted:
            voice = "roman"
        elif piece == NOTED:
            runs.append(VoicedText(NOTED))
        elif piece:
            runs.append(VoicedText(_unescaped(piece), voice))
    return tuple(runs)


_VOICES: Final[dict[str, Voice]] = {"*": "italic", "**": "bold"}


def _starts(pieces: Sequence[str], index: int, last_of: dict[str, int]) -> bool:
    """Whether emphasis starts here: words follow at once, and it ends further on."""
    return last_of[pieces[index]] > index and pieces[index + 1][:1].strip() != ""


def _unescaped(text: str) -> str:
    return "".join(_PLAIN.get(char, char) for char in text)
