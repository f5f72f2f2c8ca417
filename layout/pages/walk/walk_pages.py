"""The pages of one walk: the puzzle with what matters most, then its steps with diagrams."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from layout.board.step import draw_clean, draw_step, least_step_side
from layout.language.wording import rule_sentences
from layout.language.words import fill
from layout.pages.common.book import USUAL_CHOICE, WalkChoice
from layout.pages.common.caption import fitted_credit, fitted_title
from layout.pages.common.design import Design, heading, stacked
from layout.pages.common.gauge import gauge
from layout.pages.common.misfit import Misfit, Misfits
from layout.pages.common.page import Labels, Page, Reference, fixed
from layout.pages.common.prose_pages import rows_below
from layout.pages.walk.walk_blocks import Passage, WalkBlock, block, words_alone
from layout.pages.walk.walk_grid import GAP_ROWS, WalkGrid, walk_grid
from layout.picture.items import Anchor, Item, Picture
from layout.telling.board_in_words import board_in_words
from layout.telling.level import Level
from layout.telling.names import technique_key
from layout.telling.step_pictures import Cut, Piece, StepPicture, cut_walk, divisible, least_needed
from layout.telling.telling import Telling, tell_walk
from layout.type.paragraph import one_line, set_words
from layout.type.typography import polish
from verify.puzzle import Puzzle
from verify.walk.report.grade import Grade
from verify.walk.report.replay import Scene
from verify.walk.told.path import ToldPath

UNDER_HEAD: Final = 2.4
"""White between the words of a head and the puzzle, in leadings."""

MOST_SPREAD: Final = 5
"""Rows of white that are added between blocks where a page has them to spare."""

FEWEST_ROWS: Final = 4
"""Rows of words that stay together on either side of a turned page."""

LESS: Final = {
    Level.EVERY: Level.WHOLE,
    Level.FIRST_TIMER: Level.WHOLE,
    Level.WHOLE: Level.MOMENTS,
}
"""The level that tells less than each."""

KEPT_DIAGRAMS: Final = 2
"""Diagrams that are kept rather than tell as much: of where it breaks open, and of the crux."""

MOST_PARTS: Final = 6
"""Parts that a paragraph is told in where it has no room on one page."""


LEAST_OPENING: Final = 0.6
"""The least share of its width that the clean puzzle keeps to stay on the page of the head."""


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
    choice: WalkChoice = USUAL_CHOICE


@dataclass(slots=True)
class _FilledPage:
    """A page that is being filled: its head, blocks with their rows, and its first free row.

    `overflows` where words of a block run on from it or onto it.
    """

    row: int
    items: list[Item]
    blocks: list[tuple[int, WalkBlock]]
    overflows: bool = False

    def finished(self, grid: WalkGrid, *, spread: bool) -> tuple[list[Item], list[Anchor]]:
        """Items and anchors; with `spread` some of the white below goes between the blocks."""
        gaps = len(self.blocks) - 1
        spread = spread and gaps > 0 and not self.overflows
        more = min((grid.capacity - self.row) // (gaps + 1), MOST_SPREAD) if spread else 0
        items, anchors = list(self.items), list[Anchor]()
        for index, (row, each) in enumerate(self.blocks):
            row += index * more
            items += each.items(row, grid)
            if each.anchor:
                anchors.append(Anchor(each.anchor, grid.top(row)))
        return items, anchors


def walk_pages(
    path: PrintedWalk, design: Design, reference: Reference | None = None
) -> tuple[Page, ...]:
    """All pages of a walk; the reference stands in the foot of the first.

    Raises Misfits for a title or a name that is too long, for cells that are too small, and where
    the walk takes more pages than it may even when the least is told.
    """
    grid = walk_grid(path.puzzle, design, every_mark=path.choice.every_mark)
    filled = _Chapter(path, grid).pages()
    title = polish(path.puzzle.title, design.words.quote_marks)
    pages: list[Page] = []
    for index, page in enumerate(filled):
        items, anchors = page.finished(grid, spread=index < len(filled) - 1)
        begins = [] if index else [Anchor(path.anchor, 0.0)]
        own = Anchor(page_anchor(path.anchor, index), 0.0)
        pages.append(
            Page(
                fixed(items),
                (*begins, own, *anchors),
                head=title if index else "",
                references=() if index or reference is None else (reference,),
            )
        )
    return tuple(pages)


def page_anchor(walk: str, index: int) -> str:
    """The name of a walk's page, the first one 0."""
    return f"{walk}-page-{index + 1}"


def count_pages(walk: str, labels: Labels) -> int:
    """The pages that a walk takes in a book, by the anchors of the book."""
    count = 0
    while page_anchor(walk, count) in labels:
        count += 1
    return count


class _Chapter:
    """Sets one walk, with less and less of it until it has no more pages than it may."""

    def __init__(self, path: PrintedWalk, grid: WalkGrid) -> None:
        self._path, self._grid, self._design = path, grid, grid.design
        self._pictures: dict[tuple[Level, Piece], Picture] = {}
        self._cuts: dict[tuple[Level, tuple[tuple[int, int], ...]], Cut] = {}

    def pages(self) -> list[_FilledPage]:
        """The pages. Raises Misfits where they are too many."""
        choice = self._path.choice
        least: list[_FilledPage] = []
        for level, telling, without in self._ways():
            pages = self._set(level, telling, without)
            if choice.most_pages is None or len(pages) <= choice.most_pages:
                return pages
            least = pages
        message = (
            f'the walk of "{self._path.puzzle.title}" takes {len(least)} pages when the least '
            f"is told; the most is {choice.most_pages}"
        )
        raise Misfits([Misfit(message, choice.limit)])

    def _ways(self) -> Iterator[tuple[Level, Telling, frozenset[int]]]:
        """All of it, then fewer diagrams, then less told, with fewer diagrams again."""
        path = self._path
        level: Level | None = path.choice.level
        while level is not None:
            telling = tell_walk(path.puzzle, path.walk, self._design.words, level)
            order, less = least_needed(telling), LESS.get(level)
            # While less can be told, the diagrams of what matters most stay.
            most = len(order) if less is None else max(len(order) - KEPT_DIAGRAMS, 0)
            for count in range(most + 1):
                yield level, telling, frozenset(order[:count])
            level = less

    def _set(self, level: Level, telling: Telling, without: frozenset[int]) -> list[_FilledPage]:
        """The pages with these diagrams; a paragraph without room on a page is told in parts."""
        most = {
            number: min(count, MOST_PARTS)
            for number, count in divisible(self._path.puzzle, telling).items()
        }
        parts: dict[int, int] = {}
        while True:
            shown = self._cut(level, telling, parts).pictures(without)
            blocks = [self._block(level, each) for each in shown]
            too_long = {
                each.last.number
                for each, of in zip(shown, blocks, strict=True)
                if of.rows > self._grid.capacity
                and parts.get(each.last.number, 1) < most.get(each.last.number, 1)
            }
            if not too_long:
                return self._filled(telling, blocks)
            for number in too_long:
                parts[number] = parts.get(number, 1) + 1

    def _cut(self, level: Level, telling: Telling, parts: Mapping[int, int]) -> Cut:
        """A telling in its parts, cut once."""
        key = level, tuple(sorted(parts.items()))
        if key not in self._cuts:
            self._cuts[key] = cut_walk(self._path.puzzle, telling, parts)
        return self._cuts[key]

    def _filled(self, telling: Telling, blocks: Sequence[WalkBlock]) -> list[_FilledPage]:
        head, y = _head(self._path, self._design)
        row = rows_below(y, self._grid.voices, UNDER_HEAD)
        first = _FilledPage(row, head, [])
        opening = _opening(self._path.puzzle, telling, row, self._grid)
        ends = [words_alone([self._passage(telling.end)], self._grid)] if telling.end else []
        return _fill(first, [opening, *blocks, *ends], self._grid)

    def _block(self, level: Level, shown: StepPicture) -> WalkBlock:
        passages = [
            self._passage(each.words, "" if each.part else str(each.number))
            for each in shown.pieces
        ]
        if shown.scene is None:
            return words_alone(passages, self._grid)
        anchor = "" if shown.last.part else f"{self._path.anchor}-{shown.last.number}"
        picture = self._picture(level, shown.last, shown.scene)
        return block(picture, passages, self._grid, anchor)

    def _picture(self, level: Level, piece: Piece, scene: Scene) -> Picture:
        """A diagram, drawn once."""
        key = level, piece
        if key not in self._pictures:
            puzzle, design = self._path.puzzle, self._design
            drawn = draw_step(
                puzzle,
                design.board,
                self._grid.diagram,
                scene,
                every_mark=self._path.choice.every_mark,
            )
            told = " ".join(board_in_words(puzzle, design.words, scene.written))
            self._pictures[key] = replace(drawn, description=told)
        return self._pictures[key]

    def _passage(self, words: str, number: str = "") -> Passage:
        return Passage(polish(words, self._design.words.quote_marks), number)


def _head(path: PrintedWalk, design: Design) -> tuple[list[Item], float]:
    """Title, constructor, grade and hardest technique, and the baseline of the last of them."""
    faces, puzzle = design.faces, path.puzzle
    number = one_line(path.number, faces.number)
    beside = design.measure - max(number.width, 2 * faces.number.size) - faces.title.size
    title = fitted_title(puzzle, faces.title, beside, design)
    y = faces.title.size + title.drop
    items: list[Item] = [heading(stacked(title.lines, title.face.leading, 0.0, faces.title.size))]
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


def _opening(puzzle: Puzzle, telling: Telling, row: int, grid: WalkGrid) -> WalkBlock:
    """The clean puzzle with its words, smaller than diagrams where the head leaves less room.

    Where it would be too small to read, the words alone.
    """
    design = grid.design
    quotes = design.words.quote_marks
    rules = polish(" ".join(rule_sentences(puzzle, design.words)), quotes)
    said = [Passage(rules), Passage(""), Passage(polish(telling.summary, quotes), voice="italic")]
    told = " ".join(board_in_words(puzzle, design.words))
    drawn = replace(draw_clean(puzzle, design.board, grid.diagram), description=told)
    opening = block(drawn, said, grid)
    over = row + opening.rows - grid.capacity
    if over <= 0 or opening.picture is None:
        return opening
    room = opening.picture.height - over * grid.voices.leading
    smaller = grid.extent.within(grid.diagram, room)
    side = least_step_side(puzzle, design.board, every_mark=False, told=False)
    if smaller < LEAST_OPENING * grid.diagram or grid.extent.side(smaller) < side:
        return words_alone(said, grid)
    drawn = replace(draw_clean(puzzle, design.board, smaller), description=told)
    return block(drawn, said, grid)


def _fill(first: _FilledPage, blocks: Sequence[WalkBlock], grid: WalkGrid) -> list[_FilledPage]:
    """Blocks one after the other, each whole on a page if one has room for it."""
    pages = [first]
    for each in blocks:
        needed = each.rows
        if needed > grid.capacity or each.picture is None:
            needed = each.depth + min(len(each.under), FEWEST_ROWS)
        if pages[-1].row + needed > grid.capacity:
            pages.append(_FilledPage(0, [], []))
        _put(each, pages, grid)
        pages[-1].row += GAP_ROWS
    return pages


def _put(block: WalkBlock, pages: list[_FilledPage], grid: WalkGrid) -> None:
    """A block on the last page, its words under it on as many pages as they run.

    Where words stand under diagrams, each of these pages has the diagram again.
    """
    page, left = pages[-1], block.under
    while True:
        room = grid.capacity - page.row - block.depth
        if room < len(left):
            # No fewer than a few rows are sent ahead.
            room = min(room, max(len(left) - FEWEST_ROWS, 1))
        now, left = left[:room], left[room:]
        part = replace(block, under=now)
        page.blocks.append((page.row, part))
        page.row += part.rows
        if not left:
            return
        page.overflows = True
        block = replace(block, anchor="") if grid.stacked else WalkBlock(None, (), (), 0)
        page = _FilledPage(0, [], [], overflows=True)
        pages.append(page)
