"""Places outside a board, and what is seen from there."""

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn

from verify.board import COMPASS, SIDES, Board, Outside
from verify.reading.outside import Line

_DIAGONALS = [name for name, step in COMPASS.items() if all(step)]


def straight_lines(board: Board) -> list[Line]:
    """Every row and column, seen from both ends."""
    rows, columns = range(board.rows), range(board.columns)
    places = [Outside(-1, column, SIDES["top"]) for column in columns]
    places += [Outside(board.rows, column, SIDES["bottom"]) for column in columns]
    places += [Outside(row, -1, SIDES["left"]) for row in rows]
    places += [Outside(row, board.columns, SIDES["right"]) for row in rows]
    return [Line(place, board.sight(place)) for place in places]


def diagonal_lines(board: Board) -> list[Line]:
    """Every diagonal, from every place outside that sees along it."""
    places = {
        Outside(line.outside.row, line.outside.column, direction)
        for line in straight_lines(board)
        for direction in _DIAGONALS
    }
    lines = (Line(place, board.sight(place)) for place in sorted(places, key=str))
    return [line for line in lines if line.cells]


def straight_line(draw: DrawFn, board: Board, least: int = 1) -> Line:
    """A row or a column of at least `least` cells, seen from either end."""
    return draw(st.sampled_from([x for x in straight_lines(board) if len(x.cells) >= least]))
