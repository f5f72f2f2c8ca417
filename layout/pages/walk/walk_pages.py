"""The pages of one walk: the puzzle with what matters most, then a diagram for each step."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from layout.board.board import draw_board
from layout.board.step import draw_step
from layout.language.wording import rule_sentences
from layout.language.words import fill
from layout.pages.common.caption import fitted_credit, fitted_title
from layout.pages.common.design import Design, stacked
from layout.pages.common.gauge import gauge
from layout.pages.common.page import Page, Reference, fixed
from layout.pages.common.prose_pages import rows_below
from layout.pages.walk.walk_blocks import Runs, WalkBlock, block, words_alone
from layout.pages.walk.walk_grid import GAP_ROWS, WalkGrid, walk_grid
from layout.picture.items import Anchor, Item
from layout.telling.level import Level
from layout.telling.names import technique_key
from layout.telling.step_pictures import StepPicture, step_pictures
from layout.telling.telling import Paragraph, Telling, tell_walk
from layout.type.lines import Line
from layout.type.markup import VoicedText
from layout.type.paragraph import one_line, set_words
from layout.type.typography import TIE, polish
from verify.puzzle import Puzzle
from verify.walk.report.grade import Grade
from verify.walk.told.path import ToldPath

UNDER_HEAD: Final = 2.6
"""White between the words of a head and the puzzle, in leadings."""

FEWEST_ROWS: Final = 3
"""Rows of words that stay together on either side of a turned page."""


@dataclass(frozen=True, slots=True)
class PrintedWalk:
    """A puzzle with its walk and grade; `number` is the puzzle's in a book, or empty.

    `anchor` names its first page and starts the names of its diagrams.
    """

    puzzle: Puzzle
    walk: ToldPath
    grade: Grade
    anchor: str
    number: str = ""
    level: Level = Level.WHOLE


@dataclass(slots=True)
class _FilledPage:
    """A page that is being filled: its items and anchors, and its first row that is free."""

    row: int
    items: list[Item]
    anchors: list[Anchor]


def walk_pages(
    path: PrintedWalk, design: Design, reference: Reference | None = None
) -> tuple[Page, ...]:
    """All pages of a walk; the reference stands in the foot of the first.

    Raises Misfits for a title or a name that is too long, and for cells that are too small.
    """
    grid = walk_grid(path.puzzle, design)
    head, y = _head(path, design)
    first = _FilledPage(rows_below(y, grid.voices, UNDER_HEAD), head, [Anchor(path.anchor, 0.0)])
    pages = _filled(first, list(_blocks(path, first.row, grid)), grid)
    title = polish(path.puzzle.title, design.words.quote_marks)
    return tuple(
        Page(
            fixed(page.items),
            tuple(page.anchors),
            head=title if index else "",
            references=() if index or reference is None else (reference,),
        )
        for index, page in enumerate(pages)
    )


def _head(path: PrintedWalk, design: Design) -> tuple[list[Item], float]:
    """Title, constructor, grade and hardest technique, and the baseline of the last of them."""
    faces, puzzle = design.faces, path.puzzle
    number = one_line(path.number, faces.number)
    beside = design.measure - max(number.width, 2 * faces.number.size) - faces.title.size
    title = fitted_title(puzzle, faces.title, beside, design)
    y = faces.title.size + title.drop
    items: list[Item] = [*stacked(title.lines, title.face.leading, 0.0, faces.title.size)]
    items += number.at(design.measure - number.width, y)
    y += 1.25 * faces.credit.leading
    items += _grade_at(path.grade, y, design)
    credit = fitted_credit(puzzle, faces.credit, beside / 2, design)
    if credit.lines:
        items += stacked(credit.lines, credit.face.leading, 0.0, y)
        y += credit.drop + faces.note.leading
    said = set_words(_hardest(path.grade, design), faces.note, beside)
    items += stacked(said, faces.note.leading, 0.0, y)
    return items, y + max(len(said) - 1, 0) * faces.note.leading


def _grade_at(grade: Grade, y: float, design: Design) -> Iterator[Item]:
    """The grade in a word and marks at the right, as on the puzzle's own page."""
    graded = gauge(grade, design.words.grades, design.faces.note)
    if graded:
        yield from graded.at(design.measure - graded.width, y)


def _hardest(grade: Grade, design: Design) -> str:
    """The hardest technique; nothing where there is none."""
    if grade.hardest is None:
        return ""
    walk = design.words.walk
    technique = walk.techniques[technique_key(grade.hardest)].name
    return polish(fill(walk.hardest, technique=technique), design.words.quote_marks)


def _blocks(path: PrintedWalk, row: int, grid: WalkGrid) -> Iterator[WalkBlock]:
    """The puzzle with its rules and the summary, each diagram, and how the walk ends.

    `row` is the first one under the head.
    """
    design, puzzle = grid.design, path.puzzle
    telling = tell_walk(puzzle, path.walk, design.words, path.level)
    yield _opening(puzzle, telling, row, grid)
    for shown in step_pictures(puzzle, telling):
        yield _step_block(shown, path, grid)
    if telling.end:
        yield words_alone([(VoicedText(_polished(telling.end, design)),)], grid)


def _opening(puzzle: Puzzle, telling: Telling, row: int, grid: WalkGrid) -> WalkBlock:
    """The clean puzzle with its words, smaller than diagrams where the head leaves less room."""
    design = grid.design
    rules = " ".join(rule_sentences(puzzle, design.words))
    rule, summary = (VoicedText(_polished(words, design)) for words in (rules, telling.summary))
    said = [(rule,), (), (summary,)]
    opening = block(draw_board(puzzle, design.board, grid.diagram), "", said, grid)
    over = row + opening.depth + len(opening.under) - grid.capacity
    if over <= 0 or opening.picture is None:
        return opening
    room = opening.picture.height - over * grid.voices.leading
    width = design.board_width(puzzle, grid.diagram, room)
    return block(draw_board(puzzle, design.board, width), "", said, grid)


def _step_block(shown: StepPicture, path: PrintedWalk, grid: WalkGrid) -> WalkBlock:
    design = grid.design
    picture = draw_step(path.puzzle, design.board, grid.diagram, shown.scene)
    caption = fill(design.words.walk.step_caption, number=shown.number)
    words = [_told(paragraph, design) for paragraph in shown.paragraphs]
    return block(picture, caption, words, grid, f"{path.anchor}-{shown.number}")


def _told(paragraph: Paragraph, design: Design) -> Runs:
    """Number and words of a paragraph; a technique has its name before them."""
    number = VoicedText(f"{paragraph.number}{TIE}{TIE}", "bold")
    step, words = paragraph.steps[0], VoicedText(_polished(paragraph.words, design))
    if step.places:
        return number, words
    name = design.words.walk.techniques[technique_key(step.technique)].name
    called = f"{name[:1].upper()}{name[1:]}."
    return number, VoicedText(f"{_polished(called, design)} ", "italic"), words


def _polished(text: str, design: Design) -> str:
    return polish(text, design.words.quote_marks)


def _filled(first: _FilledPage, blocks: Sequence[WalkBlock], grid: WalkGrid) -> list[_FilledPage]:
    """Blocks one after the other, on as many pages as they need."""
    pages = [first]
    for each in blocks:
        needed = each.depth + min(len(each.under), FEWEST_ROWS)
        if pages[-1].row + needed > grid.capacity:
            pages.append(_FilledPage(0, [], []))
        page = pages[-1]
        if each.anchor:
            page.anchors.append(Anchor(each.anchor, grid.top(page.row)))
        page.items += each.items(page.row, grid)
        page.row += each.depth
        _run_on(each.under, pages, grid)
        pages[-1].row += GAP_ROWS
    return pages


def _run_on(lines: Sequence[Line], pages: list[_FilledPage], grid: WalkGrid) -> None:
    """The words under a picture, over as many pages as they run."""
    left = list(lines)
    while left:
        page = pages[-1]
        room = grid.capacity - page.row
        if room < len(left):
            # No fewer than a few rows are sent ahead.
            room = min(room, max(len(left) - FEWEST_ROWS, 1))
        now, left = left[:room], left[room:]
        page.items += stacked(now, grid.voices.leading, 0.0, grid.baseline(page.row))
        page.row += len(now)
        if left:
            pages.append(_FilledPage(0, [], []))
