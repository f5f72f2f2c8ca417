"""The first page of a worksheet: for each rule a small example, and how to begin with it.

What is told is a step that the rule makes possible from the givens alone, and the digit that can
then be placed.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from layout.language.wording import rule_sentences
from layout.language.words import Words
from layout.pages.book.lessons import PLAIN, Lesson, lessons_for, solved
from layout.pages.common.caption import rule_lines
from layout.pages.common.design import Design, board_at, cap, fit, stacked
from layout.picture.items import Item
from layout.telling.level import Level
from layout.telling.telling import tell_walk
from layout.type.lines import Line
from layout.type.paragraph import set_words
from verify.proof.verdict import Answer
from verify.puzzle import Puzzle
from verify.walk.report.opening import opening
from verify.walk.told.path import as_told

GRID_SHARE: Final = 0.27
"""The width of an example's grid, as a share of the measure."""

SHORTEST: Final = 32.0
"""No grid is narrower, in millimetres."""

LATIN: Final = """\
title: Two punts
kind: latin
size: 4
givens: |
  1 2 . 4
  2 . 4 .
  . 4 . 2
  4 . 2 .
"""
SUDOKU: Final = """\
title: Two punts
kind: sudoku
size: 4
givens: |
  1 2 | . 4
  3 . | . .
  ----+----
  . 1 | . .
  . 3 | 1 .
"""
"""Examples for rows, columns and boxes that begin with the simplest of steps."""


@dataclass(frozen=True, slots=True)
class _Example:
    """A rule with its example, as it is laid out; `steps` stand between the two grids."""

    heading: tuple[Line, ...]
    sentences: tuple[Line, ...]
    puzzle: Puzzle
    answer: Answer
    grid: float
    steps: tuple[Line, ...]


def first_pages(puzzles: Iterable[Puzzle], level: Level, design: Design) -> list[tuple[Item, ...]]:
    """The items of each page, as many as the rules of the puzzles need."""
    examples = [_example(lesson, level, design) for lesson in lessons_for(puzzles, design.words)]
    items, y = _title(design)
    pages: list[tuple[Item, ...]] = []
    placed = False
    for example in examples:
        if placed and y + _depth(example, design) > design.depth:
            pages.append(tuple(items))
            items, y = [], 0.0
        items += _items(example, y, design)
        y += _depth(example, design) + 1.1 * design.page.gap
        placed = True
    return [*pages, tuple(items)]


def _title(design: Design) -> tuple[list[Item], float]:
    """The title, and how cells are called."""
    words, faces = design.words.worksheet, design.faces
    lines, face = fit(words.first, faces.title, design, 2)
    y = cap(face)
    items: list[Item] = [*stacked(lines, face.leading, 0.0, y)]
    note = rule_lines((words.first_note,), faces.rules, design.measure, design)
    y += (len(lines) - 1) * face.leading + 1.4 * faces.rules.leading
    items += stacked(note, faces.rules.leading, 0.0, y)
    return items, y + (len(note) - 1) * faces.rules.leading + 1.1 * design.page.gap


def _example(lesson: Lesson, level: Level, design: Design) -> _Example:
    """A rule's example with its words set."""
    faces, names = design.faces, frozenset(lesson.rules)
    manifest = lesson.example
    if names <= set(PLAIN):
        manifest = SUDOKU if "boxes" in names else LATIN
    puzzle, answer = solved(manifest)
    sentences = _sentences(puzzle, design.words)
    lines, _ = fit(lesson.title, faces.lesser_title, design, 2)
    grid = design.board_width(
        puzzle, max(GRID_SHARE * design.measure, SHORTEST), design.depth, design.page.cells.largest
    )
    between = design.measure - 2 * (grid + 0.8 * design.page.gap)
    told = tuple(_first_steps(puzzle, names, level, design.words))
    steps = rule_lines(told, faces.lesser_rules, between, design)
    said = rule_lines(sentences, faces.lesser_rules, design.measure, design)
    return _Example(lines, said, puzzle, answer, grid, steps)


def _sentences(puzzle: Puzzle, words: Words) -> tuple[str, ...]:
    """What the rule asks: of houses all that is said, of another rule its own sentences."""
    houses, *others = rule_sentences(replace(puzzle, words=""), words)
    if others:
        return tuple(others)
    return words.houses.teach.strip(), houses, words.houses.start.strip()


def _first_steps(
    puzzle: Puzzle, names: frozenset[str], level: Level, words: Words
) -> Iterator[str]:
    """How to begin, in words."""
    begun = as_told(puzzle, opening(puzzle, names))
    return (told.words for told in tell_walk(puzzle, begun, words, level).steps if told.words)


def _depth(example: _Example, design: Design) -> float:
    """How deep an example is."""
    return _grid_top(example, design) + max(
        _grid_depth(example, design), _steps_depth(example, design)
    )


def _grid_top(example: _Example, design: Design) -> float:
    faces = design.faces
    heading = cap(faces.lesser_title) + (len(example.heading) - 1) * faces.lesser_title.leading
    return heading + (len(example.sentences) + 0.7) * faces.lesser_rules.leading


def _grid_depth(example: _Example, design: Design) -> float:
    """A grid with the words under it."""
    note = design.faces.lesser_note
    return design.board_height(example.puzzle, example.grid) + 0.6 * note.size + note.leading


def _steps_depth(example: _Example, design: Design) -> float:
    note = design.faces.lesser_note.leading
    return note + len(example.steps) * design.faces.lesser_rules.leading


def _items(example: _Example, y: float, design: Design) -> Iterator[Item]:
    """Heading and sentences, then the example, its first steps and its answer side by side."""
    faces, words = design.faces, design.words
    first = y + cap(faces.lesser_title)
    yield from stacked(example.heading, faces.lesser_title.leading, 0.0, first)
    first += (len(example.heading) - 1) * faces.lesser_title.leading + faces.lesser_rules.leading
    yield from stacked(example.sentences, faces.lesser_rules.leading, 0.0, first)
    top, right = y + _grid_top(example, design), design.measure - example.grid
    yield from _grid(example, 0.0, top, None, words.worksheet.example, design)
    yield from _grid(example, right, top, example.answer, words.pages.example_answer, design)
    if example.steps:
        yield from _steps(example.steps, example.grid + 0.8 * design.page.gap, top, design)


def _grid(
    example: _Example, x: float, top: float, answer: Answer | None, said: str, design: Design
) -> Iterator[Item]:
    """The example, open or filled in, with a word under it."""
    note = design.faces.lesser_note
    yield board_at(example.puzzle, x, top, example.grid, design, answer)
    foot = top + design.board_height(example.puzzle, example.grid) + 0.6 * note.size + cap(note)
    yield from set_words(said, note, example.grid)[0].at(x, foot)


def _steps(lines: Sequence[Line], x: float, top: float, design: Design) -> Iterator[Item]:
    faces = design.faces
    y = top + cap(faces.lesser_note)
    heading = design.words.worksheet.step
    yield from set_words(heading, faces.lesser_note, design.measure)[0].at(x, y)
    yield from stacked(lines, faces.lesser_rules.leading, x, y + faces.lesser_rules.leading)
