"""Pages of four or six puzzles, with what holds for all of them said once at the foot."""

from collections.abc import Iterator, Sequence
from functools import partial
from typing import Final

from layout.language.wording import shared_sentences
from layout.pages.common.arrangement import Arrangement, lay_boards
from layout.pages.common.book import Numbered
from layout.pages.common.caption import rule_lines, too_small
from layout.pages.common.design import Design, stacked
from layout.pages.common.misfit import Misfits
from layout.pages.common.page import Labels, Page
from layout.pages.common.small_boards import SmallBoard, SmallBoardLook
from layout.picture.items import Item
from layout.type.lines import Line

FOOT_GAP: Final = 0.7
"""White between the last row of puzzles and the sentences at the foot, in gaps."""


def pages_of_several(
    title: str, puzzles: Sequence[Numbered], per_page: int, design: Design
) -> tuple[Page, ...]:
    """Pages of so many puzzles each. Raises Misfits for long words and small cells."""
    look = puzzle_look(design)
    pages = [puzzles[start : start + per_page] for start in range(0, len(puzzles), per_page)]
    said = [shared_sentences([each.puzzle for each in page], design.words) for page in pages]
    feet = [rule_lines(shared, look.rules, design.measure, design) for shared, _ in said]
    depth = design.depth - max(_foot_depth(foot, design) for foot in feet)
    chunks = [list(zip(page, own, strict=True)) for page, (_, own) in zip(pages, said, strict=True)]
    arrangement, boards = lay_boards(chunks, per_page, depth, look, design)
    check_cells(puzzles, arrangement.side, per_page, design)
    return tuple(
        Page(
            partial(_draw, page, foot, arrangement, look, design),
            anchors=tuple(
                arrangement.anchor(at, board.numbered.puzzle_anchor)
                for at, board in enumerate(page)
            ),
            head=title,
        )
        for page, foot in zip(boards, feet, strict=True)
    )


def puzzle_look(design: Design) -> SmallBoardLook:
    """How puzzles that share a page are lettered."""
    faces = design.faces
    return SmallBoardLook(
        faces.lesser_number,
        faces.lesser_title,
        faces.lesser_credit,
        faces.lesser_rules,
        faces.lesser_note,
        design.words.pages.answer_on,
        answers=False,
        largest=design.page.cells.largest,
    )


def check_cells(puzzles: Sequence[Numbered], side: float, per_page: int, design: Design) -> None:
    """Raises Misfits for every grid whose cells are under the smallest."""
    smallest = design.page.cells.smallest
    cells = [design.cell(numbered.puzzle, side, side) for numbered in puzzles]
    small = [
        too_small(numbered, cell, smallest, f"{per_page} to a page")
        for numbered, cell in zip(puzzles, cells, strict=True)
        if cell < smallest
    ]
    if small:
        raise Misfits(small)


def _foot_depth(lines: Sequence[Line], design: Design) -> float:
    """What the sentences at the foot take, and the white above them."""
    return len(lines) * design.faces.lesser_rules.leading + (
        FOOT_GAP * design.page.gap if lines else 0.0
    )


def _draw(
    boards: Sequence[SmallBoard],
    foot: Sequence[Line],
    arrangement: Arrangement,
    look: SmallBoardLook,
    design: Design,
    labels: Labels,
) -> Iterator[Item]:
    yield from arrangement.items(boards, look, design, labels)
    y = design.depth - (len(foot) - 1) * look.rules.leading
    yield from stacked(foot, look.rules.leading, 0.0, y)
