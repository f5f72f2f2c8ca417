"""A board's picture without the idle room that keeps its grid in the middle.

Where clues stand on one side only, the other side is given up.
"""

from layout.board.board import draw_board, extent_of, shown_marks
from layout.board.extent import Extent
from layout.marks.outskirts import outskirts
from layout.picture.items import Group
from layout.style.board import BoardStyle
from verify.pencil import Grid
from verify.puzzle import Puzzle


def cropped_extent(puzzle: Puzzle, style: BoardStyle) -> Extent:
    """How many cells wide and deep the board is with the clues that it has."""
    board, outside = puzzle.board, outskirts(shown_marks(puzzle), style.marks.clues, puzzle.board)
    across = board.columns + outside.left + outside.right
    return Extent(across, board.rows + outside.top + outside.bottom, style.lines.frame)


def cropped_board(
    puzzle: Puzzle, style: BoardStyle, width: float, answer: Grid | None = None
) -> Group:
    """The board exactly `width` millimetres wide, its upper left corner at 0, 0.

    Raises what `draw_board` raises.
    """
    outside = outskirts(shown_marks(puzzle), style.marks.clues, puzzle.board)
    side, whole = cropped_extent(puzzle, style).side(width), extent_of(puzzle, style)
    picture = draw_board(puzzle, style, whole.across * side + whole.frame.at(side), answer=answer)
    left, top = outside.across - outside.left, outside.down - outside.top
    return Group(-left * side, -top * side, picture.items, picture.title)
