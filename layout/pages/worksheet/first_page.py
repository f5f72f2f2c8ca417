"""The first page of a worksheet: for each rule a small example, and how to begin with it.

What is told is a step that the rule makes possible from the givens alone, and the digit that can
then be placed. The example speaks the sheet's own language: its size where it can, its symbols.
First-timers find the cells that are spoken of by letters in the grid.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from layout.language.wording import rule_sentences
from layout.language.words import Words, fill
from layout.pages.book.lessons import PLAIN, Lesson, lessons_for, solved
from layout.pages.common.caption import rule_lines
from layout.pages.common.design import Design, board_at, cap, fit, heading, stacked
from layout.pages.common.lettered import called, letters_at
from layout.pages.worksheet.example_manifests import plain_example
from layout.picture.items import Item
from layout.telling.level import Level
from layout.telling.names import Names, capital
from layout.telling.telling import tell_walk
from layout.type.face import Voices
from layout.type.lines import Line
from layout.type.paragraph import set_words
from verify.board import Cell
from verify.move import Disguise
from verify.proof.verdict import Answer
from verify.puzzle import Puzzle
from verify.walk.facts.step import PLAIN_SINGLES, Step
from verify.walk.report.opening import opening
from verify.walk.told.path import as_told


@dataclass(frozen=True, slots=True)
class _Arrangement:
    """How an example is laid out: the width of a grid as a share of the measure, and whether the
    first steps stand below the grids, in the sheet's larger letters, or between them.
    """

    share: float
    below: bool = False


ARRANGEMENTS: Final = (
    _Arrangement(0.46, below=True),
    _Arrangement(0.4, below=True),
    _Arrangement(0.32),
    _Arrangement(0.29),
    _Arrangement(0.26),
)
"""The first that takes no more pages than the last is taken."""

WHITE_BELOW: Final = 0.8
"""White between the grids and the steps below them, in rows of these."""

SHORTEST: Final = 32.0
"""No grid is narrower, in millimetres."""


@dataclass(frozen=True, slots=True)
class _Beginning:
    """A rule's example before it is laid out: how to begin, in words; `called` as in `_Example`."""

    title: str
    puzzle: Puzzle
    answer: Answer
    told: tuple[str, ...]
    called: Mapping[Cell, str]


@dataclass(frozen=True, slots=True)
class _Example:
    """A rule with its example, as it is laid out; `steps` stand below its two grids or between.

    `called` are the cells that have letters.
    """

    heading: tuple[Line, ...]
    sentences: tuple[Line, ...]
    puzzle: Puzzle
    answer: Answer
    grid: float
    steps: tuple[Line, ...]
    called: Mapping[Cell, str]
    below: bool


def first_pages(puzzles: Iterable[Puzzle], level: Level, design: Design) -> list[tuple[Item, ...]]:
    """The items of each page, as many as the rules of the puzzles need; the grids fill them."""
    shown = list(puzzles)
    lessons = lessons_for(shown, design.words)
    beginnings = [_beginning(lesson, shown, level, design.words) for lesson in lessons]
    *larger, smallest = ARRANGEMENTS
    fewest = _pages(beginnings, smallest, level, design)
    tried = (_pages(beginnings, arrangement, level, design) for arrangement in larger)
    return next((pages for pages in tried if len(pages) == len(fewest)), fewest)


def _pages(
    beginnings: Sequence[_Beginning], arrangement: _Arrangement, level: Level, design: Design
) -> list[tuple[Item, ...]]:
    """The items of each page, its examples laid out so."""
    examples = [_example(each, arrangement, design) for each in beginnings]
    items, y = _title(level, design)
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


def _title(level: Level, design: Design) -> tuple[list[Item], float]:
    """The title, and how cells are called."""
    words, faces = design.words.worksheet, design.faces
    lines, face = fit(words.first, faces.title, design, 2)
    y = cap(face)
    items: list[Item] = [heading(stacked(lines, face.leading, 0.0, y), "H1")]
    y += (len(lines) - 1) * face.leading
    if level is not Level.FIRST_TIMER:
        note = rule_lines((words.first_note,), faces.rules, design.measure, design)
        y += 1.4 * faces.rules.leading
        items += stacked(note, faces.rules.leading, 0.0, y)
        y += (len(note) - 1) * faces.rules.leading
    return items, y + 1.1 * design.page.gap


def _beginning(lesson: Lesson, puzzles: Sequence[Puzzle], level: Level, words: Words) -> _Beginning:
    """A rule's example in the symbols of the sheet, and how to begin with it."""
    names, manifest = frozenset(lesson.rules), lesson.example
    if names <= set(PLAIN):
        manifest = plain_example(puzzles, boxes="boxes" in names)
    puzzle, answer = solved(manifest)
    puzzle = _in_symbols_of(puzzles, _with_a_beginning(puzzle, answer, names))
    begun = opening(puzzle, names)
    cells = called(begun) if level is Level.FIRST_TIMER else {}
    told = tuple(_first_steps(puzzle, begun, level, cells, words))
    return _Beginning(lesson.title, puzzle, answer, told, cells)


def _example(begun: _Beginning, arrangement: _Arrangement, design: Design) -> _Example:
    """A rule's example with its words set."""
    faces, puzzle = design.faces, begun.puzzle
    lines, _ = fit(begun.title, faces.lesser_title, design, 2)
    width = max(arrangement.share * design.measure, SHORTEST)
    grid = design.board_width(puzzle, width, design.depth, design.page.cells.largest)
    between = design.measure - 2 * (grid + 0.8 * design.page.gap)
    face = _face(design, below=arrangement.below)
    room = design.measure if arrangement.below else between
    steps = rule_lines(begun.told, face, room, design)
    said = rule_lines(_sentences(puzzle, design.words), face, design.measure, design)
    return _Example(lines, said, puzzle, begun.answer, grid, steps, begun.called, arrangement.below)


def _face(design: Design, *, below: bool) -> Voices:
    """What the words of an example are set in."""
    return design.faces.rules if below else design.faces.lesser_rules


def _with_a_beginning(puzzle: Puzzle, answer: Answer, rules: frozenset[str]) -> Puzzle:
    """The example, with as many more givens as it takes until there is an easy first step."""
    while not opening(puzzle, rules):
        still_open = [cell for cell in puzzle.board.cells if not puzzle.givens[cell]]
        eased = [_with_given(puzzle, answer, cell) for cell in still_open]
        puzzle = next((each for each in eased if opening(each, rules)), eased[0])
    return puzzle


def _with_given(puzzle: Puzzle, answer: Answer, cell: Cell) -> Puzzle:
    givens = puzzle.givens
    return replace(puzzle, givens=(*givens[:cell], answer[cell], *givens[cell + 1 :]))


def _in_symbols_of(puzzles: Sequence[Puzzle], example: Puzzle) -> Puzzle:
    """The example in the symbols of the sheet, where its rules allow that."""
    symbols = max((each.symbols for each in puzzles), key=len)
    fits = len(symbols) >= len(example.symbols) and all(
        Disguise.RELABEL in use.rule.survives for use in example.uses
    )
    return replace(example, symbols=symbols[: len(example.symbols)]) if fits else example


def _sentences(puzzle: Puzzle, words: Words) -> tuple[str, ...]:
    """What the rule asks: of houses all that is said, of another rule its own sentences."""
    houses, *others = rule_sentences(replace(puzzle, words=""), words)
    if others:
        return tuple(others)
    return words.houses.teach.strip(), houses, words.houses.start.strip()


def _first_steps(
    puzzle: Puzzle, steps: Sequence[Step], level: Level, called: Mapping[Cell, str], words: Words
) -> Iterator[str]:
    """How to begin, in words."""
    cells = {cell: fill(words.worksheet.cell, cell=letter) for cell, letter in called.items()}
    names = Names(puzzle, words, in_words=True, called=cells)
    telling = tell_walk(puzzle, as_told(puzzle, steps), words, level, cells)
    for step, told in zip(steps, telling.steps, strict=True):
        plain = level is Level.FIRST_TIMER and step.technique in PLAIN_SINGLES
        said = _placed(step, names, words) if plain else told.words
        if said:
            yield said


def _placed(step: Step, names: Names, words: Words) -> str:
    """How a digit is placed, for somebody who has never done it."""
    cell, digit = step.places[0]
    sentence: str = getattr(words.worksheet.begin, step.technique.name.lower())
    house = next(iter(step.because.houses), None)
    its = names.its(house) if house else ""
    return fill(sentence, cell=names.cell(cell), digit=names.the(digit), its=capital(its))


def _depth(example: _Example, design: Design) -> float:
    """How deep an example is."""
    grid, steps = _grid_depth(example, design), _steps_depth(example, design)
    below = grid + WHITE_BELOW * _face(design, below=True).leading + steps
    return _grid_top(example, design) + (below if example.below else max(grid, steps))


def _grid_top(example: _Example, design: Design) -> float:
    faces = design.faces
    heading = cap(faces.lesser_title) + (len(example.heading) - 1) * faces.lesser_title.leading
    leading = _face(design, below=example.below).leading
    return heading + (len(example.sentences) + 0.7) * leading


def _grid_depth(example: _Example, design: Design) -> float:
    """A grid with the words under it."""
    note = design.faces.lesser_note
    return design.board_height(example.puzzle, example.grid) + 0.6 * note.size + note.leading


def _steps_depth(example: _Example, design: Design) -> float:
    leading = _face(design, below=example.below).leading
    return design.faces.lesser_note.leading + len(example.steps) * leading


def _items(example: _Example, y: float, design: Design) -> Iterator[Item]:
    """Heading and sentences, then the example, its first steps and its answer."""
    faces, words = design.faces, design.words
    face = _face(design, below=example.below)
    first = y + cap(faces.lesser_title)
    yield heading(stacked(example.heading, faces.lesser_title.leading, 0.0, first))
    first += (len(example.heading) - 1) * faces.lesser_title.leading + face.leading
    yield from stacked(example.sentences, face.leading, 0.0, first)
    top, right = y + _grid_top(example, design), design.measure - example.grid
    yield from _grid(example, 0.0, top, None, words.worksheet.example, design)
    yield from letters_at(example.puzzle, example.called, 0.0, top, example.grid, design)
    yield from _grid(example, right, top, example.answer, words.pages.example_answer, design)
    if example.steps and example.below:
        top += _grid_depth(example, design) + WHITE_BELOW * face.leading
        yield from _steps(example, 0.0, top, design)
    elif example.steps:
        yield from _steps(example, example.grid + 0.8 * design.page.gap, top, design)


def _grid(
    example: _Example, x: float, top: float, answer: Answer | None, said: str, design: Design
) -> Iterator[Item]:
    """The example, open or filled in, with a word under it."""
    note = design.faces.lesser_note
    yield board_at(example.puzzle, x, top, example.grid, design, answer)
    foot = top + design.board_height(example.puzzle, example.grid) + 0.6 * note.size + cap(note)
    yield from set_words(said, note, example.grid)[0].at(x, foot)


def _steps(example: _Example, x: float, top: float, design: Design) -> Iterator[Item]:
    note, face = design.faces.lesser_note, _face(design, below=example.below)
    y = top + cap(note)
    yield from set_words(design.words.worksheet.step, note, design.measure)[0].at(x, y)
    yield from stacked(example.steps, face.leading, x, y + face.leading)
