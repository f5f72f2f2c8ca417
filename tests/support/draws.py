"""Hypothesis draws small boards, pencil marks, and marks of each rule."""

from collections.abc import Callable
from dataclasses import dataclass

from hypothesis import strategies as st

from verify.board import COMPASS, Board, Cell
from verify.rules import columns, rows
from verify.rules.arrow import Arrow
from verify.rules.cage import Cage
from verify.rules.diagonals import falling, rising
from verify.rules.distinct import Distinct
from verify.rules.greater import Greater
from verify.rules.parity import Parity
from verify.rules.rule import Constraint
from verify.rules.slow_thermometer import SlowThermometer
from verify.rules.sums import largest_sum, least_sum
from verify.rules.thermometer import Thermometer

Draw = Callable[..., object]

SHAPES = [(2, 3, 3), (2, 2, 4), (3, 2, 4), (2, 3, 4), (1, 5, 5), (2, 2, 6), (2, 2, 9), (3, 3, 3)]
"""Rows, columns and digits: at most 20,000 grids each, so that all can be looked through."""


@dataclass(frozen=True)
class Case:
    """A small board, its pencil marks, and marks of one rule."""

    board: Board
    pencil: tuple[int, ...]
    constraints: tuple[Constraint, ...]


@st.composite
def walks(draw: Draw, board: Board, least: int, most: int) -> tuple[Cell, ...]:
    """A path of touching cells, none twice; shorter than `most` where it runs into itself."""
    path = [draw(st.sampled_from(board.cells))]
    for _ in range(draw(st.integers(least, most)) - 1):
        steps = [board.step(path[-1], direction) for direction in COMPASS]
        free = sorted({cell for cell in steps if cell is not None and cell not in path})
        if not free:
            break
        path.append(draw(st.sampled_from(free)))
    return tuple(path)


def _walk(draw: Draw, board: Board, most: int) -> tuple[Cell, ...]:
    return draw(walks(board, 2, max(2, most)).filter(lambda path: len(path) > 1))


def _thermometer(draw: Draw, board: Board) -> Constraint:
    return Thermometer(_walk(draw, board, board.digits))


def _slow_thermometer(draw: Draw, board: Board) -> Constraint:
    return SlowThermometer(_walk(draw, board, 6))


def _arrow(draw: Draw, board: Board) -> Constraint:
    path = _walk(draw, board, 6)
    split = draw(st.integers(1, min(3, len(path) - 1)))
    return Arrow(path[:split], path[split:])


def _cage(draw: Draw, board: Board) -> Constraint:
    cells = tuple(sorted(draw(walks(board, 1, board.digits))))
    low, high = least_sum(len(cells)), largest_sum(len(cells), board.digits)
    return Cage(cells, draw(st.none() | st.integers(low, high)), board.digits)


def _distinct(kind: str) -> Callable[[Draw, Board], Constraint]:
    def draws(draw: Draw, board: Board) -> Constraint:
        return Distinct(kind, draw(walks(board, 2, board.digits)))

    return draws


def _parity(remainder: int) -> Callable[[Draw, Board], Constraint]:
    def draws(draw: Draw, board: Board) -> Constraint:
        return Parity((draw(st.sampled_from(board.cells)),), remainder)

    return draws


def _greater(draw: Draw, board: Board) -> Constraint:
    one = draw(st.sampled_from(board.cells))
    other = draw(st.sampled_from([cell for cell in board.cells if board.share_edge(one, cell)]))
    return Greater((one, other))


def _diagonals(draw: Draw, board: Board) -> Constraint:
    square = Board(min(board.rows, board.columns), board.columns, board.digits)
    return draw(st.sampled_from([falling, rising]))(square)


ONE_MARK: dict[str, Callable[[Draw, Board], Constraint]] = {
    "rows": lambda draw, board: draw(st.sampled_from(rows.of_board(board))),
    "columns": lambda draw, board: draw(st.sampled_from(columns.of_board(board))),
    "boxes": _distinct("box"),
    "regions": _distinct("region"),
    "diagonals": _diagonals,
    "thermometer": _thermometer,
    "slow-thermometer": _slow_thermometer,
    "arrow": _arrow,
    "cage": _cage,
    "even": _parity(0),
    "odd": _parity(1),
    "greater": _greater,
}


@st.composite
def cases(draw: Draw, rule: str, most_marks: int = 2) -> Case:
    """Marks of one rule on a small board with random pencil marks."""
    board = Board(*draw(st.sampled_from(SHAPES)))
    full = (2 << board.digits) - 2
    mask = st.just(full) | st.integers(1, full // 2).map(lambda bits: bits << 1)
    pencil = tuple(draw(mask) for _ in board.cells)
    marks = draw(st.integers(1, most_marks))
    return Case(board, pencil, tuple(ONE_MARK[rule](draw, board) for _ in range(marks)))
