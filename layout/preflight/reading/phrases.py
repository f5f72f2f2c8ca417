"""Letters put together to what is read at one go: words on one line, without a wide gap."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Final
from unicodedata import normalize

from layout.preflight.reading.geometry import Box, around_all
from layout.preflight.reading.marks import Letter

WIDE_GAP: Final = 1.0
"""Ems of white that part two phrases."""

WORD_GAP: Final = 0.12
"""Ems of white that part two words where no space is set."""

SAME_LINE: Final = 0.6
"""Points by which letters of one line may rise or sink."""


@dataclass(frozen=True, slots=True)
class Phrase:
    """Letters of one line: their text, the box of their ink, their baseline and largest em."""

    text: str
    box: Box
    baseline: float
    size: float
    letters: tuple[Letter, ...]


def phrases_of(letters: Iterable[Letter]) -> tuple[Phrase, ...]:
    """The phrases of a page, from the top, and on each line from the left."""
    inked = [each for each in letters if each.box is not None]
    inked.sort(key=lambda each: -each.origin[1])
    found: list[Phrase] = []
    for line in _lines(inked):
        found.extend(map(_phrase, _parted(sorted(line, key=lambda each: each.origin[0]))))
    return tuple(found)


def _lines(letters: list[Letter]) -> Iterator[list[Letter]]:
    """Letters by their baselines."""
    line: list[Letter] = []
    for letter in letters:
        if line and line[0].origin[1] - letter.origin[1] > SAME_LINE:
            yield line
            line = []
        line.append(letter)
    if line:
        yield line


def _parted(line: list[Letter]) -> Iterator[list[Letter]]:
    part = line[:1]
    for letter in line[1:]:
        if letter.origin[0] - part[-1].end[0] > WIDE_GAP * max(letter.size, part[-1].size):
            yield part
            part = []
        part.append(letter)
    yield part


def _phrase(letters: list[Letter]) -> Phrase:
    text = letters[0].text
    for before, letter in pairwise(letters):
        gap = letter.origin[0] - before.end[0]
        text += (" " if gap > WORD_GAP * letter.size else "") + letter.text
    boxes = [letter.box for letter in letters if letter.box is not None]
    size = max(letter.size for letter in letters)
    return Phrase(text, around_all(boxes), letters[0].origin[1], size, tuple(letters))


def plain(text: str) -> str:
    """Text for comparing: letters and digits alone, without ligatures, in lower case."""
    return "".join(char for char in normalize("NFKC", text).lower() if char.isalnum())


SHORTEST_BROKEN: Final = 7
"""Letters from which on a word may be broken at the end of a line."""


def has_all_words(there: str, words: str) -> bool:
    """Whether each word stands in a plain text, whole or broken over two lines."""
    return all(_has_word(there, plain(word)) for word in words.split())


def _has_word(there: str, word: str) -> bool:
    if word in there:
        return True
    places = range(2, len(word) - 1) if len(word) >= SHORTEST_BROKEN else ()
    return any(word[:at] in there and word[at:] in there for at in places)


def in_words(phrases: Iterable[Phrase]) -> str:
    """All of them, for comparing."""
    return "".join(plain(each.text) for each in phrases)
