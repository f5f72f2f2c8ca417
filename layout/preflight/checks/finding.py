"""What a check found, and the list of all checks."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

CHECKS: Final[Mapping[str, str]] = {
    "content": "what is on each page can be read",
    "boxes": "trim in bleed in medium, and the same trim on every page",
    "fonts": "embedded, with a glyph and a text for all that is shown",
    "colours": "grey, CMYK or one spot ink, and no more of it than dries",
    "lines": "no line too thin to print",
    "type": "no letter too small to read",
    "hidden": "no letter painted over by what comes later",
    "margin": "ink inside the safe margin, or over the trim as far as the bleed",
    "images": "pixels enough for a press",
    "parity": "parts on right-hand pages, blanks only before them, an even number of pages",
    "labels": "page labels are the printed page numbers",
    "links": "each leads to the page that its words name; the outline to its words",
    "references": "each page that words name is there",
    "contents": "each line of the contents names the page of its heading",
    "metadata": "title, language and identifiers; both kinds of metadata agree",
    "standard": "the keys and bans of the standard that the file claims",
    "grids": "a grid for each puzzle and one for its answer, in order",
    "titles": "the title of each puzzle stands by its own grid",
    "givens": "each given in its cell, and no other digit",
    "answers": "each answer grid holds the answer of a fresh proof",
    "diagrams": "no digit in a walk's diagram that is not of its answer",
    "frames": "a line between any two cells, a heavy one between boxes and regions",
    "shapes": "each shape runs through the cells of its mark, and no line anywhere else",
    "marks": "sums and signs stand at the cells of their marks",
    "clues": "each clue stands beside its row, column or diagonal",
    "cross references": "puzzles name the page of their answer, answers that of their puzzle",
}
"""What each check of pages looks at, in the order of a report; the last ones need a job."""

OTHER_CHECKS: Final[Mapping[str, str]] = {
    "bar code": "bars of thirteen digits that say the number in words, with quiet zones",
    "spine": "as wide as the pages of the job are thick, and as high as they are",
    "sides": "two for each sheet, and as many as the pages of the job take",
}
"""What covers and sheets are asked instead."""

WITH_JOB: Final = tuple(CHECKS)[16:]

NEED_JOB: Final = (*WITH_JOB, "spine")

CERTAIN: Final = frozenset(
    ["content", "boxes", "fonts", "colours", "metadata", "standard", "grids", "givens", "answers"]
)
"""Checks that read facts alone. The others weigh what a page looks like, which may mislead them:
a style sheet may ask for a dash as long as a cell, an introduction for a page of another book.
"""


@dataclass(frozen=True, slots=True)
class Finding:
    """Something that is not as it should be. `page` counts from 1, and is 0 for the whole file."""

    check: str
    page: int
    words: str
