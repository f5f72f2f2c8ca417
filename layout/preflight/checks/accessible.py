"""PDF/UA-1 (ISO 14289-1), as far as a program can see: each finding names the clause.

Clauses as the published rule files of an open validator number them. What only people can judge,
whether an order makes sense or words are right, is not asked.
"""

from collections.abc import Iterator
from typing import Final

from layout.preflight.checks.finding import Finding
from layout.preflight.reading.finished import FinishedFile
from layout.preflight.reading.structure import Element

_TYPES: Final = """\
Document Part Art Sect Div BlockQuote Caption TOC TOCI Index NonStruct Private P H H1 H2 H3 H4 H5 H6
L LI Lbl LBody Table TR TH TD THead TBody TFoot Span Quote Note Reference BibEntry Code Link Annot
Ruby RB RT RP Warichu WT WP Figure Formula Form"""

STANDARD_TYPES: Final = frozenset(_TYPES.split())
"""The types of ISO 32000-1, 14.8.4."""

LIES_IN: Final = {
    "TR": {"Table", "THead", "TBody", "TFoot"},
    "TH": {"TR"},
    "TD": {"TR"},
    "LI": {"L"},
    "LBody": {"LI"},
    "TOCI": {"TOC"},
}
"""What an element of some types has to lie in (7.2)."""


def check_accessible(file: FinishedFile) -> Iterator[Finding]:
    """What stands against the claim that everybody can read a file."""
    for key in ("/MarkInfo", "/StructTreeRoot", "/Metadata", "/ViewerPreferences", "/Lang"):
        if key not in file.catalog:
            yield _told("7.1", f"asks for {key[1:]} in the catalog")
    if not file.xmp.get("dc:title"):
        yield _told("7.1", "asks for a title in the XMP metadata")
    if not file.language:
        yield _told("7.2", "asks for a language")
    for leaf in file.leaves:
        if leaf.marks.untagged:
            yield _told(
                "7.1", "allows no content that is neither tagged nor passed over", leaf.number
            )
        if leaf.marks.crossed:
            yield _told("7.1", "allows no tag within what is passed over", leaf.number)
    structure = file.structure
    if structure is None:
        return
    if not structure.marked or structure.suspect:
        yield _told("6.2", "asks for Marked, and no Suspects")
    if not structure.titled:
        yield _told("7.1", "asks that the title is shown")
    yield from _tree(structure.elements)
    for page in structure.untabbed:
        yield _told("7.18.3", "asks that links are gone through in the order of the tree", page)
    for page in structure.mute:
        yield _told("7.18.5", "asks for words for each link, and an element", page)


def _told(clause: str, words: str, page: int = 0) -> Finding:
    return Finding("standard", page, f"PDF/UA-1 {words} ({clause})")


def _tree(elements: tuple[Element, ...]) -> Iterator[Finding]:
    """What is wrong with the elements by themselves and where they lie."""
    level = 0
    for each in elements:
        if each.kind not in STANDARD_TYPES:
            yield _told("7.1", f"knows no type {each.kind}", each.page)
        if each.within not in LIES_IN.get(each.kind, {each.within}):
            yield _told("7.2", f"allows no {each.kind} in {each.within or 'nothing'}", each.page)
        if each.kind in ("Figure", "Formula") and not each.told.strip():
            clause = "7.3" if each.kind == "Figure" else "7.7"
            yield _told(clause, f"asks for words in the place of each {each.kind}", each.page)
        if each.kind == "TH" and not each.scope:
            yield _told("7.5", "asks what each head of a table is the head of", each.page)
        if each.kind == "Link" and "annotation" not in each.holds:
            yield _told("7.18.5", "asks for a link in each Link", each.page)
        if each.kind[:1] == "H" and each.kind[1:].isdigit():
            found = int(each.kind[1:])
            if found > level + 1:
                yield _told("7.4.2", f"allows no H{found} after {_level(level)}", each.page)
            level = found


def _level(level: int) -> str:
    return f"H{level}" if level else "no heading"
