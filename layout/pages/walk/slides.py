"""A walk as slides for a wall: the board at the left, what is said of it at the right.

A slide is 16 to 9, 13 1/3 by 7 1/2 inches, the usual size of such documents. Letters of 24 points
are a twenty-second part of its height: they are read from the last row of a class.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from layout.board.step import draw_clean, draw_step, step_extent
from layout.language.wording import rule_sentences
from layout.language.words import Words, fill
from layout.pages.common.design import cap, stacked
from layout.pages.common.gauge import gauge
from layout.pages.walk.walk_blocks import Passage, voiced
from layout.pages.walk.walk_pages import PrintedWalk
from layout.picture.document import Document, Info, Leaf, OutlineEntry
from layout.picture.items import Anchor, Group, Item, Picture
from layout.style.style import Style
from layout.telling.step_pictures import StepPicture, cut_walk, divisible
from layout.telling.telling import Telling, tell_walk
from layout.type.face import Face, Voices
from layout.type.fitting import DoesNotFit, fit_title
from layout.type.lines import Line
from layout.type.paragraph import one_line, set_paragraph
from layout.type.typography import polish
from verify.board import Cell

POINT: Final = 25.4 / 72

WIDTH: Final = 25.4 * 40 / 3
HEIGHT: Final = 25.4 * 7.5
MARGIN: Final = 12.7
GAP: Final = 14.0
"""Between the board and the words."""

MOST_BOARD: Final = 0.56
"""The most of a slide's width that the board takes."""

TITLE: Final = 38 * POINT
LABEL: Final = 20 * POINT
WORDS: Final = 24 * POINT
LEAST_WORDS: Final = 15 * POINT
"""What is said stands in `WORDS`; a single sentence without room may shrink so far."""

SHRINK: Final = 0.94
LEADING: Final = 1.34
TIGHT: Final = 1.16
"""From baseline to baseline, of words and of titles, in ems."""

MOST_TITLE_LINES: Final = 3


@dataclass(frozen=True, slots=True)
class Slide:
    """One slide: its picture, what is said with it, and the digits that it places."""

    picture: Picture
    words: str
    places: tuple[tuple[Cell, int], ...] = ()


def walk_slides(
    path: PrintedWalk, style: Style, words: Words, *, by_sentence: bool
) -> tuple[Slide, ...]:
    """The puzzle with its rules, what it is about, then a slide for each paragraph or sentence.

    A paragraph that has no room is told on several.
    """
    return tuple(_Slides(path, style, words).go(by_sentence=by_sentence))


def slides_document(walks: Sequence[tuple[PrintedWalk, Sequence[Slide]]], words: Words) -> Document:
    """The slides of one or several walks as the pages of one document."""
    quotes = words.quote_marks
    titles = [polish(path.puzzle.title, quotes) for path, _ in walks]
    leaves: list[Leaf] = []
    outline: list[OutlineEntry] = []
    for title, (_, slides) in zip(titles, walks, strict=True):
        outline.append(OutlineEntry(title, _anchor(len(leaves) + 1)))
        for slide in slides:
            number = len(leaves) + 1
            drawn = Group(0.0, 0.0, slide.picture.items, slide.words)
            leaves.append(Leaf(WIDTH, HEIGHT, (Anchor(_anchor(number), 0.0), drawn), str(number)))
    authors = dict.fromkeys(polish(path.puzzle.credits.constructor, quotes) for path, _ in walks)
    info = Info(words.lists.join(titles), words.lists.join(list(authors)), "", words.language)
    return Document(tuple(leaves), info, tuple(outline))


def _anchor(number: int) -> str:
    return f"slide-{number}"


class _Slides:
    """Sets the slides of one walk."""

    def __init__(self, path: PrintedWalk, style: Style, words: Words) -> None:
        self._path, self._style, self._words = path, style, words
        self._extent = step_extent(path.puzzle, style.board)
        self._board = self._extent.within(MOST_BOARD * WIDTH - MARGIN, HEIGHT - 2 * MARGIN)
        self._x = MARGIN + self._board + GAP
        self._measure = WIDTH - MARGIN - self._x
        self._clean = draw_clean(path.puzzle, style.board, self._board)

    def go(self, *, by_sentence: bool) -> Iterator[Slide]:
        """All slides, in their order."""
        puzzle = self._path.puzzle
        telling = tell_walk(puzzle, self._path.walk, self._words, self._path.choice.level)
        yield self._title_slide()
        if telling.summary:
            yield self._slide(self._clean, "", telling.summary)
        for each in self._steps(telling, by_sentence=by_sentence):
            scene = each.scene
            assert scene is not None, "each has its diagram"  # noqa: S101
            picture = draw_step(
                puzzle,
                self._style.board,
                self._board,
                scene,
                every_mark=self._path.choice.every_mark,
            )
            label = fill(self._words.walk.step_caption, number=each.last.number)
            yield self._slide(picture, label, each.last.words, scene.placed)
        if telling.end:
            yield self._slide(self._clean, "", telling.end)

    def _steps(self, telling: Telling, *, by_sentence: bool) -> Sequence[StepPicture]:
        """What is shown, paragraphs in as many parts as they need room."""
        parts: dict[int, int] = {}
        most = divisible(self._path.puzzle, telling)
        while True:
            shown = cut_walk(self._path.puzzle, telling, parts, by_sentence=by_sentence).each()
            if by_sentence:
                return shown
            too_long = {
                each.last.number
                for each in shown
                if not self._fits(each.last.words, WORDS)
                and parts.get(each.last.number, 1) < most.get(each.last.number, 1)
            }
            if not too_long:
                return shown
            for number in too_long:
                parts[number] = parts.get(number, 1) + 1

    def _title_slide(self) -> Slide:
        """The puzzle with its title, who made it, how hard it is, and its rules."""
        puzzle, quotes = self._path.puzzle, self._words.quote_marks
        faces = self._style.page.faces
        title = polish(puzzle.title, quotes)
        lines, face = self._title(title, Face(faces.title.font, TITLE, TIGHT * TITLE))
        y = self._top() + cap(face)
        items: list[Item] = [*stacked(lines, face.leading, self._x, y)]
        y += (len(lines) - 1) * face.leading + 1.7 * LABEL
        note = Face(faces.note.font, LABEL, LEADING * LABEL)
        credit = one_line(polish(puzzle.credits.constructor, quotes), note)
        if credit.text:
            items += credit.at(self._x, y)
        graded = gauge(self._path.grade, self._words.grades, note)
        if graded:
            y += LEADING * LABEL if credit.text else 0.0
            items += graded.at(self._x, y)
        rules = polish(" ".join(rule_sentences(puzzle, self._words)), quotes)
        items += self._said(rules, y + 1.2 * WORDS)
        return self._finished(self._clean, items, f"{title}. {rules}")

    def _title(self, title: str, face: Face) -> tuple[tuple[Line, ...], Face]:
        try:
            return fit_title(title, face, self._measure, LEAST_WORDS, MOST_TITLE_LINES)
        except DoesNotFit:
            return (one_line(title, face),), face

    def _slide(
        self, board: Picture, label: str, words: str, places: Sequence[tuple[Cell, int]] = ()
    ) -> Slide:
        words = polish(words, self._words.quote_marks)
        items: list[Item] = []
        if label:
            face = Face(self._style.page.faces.number.font, LABEL, LEADING * LABEL)
            items += one_line(label, face).at(self._x, self._top() + cap(face))
        items += self._said(words, self._top() + self._under_label())
        return self._finished(board, items, words, places)

    def _finished(
        self,
        board: Picture,
        items: Sequence[Item],
        words: str,
        places: Sequence[tuple[Cell, int]] = (),
    ) -> Slide:
        placed = Group(MARGIN, (HEIGHT - board.height) / 2, board.items, board.title)
        title = self._path.puzzle.title
        picture = Picture(WIDTH, HEIGHT, (placed, *items), title, f"{board.description} {words}")
        return Slide(picture, words, tuple(places))

    def _top(self) -> float:
        """Where the words begin: beside the upper edge of the board."""
        return (HEIGHT - self._clean.height) / 2

    def _under_label(self) -> float:
        return 1.9 * LABEL

    def _said(self, words: str, top: float) -> Iterator[Item]:
        """Words from a height on, smaller where they would not have room."""
        size, room = WORDS, HEIGHT - MARGIN - top
        while not self._within(words, size, room) and size > LEAST_WORDS:
            size *= SHRINK
        voices = self._voices(size)
        yield from stacked(self._set(words, size), voices.leading, self._x, top + cap(voices))

    def _fits(self, words: str, size: float) -> bool:
        """Whether words have room on a slide with a label."""
        return self._within(words, size, HEIGHT - MARGIN - self._top() - self._under_label())

    def _within(self, words: str, size: float, room: float) -> bool:
        voices = self._voices(size)
        return (len(self._set(words, size)) - 1) * voices.leading + cap(voices) <= room

    def _set(self, words: str, size: float) -> Sequence[Line]:
        if not words:
            return ()
        runs = voiced(Passage(words))
        return set_paragraph(runs, self._voices(size), self._measure, language=self._words.language)

    def _voices(self, size: float) -> Voices:
        rules = self._style.page.faces.rules
        return Voices(rules.roman, rules.italic, rules.bold, size, LEADING * size)
