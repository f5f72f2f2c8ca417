"""Links and the outline lead where their words say."""

import re
from collections.abc import Collection, Iterator
from typing import Final

from layout.preflight.checks.contents import has_words
from layout.preflight.checks.finding import Finding
from layout.preflight.checks.references import named_pages
from layout.preflight.reading.finished import FinishedFile, Leaf, LinkBox
from layout.preflight.reading.marks import Letter
from layout.preflight.reading.phrases import Phrase, phrases_of

NUMERAL: Final = re.compile(r"[0-9]{1,5}|[ivxlcdm]{1,12}")


def check_links(file: FinishedFile, sayings: Collection[str]) -> Iterator[Finding]:
    """Links and lines of the outline that lead nowhere or elsewhere."""
    for leaf in file.leaves:
        for link in leaf.links:
            yield from _of_link(file, leaf, link, sayings)
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


def _of_link(
    file: FinishedFile, leaf: Leaf, link: LinkBox, sayings: Collection[str]
) -> Iterator[Finding]:
    if link.target.uri:
        return
    under = _under(leaf, link)
    words = " ".join(phrase.text for phrase in under)
    if not link.target.page:
        yield Finding("links", leaf.number, f"a link leads nowhere: “{words}”")
        return
    there = file.leaves[link.target.page - 1]
    if not words:
        yield Finding("links", leaf.number, f"a link to page {there.label} lies over no words")
        return
    named = [label for phrase in under for label in named_pages(phrase, sayings)]
    if there.label not in named if named else not _may_lead(words, _beside(leaf, link), there):
        yield Finding("links", leaf.number, f"a link over “{words}” leads to page {there.label}")


def _may_lead(words: str, beside: str, there: Leaf) -> bool:
    """Whether words name no page by its number, or this one, or stand on this one."""
    ends = words.split()[:1] + words.split()[-1:]
    if not any(map(NUMERAL.fullmatch, ends)) or there.label in ends:
        return True
    return has_words(there, f"{words} {beside}")


def _under(leaf: Leaf, link: LinkBox) -> tuple[Phrase, ...]:
    """What stands under a link."""
    return phrases_of(letter for phrase in leaf.phrases for letter in _within(phrase, link))


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
