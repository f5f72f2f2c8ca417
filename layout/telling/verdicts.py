"""What must be known before a walk is read: that its puzzle has several answers, or none."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from layout.language.words import Words, fill
from layout.telling.telling import Telling
from verify.board import Cell
from verify.proof.verdict import Verdict
from verify.puzzle import Puzzle
from verify.walk.told.path import ToldPath

MOST_NAMED: Final = 12
"""Cells that are named where answers part."""


def with_verdict(
    telling: Telling, path: ToldPath, puzzle: Puzzle, verdict: Verdict, words: Words
) -> Telling:
    """The telling of a path with the verdict on its puzzle; nothing is said of one answer.

    Where the answers part in all cells that the path leaves open, its end says so.
    """
    said, still_open = words.walk.verdicts, _open(puzzle, path)
    match verdict.word:
        case "many":
            first = fill(said.many, cells=_named(puzzle, verdict.differs, words))
            if path.cut_short or not still_open <= {*verdict.differs}:
                return replace(telling, verdict=first)
            count = len(still_open)
            end = fill(said.parting.of(count), count=count)
            return replace(telling, verdict=first, end=end)
        case "none":
            shown = path.dead_end is not None or not still_open
            return replace(telling, verdict=said.none if shown else said.none_unseen)
        case "undecided":
            return replace(telling, verdict=said.undecided)
        case _:
            return telling


def _open(puzzle: Puzzle, path: ToldPath) -> set[Cell]:
    """The cells that a path leaves open."""
    placed = {cell for each in path.steps for cell, _ in each.step.places}
    return {cell for cell in puzzle.board.cells if not puzzle.givens[cell]} - placed


def _named(puzzle: Puzzle, cells: Sequence[Cell], words: Words) -> str:
    """The first cells, and how many more there are."""
    left = len(cells) - MOST_NAMED
    names = list(map(puzzle.board.name, cells[:MOST_NAMED]))
    if left > 0:
        names.append(fill(words.walk.verdicts.more.of(left), count=left))
    return words.lists.join(names)
