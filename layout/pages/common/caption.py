"""What is said around one puzzle: number, title, constructor, rule text."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from math import floor
from typing import Final

from layout.pages.common.book import Numbered
from layout.pages.common.design import Design
from layout.pages.common.misfit import Misfit, Misfits, gathered
from layout.type.face import Face, Voices
from layout.type.fitting import ONE_LINE_STEPS, TIGHT_STEPS, DoesNotFit, fit_title
from layout.type.lines import Line
from layout.type.markup import plain_run
from layout.type.paragraph import one_line, set_paragraph, set_words
from layout.type.typography import polish
from verify.puzzle import Puzzle

COMMON: Final = 0.75
"""The share of its size down to which a title makes those beside it shrink."""

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
    puzzle: Puzzle,
    face: Face,
    measure: float,
    design: Design,
    *,
    tight: bool = False,
    most: int = MOST_LINES,
    where: str = "on the page",
) -> Fitted:
    """The puzzle's title; raises Misfits where it is too long, even when small, for its place."""
    steps = TIGHT_STEPS if tight else ONE_LINE_STEPS
    place = _Place("title", steps, most, where)
    return _fitted(puzzle, puzzle.title, face, measure, design, place)


def own_title(
    puzzle: Puzzle, face: Face, measure: float, design: Design, *, most: int, where: str
) -> Fitted:
    """The title close by other words, or no line where a puzzle has none: its number will do.

    Raises Misfits as `fitted_title` does.
    """
    if not puzzle.credits.title:
        return Fitted((), face)
    return fitted_title(puzzle, face, measure, design, tight=True, most=most, where=where)


def fitted_titles(
    puzzles: Sequence[Puzzle],
    face: Face,
    measures: Sequence[float],
    design: Design,
    *,
    tight: bool = False,
) -> list[Fitted]:
    """The titles of puzzles that go together, in one size: that of the one that shrinks most.

    Titles that must shrink below COMMON of the face keep their own size, and the others theirs.
    Raises Misfits as for each by itself.
    """
    fitted = gathered(
        partial(fitted_title, puzzle, face, measure, design, tight=tight)
        for puzzle, measure in zip(puzzles, measures, strict=True)
    )
    sizes = [each.face.size for each in fitted if each.face.size >= COMMON * face.size]
    common = face.scaled(min(sizes, default=face.size) / face.size)
    return [
        _in_size(puzzle, each, common, measure, design)
        for puzzle, each, measure in zip(puzzles, fitted, measures, strict=True)
    ]


def _in_size(puzzle: Puzzle, own: Fitted, face: Face, measure: float, design: Design) -> Fitted:
    """A title in a face, unless its own is smaller."""
    if own.face.size <= face.size:
        return own
    words = polish(puzzle.title, design.words.quote_marks)
    line = one_line(words, face)
    lines = (line,) if line.width <= measure else set_words(words, face, measure, "even")
    return Fitted(lines, face)


def fitted_credit(puzzle: Puzzle, face: Face, measure: float, design: Design) -> Fitted:
    """The constructor's name; no lines where there is none. Raises Misfits as titles do."""
    name = puzzle.credits.constructor
    if not name:
        return Fitted((), face)
    place = _Place("constructor", ONE_LINE_STEPS, MOST_LINES, "on the page")
    return _fitted(puzzle, name, face, measure, design, place)


@dataclass(frozen=True, slots=True)
class _Place:
    """Which of a puzzle's fields stands there, in which sizes and lines, and where that is."""

    field: str
    steps: tuple[float, ...]
    most: int
    where: str


def _fitted(
    puzzle: Puzzle, text: str, face: Face, measure: float, design: Design, place: _Place
) -> Fitted:
    words, least = polish(text, design.words.quote_marks), design.page.least
    try:
        return Fitted(*fit_title(words, face, measure, least, place.most, place.steps))
    except DoesNotFit:
        message = f"the {place.field} is too long for its place {place.where}"
        raise Misfits([Misfit(message, puzzle=puzzle, field=place.field)]) from None


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
