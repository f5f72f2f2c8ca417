"""Diagonals that fall or rise: how a manifest chooses between them."""

from collections.abc import Callable
from typing import TypeAlias

from verify.board import Board
from verify.reading.grammar import Placed, Word
from verify.reading.reader import Reader
from verify.rules.workings.distinct import Distinct

Lines: TypeAlias = Callable[[Board], tuple[Distinct, ...]]
"""All diagonals of a board that run one way."""


def slants(what: str) -> Word:
    """`both`, `falling` or `rising`; `what` names the choice in a problem: "which diagonals"."""
    return Word(("both", "falling", "rising"), what)


def chosen_slants(
    falling: Lines, rising: Lines, choice: Placed[str], reader: Reader
) -> tuple[Distinct, ...]:
    """The diagonals of the chosen ways, the falling ones first."""
    ways = {"both": (falling, rising), "falling": (falling,), "rising": (rising,)}
    return tuple(line for way in ways[choice.value] for line in way(reader.board))
