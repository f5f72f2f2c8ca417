"""Links and the outline lead where their words say."""

import re
from collections.abc import Iterator
from typing import Final

from layout.preflight.checks.contents import has_words
from layout.preflight.checks.finding import Finding
from layout.preflight.reading.finished import FinishedFile, Leaf, LinkBox
from layout.preflight.reading.marks import Letter
from layout.preflight.reading.phrases import Phrase, phrases_of

NUMERAL: Final = re.compile(r"[0-9]{1,5}|[ivxlcdm]{1,12}")


def check_links(file: FinishedFile) -> Iterator[Finding]:
    """Links and lines of the outline that lead nowhere or elsewhere."""
    for leaf in file.leaves:
        for link in leaf.links:
            yield from _of_link(file, leaf, link)
    before = 0
    for line in file.outline:
        page = line.target.page
        if not page:
            yield Finding("links", 0, f"the outline's line “{line.title}” leads nowhere")
        elif not has_words(file.leaves[page - 1], line.title):
            words = f"the outline leads here for “{line.title}”, which is not on the page"
            yield Finding("links", page, words)
        elif page < before:
            yield Finding("links", page, f"the outline leads back to here for “{line.title}”")
        before = max(before, page)


def _of_link(file: FinishedFile, leaf: Leaf, link: LinkBox) -> Iterator[Finding]:
    if link.target.uri:
        return
    if not link.target.page:
        yield Finding("links", leaf.number, f"a link leads nowhere: “{_words(leaf, link)}”")
        return
    there, words = file.leaves[link.target.page - 1], _words(leaf, link)
    if not words:
        yield Finding("links", leaf.number, f"a link to page {there.label} lies over no words")
        return
    ends = words.split()[:1] + words.split()[-1:]
    if not any(map(NUMERAL.fullmatch, ends)) or there.label in ends:
        return
    if not has_words(there, f"{words} {_beside(leaf, link)}"):
        yield Finding("links", leaf.number, f"a link over “{words}” leads to page {there.label}")


def _words(leaf: Leaf, link: LinkBox) -> str:
    """What stands under a link."""
    under = (letter for phrase in leaf.phrases for letter in _within(phrase, link))
    return " ".join(phrase.text for phrase in phrases_of(under))


def _beside(leaf: Leaf, link: LinkBox) -> str:
    """What stands right of a link in its line: a number is not enough to know a page by."""
    right = [
        phrase
        for phrase in leaf.phrases
        if phrase.box.left >= link.box.right - 0.5
        and link.box.bottom <= phrase.baseline <= link.box.top
    ]
    return right[0].text if right else ""


def _within(phrase: Phrase, link: LinkBox) -> Iterator[Letter]:
    if not phrase.box.common(link.box).is_empty():
        for letter in phrase.letters:
            if letter.box is not None and link.box.has(letter.box.centre):
                yield letter
