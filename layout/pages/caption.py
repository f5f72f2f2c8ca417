"""What is said around one puzzle: number, title, constructor, rule text."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import floor
from typing import Final

from layout.pages.book import Numbered
from layout.pages.design import Design
from layout.pages.misfit import Misfit, Misfits
from layout.type.face import Face, Voices
from layout.type.fitting import ONE_LINE_STEPS, TIGHT_STEPS, DoesNotFit, fit_title
from layout.type.lines import Line
from layout.type.markup import plain_run
from layout.type.paragraph import set_paragraph
from layout.type.typography import polish

MOST_LINES: Final = 4
"""Lines of a title or a name; most have one, some two."""


@dataclass(frozen=True, slots=True)
class Fitted:
    """Lines and the face that they were set in to fit their place."""

    lines: tuple[Line, ...]
    face: Face

    @property
    def drop(self) -> float:
        """From the first baseline to the last."""
        return max(len(self.lines) - 1, 0) * self.face.leading


def fitted_title(
    numbered: Numbered, face: Face, measure: float, design: Design, *, tight: bool = False
) -> Fitted:
    """The puzzle's title; raises Misfits where it is too long even when small."""
    steps = TIGHT_STEPS if tight else ONE_LINE_STEPS
    return _fitted(numbered, "title", numbered.puzzle.title, face, measure, design, steps)


def fitted_credit(
    numbered: Numbered, face: Face, measure: float, design: Design, *, one_line: bool = False
) -> Fitted:
    """The constructor's name; no lines where there is none. Raises Misfits as titles do."""
    name = numbered.puzzle.credits.constructor
    if not name:
        return Fitted((), face)
    steps, most = (TIGHT_STEPS, 1) if one_line else (ONE_LINE_STEPS, MOST_LINES)
    return _fitted(numbered, "constructor", name, face, measure, design, steps, most)


def _fitted(
    numbered: Numbered,
    field: str,
    text: str,
    face: Face,
    measure: float,
    design: Design,
    steps: tuple[float, ...],
    most: int = MOST_LINES,
) -> Fitted:
    words = polish(text, design.words.quote_marks)
    try:
        return Fitted(*fit_title(words, face, measure, design.page.least, most, steps))
    except DoesNotFit:
        message = f"the {field} is too long for its place on the page"
        raise Misfits([Misfit(message, puzzle=numbered.puzzle, field=field)]) from None


def rule_lines(
    sentences: Sequence[str], voices: Voices, measure: float, design: Design
) -> tuple[Line, ...]:
    """Rule text, each sentence beginning a line."""
    quotes = design.words.quote_marks
    return tuple(
        line
        for sentence in sentences
        for line in set_paragraph(
            plain_run(sentence, quotes), voices, measure, language=design.language
        )
    )


def rule_paragraph(
    sentences: Sequence[str], voices: Voices, measure: float, design: Design
) -> tuple[Line, ...]:
    """Rule text as one paragraph, for a narrow measure."""
    return rule_lines((" ".join(sentences),), voices, measure, design)


def rounded_down(length: float) -> str:
    """A length to a tenth of a millimetre, so that what is too small never reads as enough."""
    return f"{max(floor(length * 10) / 10, 0.0):.1f}"


def too_small(numbered: Numbered, side: float, smallest: float, where: str) -> Misfit:
    """A grid whose cells would be too small to use."""
    board = numbered.puzzle.board
    message = (
        f"a grid of {board.columns} columns gets cells of {rounded_down(side)} mm {where}; "
        f"the style wants {smallest:g} mm or more"
    )
    return Misfit(message, puzzle=numbered.puzzle, field="size")
