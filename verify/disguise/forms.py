"""Forms: a puzzle in disguises that its rules allow, each with as many answers, and as hard."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import islice, product
from random import Random
from typing import Any, Final

from verify.board import Board
from verify.move import EVERY_DISGUISE, TURNS, Disguise, Move
from verify.pencil import Grid
from verify.puzzle import Puzzle
from verify.rule import Use
from verify.rules import BY_NAME
from verify.rules.workings.distinct import Distinct

MOST_TRIES: Final = 200
"""Moves drawn at random before a puzzle counts as having no other form."""

LAID_ON_THEIR_SIDE: Final = {"rows": "columns", "columns": "rows"}


class TooFewForms(Exception):  # noqa: N818 - what a puzzle has too little of
    """A puzzle with fewer forms than were asked for; `there_are` counts it and its disguises."""

    def __init__(self, there_are: int) -> None:
        self.there_are = there_are
        super().__init__(f"there are {there_are}")


def survived(puzzle: Puzzle) -> frozenset[Disguise]:
    """The disguises that every rule of a puzzle allows.

    Shuffling is for one whole grid: lines of several would not shuffle alone.
    """
    kinds = EVERY_DISGUISE
    for use in puzzle.uses:
        kinds &= use.rule.survives
    if puzzle.board.grids or puzzle.board.absent:
        kinds -= {Disguise.SHUFFLE}
    return kinds


def forms(puzzle: Puzzle, answer: Grid, count: int) -> tuple[Puzzle, ...]:
    """The puzzle and `count` - 1 disguises of it; always the same ones.

    Each has its own `answer`, and no two have the same: so no two look alike, and nobody can
    copy from a neighbour. Raises TooFewForms where rules and shape do not allow as many.
    """
    answered = replace(puzzle, answer=tuple(answer))
    found: dict[Grid | None, Puzzle] = {answered.answer: answered}
    for move in islice(moves(puzzle), MOST_TRIES):
        if len(found) >= count:
            break
        form = moved(answered, move)
        found.setdefault(form.answer, form)
    if len(found) < count:
        raise TooFewForms(len(found))
    return tuple(islice(found.values(), count))


def moves(puzzle: Puzzle) -> Iterator[Move]:
    """Moves in which every mark reads as it did: without end where there are many.

    Every turn comes once before any comes again; where only turns and the reversal of digits are
    allowed, each of these moves comes once.
    """
    kinds = survived(puzzle)
    chance = Random(puzzle.id)  # noqa: S311 - the same forms each time are what is wanted
    turns = TURNS if Disguise.TURN in kinds else [0]
    mirrors = [False, True] if Disguise.REVERSE in kinds else [False]
    sides = list(product(turns, mirrors))
    endless = kinds & {Disguise.SHUFFLE, Disguise.RELABEL}
    while True:
        chance.shuffle(sides)
        for turn, mirrored in sides:
            move = _move(puzzle, turn, mirrored, kinds, chance)
            if _stays(puzzle, move):
                yield move
        if not endless:
            return


def _move(
    puzzle: Puzzle, turn: int, mirrored: bool, kinds: frozenset[Disguise], chance: Random
) -> Move:
    """One move; what may be shuffled and relabelled is, by chance."""
    board = puzzle.board
    rows, columns = list(range(board.rows)), list(range(board.columns))
    digits = list(range(1, board.digits + 1))
    if Disguise.SHUFFLE in kinds:
        high, wide = _bands(puzzle)
        rows, columns = _shuffled(board.rows, high, chance), _shuffled(board.columns, wide, chance)
    if Disguise.RELABEL in kinds:
        chance.shuffle(digits)
    elif mirrored:
        digits.reverse()
    return Move(board, tuple(rows), tuple(columns), turn, (0, *digits))


def _bands(puzzle: Puzzle) -> tuple[int, int]:
    """Rows and columns that must stay together: those of a box, where boxes are a rule."""
    board: Board = puzzle.board
    boxed = any(use.rule.name == "boxes" for use in puzzle.uses)
    return board.boxes if boxed and board.boxes else (1, 1)


def _shuffled(lines: int, together: int, chance: Random) -> list[int]:
    """Where each line goes: bands in any order, and the lines within them in any order."""
    bands = [list(range(start, start + together)) for start in range(0, lines, together)]
    for band in bands:
        chance.shuffle(band)
    chance.shuffle(bands)
    return [line for band in bands for line in band]


def _stays(puzzle: Puzzle, move: Move) -> bool:
    return all(use.rule.stays(each, move) for use in puzzle.uses for each in use.constraints)


def moved(puzzle: Puzzle, move: Move) -> Puzzle:
    """The puzzle in a disguise that its rules survive."""
    return replace(
        puzzle,
        board=move.after,
        uses=tuple(_use_moved(use, move) for use in puzzle.uses),
        givens=move.grid(puzzle.givens),
        answer=puzzle.answer and move.grid(puzzle.answer),
    )


def _use_moved(use: Use[Any], move: Move) -> Use[Any]:
    """A rule's marks moved; houses stay in reading order, and rows may have become columns."""
    marks = tuple(each.moved(move) for each in use.constraints)
    if all(isinstance(mark, Distinct) for mark in marks):
        marks = tuple(sorted(marks, key=lambda mark: mark.cells))
    name = LAID_ON_THEIR_SIDE.get(use.rule.name) if move.turn & 4 else None
    return Use(BY_NAME[name] if name else use.rule, marks)
