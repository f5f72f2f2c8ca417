"""Pages of four or six puzzles, with what holds for them said once at the foot."""

from collections.abc import Iterator, Sequence
from functools import partial
from itertools import accumulate, chain
from typing import Final, TypeAlias

from layout.language.wording import sentences_together
from layout.pages.book.references import references_of_all
from layout.pages.common.arrangement import Arrangement, lay_boards, shape_of
from layout.pages.common.book import Numbered
from layout.pages.common.caption import too_small
from layout.pages.common.design import Design, cap, stacked
from layout.pages.common.misfit import Misfits
from layout.pages.common.page import Labels, Page
from layout.pages.common.small_boards import SmallBoard, SmallBoardLook
from layout.picture.items import Item
from layout.type.lines import Line
from layout.type.markup import VoicedText, plain_run
from layout.type.paragraph import set_paragraph
from layout.type.typography import EN_DASH

FOOT_GAP: Final = 1.2
"""White between the last row of puzzles and the sentences at the foot, in gaps."""

FOOT_COLUMN: Final = 23.0
"""The least width of one of two columns at the foot, in ems."""

SPAN: Final = 3
"""Numbers in a row from which on only the first and the last are told."""

_Foot: TypeAlias = tuple[tuple[Line, ...], ...]
"""The lines at the foot of a page, in one column or two."""


def pages_of_several(
    title: str,
    pages: Sequence[Sequence[Numbered]],
    per_page: int,
    design: Design,
    *,
    hinted: bool = False,
) -> tuple[Page, ...]:
    """Pages of these puzzles, up to so many on each, all in one arrangement.

    Raises Misfits for long words and small cells.
    """
    look = puzzle_look(design)
    feet = [_foot(page, design) for page in pages]
    depth = design.depth - max(_foot_depth(foot, design) for foot in feet)
    puzzles = [each for page in pages for each in page]
    shape = shape_of(per_page, depth, design)
    arrangement, boards = lay_boards(puzzles, shape, depth, look, design)
    check_cells(puzzles, arrangement.side, per_page, design)
    ends = list(accumulate(map(len, pages)))
    return tuple(
        Page(
            partial(_draw, boards[end - len(page) : end], foot, arrangement, look, design),
            anchors=tuple(
                arrangement.anchor(at, numbered.puzzle_anchor) for at, numbered in enumerate(page)
            ),
            head=title,
            references=references_of_all(page, design, hinted=hinted),
        )
        for page, foot, end in zip(pages, feet, ends, strict=True)
    )


def puzzle_look(design: Design) -> SmallBoardLook:
    """How puzzles that share a page are lettered."""
    faces = design.faces
    return SmallBoardLook(
        faces.lesser_number,
        faces.lesser_title,
        faces.lesser_credit,
        faces.lesser_note,
        sentence="",
        largest=design.page.cells.largest,
    )


def check_cells(puzzles: Sequence[Numbered], side: float, per_page: int, design: Design) -> None:
    """Raises Misfits for every grid whose cells are under the smallest."""
    smallest = design.page.cells.smallest
    cells = [design.cell(numbered.puzzle, side, side) for numbered in puzzles]
    where = f"{per_page} to a page" if per_page > 1 else "on a page of its own"
    small = [
        too_small(numbered, cell, smallest, where)
        for numbered, cell in zip(puzzles, cells, strict=True)
        if cell < smallest
    ]
    if small:
        raise Misfits(small)


def _foot(page: Sequence[Numbered], design: Design) -> _Foot:
    """What is said of all puzzles of a page, then of some, by their numbers."""
    voices, gap = design.faces.lesser_rules, design.page.gap
    half = (design.measure - gap) / 2
    count = 2 if half >= FOOT_COLUMN * voices.size else 1
    measure = half if count == 2 else design.measure
    told = [
        set_paragraph(_said(sentence, numbers, design), voices, measure, language=design.language)
        for sentence, numbers in sorted(_told(page, design), key=lambda told: told[1])
    ]
    if count == 1 or len(told) < 2:
        return (tuple(chain.from_iterable(told)),)
    whole = sum(map(len, told))
    # Sentences are not parted: the left column has half of the lines or a few more.
    ends = accumulate(map(len, told))
    left = next(at for at, end in enumerate(ends, start=1) if 2 * end >= whole)
    return tuple(
        tuple(line for lines in each for line in lines) for each in (told[:left], told[left:])
    )


def _told(page: Sequence[Numbered], design: Design) -> Iterator[tuple[str, tuple[int, ...]]]:
    """Each sentence with the numbers that it is about; without any where it is about all."""
    for sentence, about in sentences_together([each.puzzle for each in page], design.words):
        numbers = tuple(page[at].number for at in about)
        yield sentence, numbers if len(about) < len(page) else ()


def _said(sentence: str, numbers: Sequence[int], design: Design) -> tuple[VoicedText, ...]:
    """The numbers in bold, then the sentence."""
    said = plain_run(sentence, design.words.quote_marks)
    return (VoicedText(f"{_spans(numbers)} ", "bold"), *said) if numbers else said


def _spans(numbers: Sequence[int]) -> str:
    """Numbers with commas, several in a row by their ends: "12, 14-17"."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and runs[-1][-1] == number - 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(
        f"{run[0]}{EN_DASH}{run[-1]}" if len(run) >= SPAN else ", ".join(map(str, run))
        for run in runs
    )


def _foot_depth(foot: _Foot, design: Design) -> float:
    """What the sentences at the foot take, and the white above them."""
    voices = design.faces.lesser_rules
    lines = max(map(len, foot))
    if not lines:
        return 0.0
    return (lines - 1) * voices.leading + cap(voices) + FOOT_GAP * design.page.gap


def _draw(
    boards: Sequence[SmallBoard],
    foot: _Foot,
    arrangement: Arrangement,
    look: SmallBoardLook,
    design: Design,
    labels: Labels,
) -> Iterator[Item]:
    yield from arrangement.items(boards, look, design, labels)
    leading = design.faces.lesser_rules.leading
    y = design.depth - (max(map(len, foot)) - 1) * leading
    if arrangement.columns * arrangement.rows == 1:
        y = min(y, _under(boards[0], arrangement, look, design))
    for at, lines in enumerate(foot):
        yield from stacked(lines, leading, at * (design.measure + design.page.gap) / 2, y)


def _under(
    board: SmallBoard, arrangement: Arrangement, look: SmallBoardLook, design: Design
) -> float:
    """The first baseline under a board that has the page for itself: its rules go with it."""
    puzzle, side = board.numbered.puzzle, arrangement.side
    width = design.board_width(puzzle, side, side, look.largest)
    foot = arrangement.above + design.board_height(puzzle, width) + board.below(look)
    return foot + FOOT_GAP * design.page.gap + cap(design.faces.lesser_rules)
