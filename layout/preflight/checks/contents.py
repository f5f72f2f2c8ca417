"""The contents, as they are printed: each line names the page of its heading."""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Final

from layout.preflight.checks.finding import Finding
from layout.preflight.reading.finished import FinishedFile, Leaf
from layout.preflight.reading.phrases import Phrase, has_all_words, in_words, plain

NUMBER: Final = r"(?:[0-9]{1,5}|[ivxlcdm]{1,12})"
ORDERS: Final = (
    re.compile(rf"(?P<label>{NUMBER})\s+(?P<title>.+)"),
    re.compile(rf"(?P<title>.+?)[\s.·…]+(?P<label>{NUMBER})"),
)
"""Lines of contents: the number first, or last behind leaders."""

COLUMN_EMS: Final = 1.4
"""The gap between two columns of entries, at the least."""

FEWEST: Final = 3
"""True lines that make a page one of the contents."""


@dataclass(frozen=True, slots=True)
class Entry:
    """A line of the contents: the page it stands on, the label and the title that it names."""

    leaf: Leaf
    label: str
    title: str
    size: float
    named: Leaf | None


def entries_of(file: FinishedFile) -> list[Entry]:
    """The lines of the contents, in their order; none where the file has no contents."""
    by_label = {leaf.label: leaf for leaf in file.leaves}
    found: list[Entry] = []
    for leaf in file.leaves:
        either = [list(_entries(leaf, by_label, order)) for order in ORDERS]
        entries = max(either, key=lambda each: len(_true_ahead(each)))
        true = _true_ahead(entries)
        if len(true) >= FEWEST and 2 * len(true) >= len(entries):
            found += entries
        elif found:
            break
    return found


def _true_ahead(entries: Iterable[Entry]) -> list[Entry]:
    """The lines that name a later page, which has their words."""
    later = (each for each in entries if each.named and each.named.number > each.leaf.number)
    return [each for each in later if is_true(each)]


def _entries(leaf: Leaf, by_label: Mapping[str, Leaf], order: re.Pattern[str]) -> Iterator[Entry]:
    for _, line in groupby(leaf.phrases, key=lambda each: round(each.baseline)):
        whole = list(line)
        columns = [(each, order.fullmatch(_text(each))) for each in _columns(whole)]
        if not all(match for _, match in columns):
            columns = [(whole, order.fullmatch(_text(whole)))]
        for phrases, match in columns:
            if match and any(map(str.isalpha, match["title"])):
                size, named = max(each.size for each in phrases), by_label.get(match["label"])
                yield Entry(leaf, match["label"], match["title"], size, named)


def _columns(line: Sequence[Phrase]) -> list[list[Phrase]]:
    """The phrases of a line, parted where a number stands behind a wide gap."""
    found: list[list[Phrase]] = []
    for index, each in enumerate(line):
        gap = each.box[0] - line[index - 1].box[2] if index else 0.0
        begins = gap > COLUMN_EMS * each.size and re.match(NUMBER + r"(?!\w)", each.text)
        if begins or not found:
            found.append([])
        found[-1].append(each)
    return found


def _text(phrases: Iterable[Phrase]) -> str:
    return " ".join(each.text for each in phrases)


def is_true(entry: Entry) -> bool:
    """Whether the page that a line names has its words."""
    return entry.named is not None and has_words(entry.named, entry.title)


def has_words(leaf: Leaf, words: str) -> bool:
    """Whether all words stand on a page, in some order: a number may stand apart from its title."""
    return has_all_words(in_words(leaf.phrases), words)


def check_contents(file: FinishedFile, entries: Sequence[Entry]) -> Iterator[Finding]:
    """Lines that name a page without their words, and headings that no line names."""
    for entry in entries:
        if not is_true(entry):
            words = f"the contents name page {entry.label} for “{entry.title}”, which is not there"
            yield Finding("contents", entry.leaf.number, words)
    titles = {plain(entry.title) for entry in entries}
    for leaf in _openers(file, entries):
        heading = heading_of(leaf)
        if plain(heading) not in titles:
            words = f"the contents do not name the heading “{heading}”"
            yield Finding("contents", leaf.number, words)


def parts(entries: Sequence[Entry]) -> list[Entry]:
    """The lines of the contents in the largest letters, where there are lesser ones."""
    sizes = {round(entry.size, 1) for entry in entries}
    return [entry for entry in entries if round(entry.size, 1) == max(sizes)] if sizes else []


def heading_of(leaf: Leaf) -> str:
    """The words of a page in its largest letters, those that follow each other as one."""
    largest = max((each.size for each in leaf.phrases), default=0.0)
    return " ".join(each.text for each in leaf.phrases if abs(each.size - largest) < 0.05)


def _openers(file: FinishedFile, entries: Sequence[Entry]) -> Iterator[Leaf]:
    """Pages after the contents with a heading in the font and size of those of the parts."""
    looks = {
        _look(max(entry.named.phrases, key=lambda each: each.size))
        for entry in parts(entries)
        if entry.named is not None and entry.named.phrases
    }
    if len(looks) != 1:
        return
    last = max(entry.leaf.number for entry in entries)
    for leaf in file.leaves[last:]:
        if any(_look(each) in looks for each in leaf.phrases):
            yield leaf


def _look(phrase: Phrase) -> tuple[float, str]:
    return round(phrase.size, 1), phrase.letters[0].face.name
