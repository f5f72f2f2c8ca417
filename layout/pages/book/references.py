"""Where a puzzle's page sends its reader: to the hints, if there are any, and to the answer."""

from layout.pages.common.book import Numbered
from layout.pages.common.design import Design
from layout.pages.common.page import Reference


def references_of(numbered: Numbered, design: Design, *, hinted: bool) -> tuple[Reference, ...]:
    """The references of a puzzle in a book with hints or without."""
    words = design.words.pages
    hints = Reference(words.hints_on, numbered.hints_anchor)
    answer = Reference(words.answer_on, numbered.answer_anchor)
    return (hints, answer) if hinted and numbered.path and numbered.path.steps else (answer,)
