"""The head of a worksheet: lines to write a name and a date on, the title, what is to be done."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from layout.language.wording import shared_sentences, symbol_words
from layout.language.words import fill
from layout.pages.common.caption import rule_lines
from layout.pages.common.design import Design, cap, fit, heading, stacked
from layout.pages.common.misfit import Misfit, Misfits
from layout.pages.worksheet.handout import Copy, Exercise, Handout
from layout.picture.items import Group, Item, Stroke
from layout.picture.shape_symbols import SHAPES, are_shapes
from layout.picture.shapes import polyline
from layout.type.face import Face
from layout.type.lines import Line
from layout.type.paragraph import one_line
from layout.type.typography import polish
from verify.puzzle import Puzzle

WRITING: Final = 11.0
"""Millimetres that stay free over a line to write on: a child's letters are 8 mm high."""

NAME_SHARE: Final = 0.66
"""The part of the measure that the name has where a date stands beside it."""

LINE: Final = 0.7 * 25.4 / 72
"""The width of lines to write on, and of the one under the head, in millimetres."""

MOST_TITLE_LINES: Final = 2

SHAPE: Final = 7.0
"""The size of a shape where the head names it, in millimetres."""


@dataclass(frozen=True, slots=True)
class Head:
    """The head of a page, how deep it is, and what remains to be said beside each puzzle."""

    items: tuple[Item, ...]
    depth: float
    own: tuple[tuple[str, ...], ...]


def page_head(handout: Handout, copy: Copy, page: Sequence[Exercise], design: Design) -> Head:
    """The head over some puzzles. Raises Misfits for a title or a name that is too long."""
    said, own = shared_sentences([each.puzzle for each in page], design.words)
    sentences = (*_instructions(handout, page, design), *said)
    items, y = _written(handout, copy.pupil, design)
    titled, y = _titled(handout, y, design)
    items += titled
    voices = design.faces.rules
    lines = rule_lines(sentences, voices, min(design.measure, design.page.measure), design)
    y += 1.5 * voices.leading
    items += stacked(lines, voices.leading, 0.0, y)
    y += (len(lines) - 1) * voices.leading
    named, y = _named_shapes([each.puzzle for each in page], y, design)
    items += named
    y += 0.8 * voices.leading
    items.append(Stroke((polyline([(0.0, y), (design.measure, y)]),), LINE))
    return Head(tuple(items), y + 0.9 * design.page.gap, tuple(own))


def _instructions(handout: Handout, page: Sequence[Exercise], design: Design) -> Iterator[str]:
    """The job's own words or ours, and what to do with helper digits."""
    words = design.words.worksheet
    yield handout.instructions or words.task.of(len(page))
    if handout.helpers:
        symbols = {symbol_words(each.puzzle.symbols, design.words) for each in page}
        named = symbols.pop() if len(symbols) == 1 else design.words.symbols.others
        yield fill(words.cross_out, digit=named.one, digits=named.many)


def _written(handout: Handout, pupil: str, design: Design) -> tuple[list[Item], float]:
    """Lines to write on, and the baseline that they share; nothing where there are none.

    On the first stands the name of a pupil that is known.
    """
    words, items = design.words.worksheet, list[Item]()
    wide = design.measure * (NAME_SHARE if handout.date_line else 1.0)
    named = handout.name_line or bool(pupil)
    after = wide + design.page.gap if named else 0.0
    if named:
        items += _to_write_on(words.name, 0.0, wide, design, pupil)
    if handout.date_line:
        items += _to_write_on(words.date, after, max(design.measure, after), design)
    return items, WRITING if items else 0.0


def _to_write_on(
    word: str, left: float, right: float, design: Design, written: str = ""
) -> Iterator[Item]:
    """A word and the line after it, with what is written on it already."""
    face = design.faces.prose.face
    label = one_line(word, face)
    yield from label.at(left, WRITING)
    start = left + label.width + 0.5 * face.size
    if written:
        yield from _name_on(written, start + face.size, right, design)
    yield Stroke((polyline([(start, WRITING), (right, WRITING)]),), LINE)


def _name_on(name: str, left: float, right: float, design: Design) -> Iterator[Item]:
    """A pupil's name over the line. Raises Misfits where it is longer."""
    line = one_line(polish(name, design.words.quote_marks), design.faces.lesser_title)
    if left + line.width > right:
        raise Misfits([Misfit(f'the name "{name}" is too long for its line', ("pupils",))])
    yield from line.at(left, WRITING - 0.25 * line.size)


def _titled(handout: Handout, y: float, design: Design) -> tuple[list[Item], float]:
    """The title, the class at its right or, where there is no room, under it; the last baseline."""
    faces = design.faces
    lines, face = fit(handout.title, faces.title, design, MOST_TITLE_LINES, ("title",))
    y += (0.75 * faces.title.leading if y else 0.0) + cap(face)
    items: list[Item] = [heading(stacked(lines, face.leading, 0.0, y), "H1")]
    y += (len(lines) - 1) * face.leading
    if handout.class_:
        class_, small = _class_line(handout.class_, design)
        if lines[-1].width + design.page.gap + class_.width > design.measure:
            y += 1.2 * small.leading
        items += class_.at(design.measure - class_.width, y)
    return items, y


def _class_line(text: str, design: Design) -> tuple[Line, Face]:
    lines, face = fit(text, design.faces.prose.face, design, 1, ("class",))
    return lines[0], face


def _named_shapes(puzzles: Sequence[Puzzle], y: float, design: Design) -> tuple[list[Item], float]:
    """The shapes of the page in a row, each with its name; the baseline under them."""
    shapes = max(
        (each.symbols for each in puzzles if are_shapes(each.symbols)), key=len, default=()
    )
    if not shapes:
        return [], y
    face, items, x = design.faces.lesser_rules.face, list[Item](), 0.0
    y += 0.4 * face.leading + SHAPE
    for name in shapes:
        label = one_line(design.words.worksheet.shapes[name], face)
        wide = SHAPE + 0.4 * face.size + label.width + 1.2 * face.size
        if x and x + wide > design.measure:
            x, y = 0.0, y + 1.3 * SHAPE
        middle = y - cap(face) / 2
        drawn = tuple(SHAPES[name].solid((x + SHAPE / 2, middle), SHAPE))
        items.append(Group(0.0, 0.0, drawn, label.text))
        items += label.at(x + SHAPE + 0.4 * face.size, y)
        x += wide
    return items, y + SHAPE / 2 - cap(face) / 2
