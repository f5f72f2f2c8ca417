"""What a check found, and the list of all checks."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

CHECKS: Final[Mapping[str, str]] = {
    "content": "what is on each page can be read",
    "boxes": "trim in bleed in medium, and the same trim on every page",
    "fonts": "embedded, with a glyph and a text for all that is shown",
    "colours": "grey, CMYK or a spot ink",
    "lines": "no line too thin to print",
    "type": "no letter too small to read",
    "margin": "ink inside the safe margin, or over the trim as far as the bleed",
    "images": "pixels enough for a press",
    "parity": "parts on right-hand pages, blanks only before them, an even number of pages",
    "labels": "page labels are the printed page numbers",
    "links": "each leads to the page that its words name; the outline to its words",
    "references": "each page that words name is there",
    "contents": "each line of the contents names the page of its heading",
    "metadata": "title, language and identifiers; both kinds of metadata agree",
    "standard": "the keys and bans of the standard that the file claims",
}
"""What each check looks at, in the order of a report."""


@dataclass(frozen=True, slots=True)
class Finding:
    """Something that is not as it should be. `page` counts from 1, and is 0 for the whole file."""

    check: str
    page: int
    words: str
