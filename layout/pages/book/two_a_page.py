"""Two puzzles on a page, one above the other, each with its words beside the grid."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import accumulate
from math import log
from typing import Final

from layout.language.wording import rule_sentences
from layout.pages.book.many_a_page import check_cells
from layout.pages.book.references import references_of
from layout.pages.common.book import Numbered
from layout.pages.common.caption import Fitted, fitted_credit, fitted_titles, rule_paragraph
from layout.pages.common.coordinates import coordinates
from layout.pages.common.design import (
    LONGEST_LABEL,
    Design,
    board_at,
    cap,
    heading,
    refer,
    reference_lines,
    stacked,
)
from layout.pages.common.gauge import Gauge, gauge
from layout.pages.common.misfit import Misfit, Misfits, gathered
from layout.pages.common.page import Labels, Page, Reference
from layout.picture.items import Anchor, Item
from layout.type.lines import Line
from layout.type.paragraph import one_line

NARROWEST: Final = 0.28
"""The least width of the words, as a share of the measure."""

SINK: Final = 0.2
"""The part of the free depth that lies above the first grid, and under the second."""

STEP: Final = 0.97
"""Grids get smaller in steps until the words beside them fit."""


ABOVE_REFERENCES: Final = 0.5
"""White between the rules and what names other pages where there is room, in leadings of these."""


@dataclass(frozen=True, slots=True)
class _SideWords:
    """What is said beside a grid, set for the width that the grid leaves."""

    numbered: Numbered
    number: Line
    title: Fitted
    credit: Fitted
    gauge: Gauge | None
    rules: tuple[Line, ...]
    references: tuple[tuple[Reference, int], ...]
    """The pages of hints and answer, each with the number of lines that it takes."""

    @property
    def foot(self) -> int:
        """How many lines the references take together."""
        return sum(lines for _, lines in self.references)


def pages_of_two(
    title: str, pages: Sequence[Sequence[Numbered]], design: Design, *, hinted: bool = False
) -> tuple[Page, ...]:
    """Pages of up to two of these puzzles, all grids as large.

    Raises Misfits for words that are too long and cells too small.
    """
    half = _half(design)
    widest = min(half, design.measure * (1 - NARROWEST) - design.page.gap)
    puzzles = [each for page in pages for each in page]
    side, words = _settle(puzzles, widest, half, design, hinted)
    check_cells(puzzles, side, 2, design)
    deep = max(side, *(_depth(each, design) for each in words))
    sink = SINK * (design.depth - 2 * deep)
    tops = (sink, design.depth - deep - sink)
    ends = list(accumulate(map(len, pages)))
    return tuple(
        Page(
            partial(_draw, words[end - len(page) : end], side, tops, design),
            anchors=tuple(
                Anchor(each.puzzle_anchor, top) for each, top in zip(page, tops, strict=False)
            ),
            head=title,
        )
        for page, end in zip(pages, ends, strict=True)
    )


def _settle(
    puzzles: Sequence[Numbered], widest: float, half: float, design: Design, hinted: bool
) -> tuple[float, list[_SideWords]]:
    """The largest grids that leave their words room enough beside them, and the words.

    Raises Misfits for words that are too long even beside the smallest grids.
    """
    cell = design.page.cells.smallest
    most = max(design.room_for(numbered.puzzle, cell) for numbered in puzzles)
    smallest = min(most, widest)
    steps = int(log(smallest / widest) / log(STEP)) + 1
    for side in (widest * STEP**step for step in range(steps)):
        try:
            words = _words(puzzles, side, design, hinted)
        except Misfits:
            continue
        if _deepest(words, design) <= half:
            return side, words
    words = _words(puzzles, smallest, design, hinted)
    message = "the words beside the grid take too much room, 2 to a page"
    long = [
        Misfit(message, puzzle=each.numbered.puzzle, field="words")
        for each in words
        if _depth(each, design) > half
    ]
    if long:
        raise Misfits(long)
    return smallest, words


def _deepest(words: Sequence[_SideWords], design: Design) -> float:
    return max(_depth(each, design) for each in words)


def _words(
    puzzles: Sequence[Numbered], side: float, design: Design, hinted: bool
) -> list[_SideWords]:
    width = design.measure - side - design.page.gap
    face, measures = design.faces.lesser_title, [width] * len(puzzles)
    titles = fitted_titles([each.puzzle for each in puzzles], face, measures, design)
    return gathered(
        partial(_words_of, numbered, title, width, design, hinted)
        for numbered, title in zip(puzzles, titles, strict=True)
    )


def _words_of(
    numbered: Numbered, title: Fitted, width: float, design: Design, hinted: bool
) -> _SideWords:
    faces = design.faces
    sentences = rule_sentences(numbered.puzzle, design.words)
    references = references_of(numbered, design, hinted=hinted)
    return _SideWords(
        numbered,
        one_line(str(numbered.number), faces.lesser_number),
        title,
        fitted_credit(numbered.puzzle, faces.lesser_credit, width, design),
        _fitted_gauge(numbered, width, design),
        rule_paragraph(sentences, faces.lesser_rules, width, design),
        tuple((each, _lines_of(each, width, design)) for each in references),
    )


def _lines_of(reference: Reference, width: float, design: Design) -> int:
    """How many lines a reference takes, however long the page's number is."""
    face = design.faces.lesser_note
    return len(reference_lines(reference.sentence, LONGEST_LABEL, face, width))


def _fitted_gauge(numbered: Numbered, width: float, design: Design) -> Gauge | None:
    """The grade; where the word has no room beside them, the marks alone."""
    face, words = design.faces.lesser_note, design.words.grades
    whole = gauge(numbered.grade, words, face)
    if whole is None or whole.width <= width:
        return whole
    return gauge(numbered.grade, words, face, marks_only=True)


def _depth(words: _SideWords, design: Design) -> float:
    """How deep the words run, the line with the answer's page among them."""
    *_, last = _baselines(words, design)
    leading = design.faces.lesser_rules.leading
    deep = last + len(words.rules) * leading + _drop(words, design)
    airy = deep + ABOVE_REFERENCES * leading
    return airy if airy <= _half(design) else deep


def _half(design: Design) -> float:
    """The depth of a page that one of two has."""
    return (design.depth - 1.5 * design.page.gap) / 2


def _drop(words: _SideWords, design: Design) -> float:
    """From the first line with a reference to the last."""
    return (words.foot - 1) * design.faces.lesser_note.leading


def _baselines(words: _SideWords, design: Design) -> tuple[float, float, float, float, float]:
    """First baselines of number, title, credit, grade and rule text, from the top of the grid."""
    faces = design.faces
    number = cap(faces.lesser_number)
    title = number + 1.35 * faces.lesser_title.leading
    credit = title + words.title.drop + 1.15 * faces.lesser_credit.leading
    after = credit + words.credit.drop if words.credit.lines else title + words.title.drop
    grade = after + 1.35 * faces.lesser_note.leading
    after = grade if words.gauge else after
    return number, title, credit, grade, after + 2 * faces.lesser_rules.leading


def _draw(
    pair: Sequence[_SideWords],
    side: float,
    tops: Sequence[float],
    design: Design,
    labels: Labels,
) -> Iterator[Item]:
    for words, top in zip(pair, tops, strict=False):
        yield from _draw_one(words, top, side, design, labels)


def _draw_one(
    words: _SideWords, top: float, side: float, design: Design, labels: Labels
) -> Iterator[Item]:
    faces, numbered = design.faces, words.numbered
    width = design.board_width(numbered.puzzle, side, side, design.page.cells.largest)
    yield board_at(numbered.puzzle, 0.0, top, width, design)
    yield from coordinates(numbered.puzzle, 0.0, top, width, design)
    x = side + design.page.gap
    number, title, credit, grade, rules = (top + y for y in _baselines(words, design))
    yield from words.number.at(x, number)
    yield heading(stacked(words.title.lines, words.title.face.leading, x, title))
    yield from stacked(words.credit.lines, words.credit.face.leading, x, credit)
    if words.gauge:
        yield from words.gauge.at(x, grade)
    yield from stacked(words.rules, faces.lesser_rules.leading, x, rules)
    y = top + max(side, _depth(words, design)) - _drop(words, design)
    for reference, lines in words.references:
        yield from refer(reference, labels, faces.lesser_note, x, y, design.measure - x)
        y += lines * faces.lesser_note.leading
