"""Where a puzzle's page sends its reader: to the hints, if there are any, and to the answer."""

from collections.abc import Sequence

from layout.pages.common.book import Numbered
from layout.pages.common.design import Design
from layout.pages.common.page import Reference


def references_of(numbered: Numbered, design: Design, *, hinted: bool) -> tuple[Reference, ...]:
    """The references of a puzzle in a book with hints or without."""
    return references_of_all([numbered], design, hinted=hinted)


def references_of_all(
    puzzles: Sequence[Numbered], design: Design, *, hinted: bool
) -> tuple[Reference, ...]:
    """The references of puzzles that share a page."""
    words = design.words.pages
    sentence = words.answer_on if len(puzzles) == 1 else words.answers_on
    first, *others = (each.answer_anchor for each in puzzles)
    answers = Reference(sentence, first, words.answers_on_pages, tuple(others))
    with_hints = [each.hints_anchor for each in puzzles if each.path and each.path.steps]
    if not (hinted and with_hints):
        return (answers,)
    first, *others = with_hints
    return Reference(words.hints_on, first, words.hints_on_pages, tuple(others)), answers
