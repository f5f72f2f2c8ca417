"""The houses that make the grid: what rows, columns, boxes and regions share."""

from collections.abc import Callable, Sequence
from functools import partial

from verify.board import Board
from verify.marks import Border, Mark
from verify.move import EVERY_DISGUISE
from verify.reading.grammar import FLAG
from verify.rule import Rule, Saying
from verify.rules.workings.distinct import Distinct
from verify.rules.workings.parts import nothing_drawn, over_board


def line_rule(
    *,
    name: str,
    line: str,
    meaning: str,
    of_board: Callable[[Board], tuple[Distinct, ...]],
    example: str,
) -> Rule[bool, Distinct]:
    """A rule whose houses are all lines of one direction; `line` is the word for one of them."""
    return Rule(
        name=name,
        meaning=meaning,
        marks="`true`",
        grammar=FLAG,
        make=partial(over_board, of_board),
        draw=nothing_drawn,  # the grid shows them
        says=partial(told_with_houses, line),
        survives=EVERY_DISGUISE,
        example=example,
    )


def bordered(role: str, board: Board, houses: Sequence[Distinct]) -> tuple[Mark, ...]:
    """A border around each house."""
    return tuple(Border(role, house.cells) for house in houses)


def told_with_houses(house: str, houses: Sequence[Distinct]) -> tuple[Saying, ...]:
    """A word in the one sentence that tells of all houses of the grid: row, column, box ..."""
    return (Saying("houses", values=(("house", house),)),)
