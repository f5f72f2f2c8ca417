"""The puzzles of each row of the table: made here, or from published lists.

A bank holds thousands of lines, and so do the rows of puzzles that banks hold. Where fewer are
made or published, their disguises follow: other puzzles for a solver, and just as hard.
"""

import random
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from functools import partial
from itertools import islice
from multiprocessing.pool import Pool
from pathlib import Path
from typing import Final

from tests.support import maker
from tests.support.boards import classic, plain
from tests.support.rules import support
from tests.support.sowing import random_minimal
from verify.board import DEFAULT_BOXES
from verify.disguise.forms import moves
from verify.manifest.read import read_puzzle
from verify.puzzle import Puzzle
from verify.rule import Use
from verify.rules import BY_NAME

MANY: Final = ("anti-knight", "thermometer", "arrow", "cage", "palindrome")
"""The rules of the row that has several at once."""

HARDEST: Final = ("hardest11", "top95", "hard375")
"""The hardest of the published lists."""


def minimal_plain(size: int, seed: int) -> Puzzle:
    """A random puzzle with rows, columns and boxes, of which no given can be spared."""
    return maker.make(plain(size, DEFAULT_BOXES[size]), seed)


def minimal_of(rule: str, seed: int) -> Puzzle:
    """The same with marks of a rule, on 9x9."""
    return random_minimal(rule, 9, seed)


def minimal_of_many(seed: int) -> Puzzle:
    """The same with marks of several rules."""
    dice = random.Random(seed)
    ground = plain(9, DEFAULT_BOXES[9])
    first, *others = MANY
    ground = replace(
        ground,
        uses=(*ground.uses, Use(BY_NAME[first], support(first).before(ground.board, dice))),
    )
    answer = maker.random_answer(ground, dice)
    assert answer is not None
    sown = (
        Use(BY_NAME[name], tuple(dice.sample(marks, min(4, len(marks)))))
        for name in others
        if (marks := support(name).sow(ground.board, answer, dice))
    )
    return maker.minimal(replace(ground, uses=(*ground.uses, *sown)), answer, dice)


MADE: Final[dict[str, Callable[[int], Puzzle]]] = {
    "4x4": partial(minimal_plain, 4),
    "6x6": partial(minimal_plain, 6),
    "9x9 minimal": partial(minimal_plain, 9),
    "thermometer": partial(minimal_of, "thermometer"),
    "arrow": partial(minimal_of, "arrow"),
    "cage": partial(minimal_of, "cage"),
    "irregular": partial(minimal_of, "regions"),
    "many rules": minimal_of_many,
}
"""Rows whose puzzles are made, each from the number of the puzzle."""


def _listed(*names: str) -> Callable[[Path], list[Puzzle]]:
    def read(folder: Path) -> list[Puzzle]:
        text = (folder / "classic-lists.txt").read_text(encoding="utf-8")
        rows = [line.split() for line in text.splitlines()]
        return [classic(row[-1]) for name in names for row in rows if row and row[0] == name]

    return read


def _seventeen(folder: Path) -> list[Puzzle]:
    text = (folder / "classic17.txt").read_text(encoding="utf-8")
    return [classic(line.split()[-1]) for line in text.splitlines() if line and line[0] != "#"]


def _grids(size: int) -> Callable[[Path], list[Puzzle]]:
    def read(folder: Path) -> list[Puzzle]:
        puzzles = map(read_puzzle, sorted((folder / "published").glob("grid-*.yaml")))
        return [puzzle for puzzle in puzzles if puzzle.board.digits == size]

    return read


PUBLISHED: Final[dict[str, Callable[[Path], list[Puzzle]]]] = {
    "9x9 easy": _listed("easy50"),
    "17 givens": _seventeen,
    "hardest": _listed(*HARDEST),
    "16x16": _grids(16),
    "25x25": _grids(25),
}
"""Rows whose puzzles others made, each from the folder of published instances."""

ORDER: Final = (
    *("4x4", "6x6", "9x9 easy", "9x9 minimal", "17 givens", "hardest", "16x16", "25x25"),
    *("thermometer", "arrow", "cage", "irregular", "many rules"),
)


IN_LINES: Final = ("4x4", "6x6", "9x9 easy", "9x9 minimal", "17 givens", "hardest", "16x16")
"""Rows of puzzles that a bank holds in lines."""

MADE_ALONE: Final = 100
"""Puzzles of a row that are made from nothing."""


def puzzles_of(row: str, count: int, folder: Path | None, pool: Pool) -> Sequence[Puzzle]:
    """So many puzzles of a row, where it is one of lines; else as many of them as there are.

    None where they are published and there is no folder.
    """
    if row in MADE:
        made = min(count, MADE_ALONE) if row in IN_LINES else count
        every: Sequence[Puzzle] = pool.map(MADE[row], range(made), chunksize=1)
    elif folder is None:
        return ()
    else:
        every = PUBLISHED[row](folder)
        kept = min(count, len(every))
        every = [every[at * len(every) // kept] for at in range(kept)]
    return [*islice(_and_disguises(every), count)] if row in IN_LINES else every


def _and_disguises(puzzles: Sequence[Puzzle]) -> Iterator[Puzzle]:
    """Classic puzzles, and then one disguise of each after another, without end."""
    yield from puzzles
    disguises = [_disguises(puzzle) for puzzle in puzzles]
    while True:
        yield from map(next, disguises)


def _disguises(puzzle: Puzzle) -> Iterator[Puzzle]:
    """Disguises on the same board, whose houses stay what they are."""
    for move in moves(puzzle):
        if move.after == puzzle.board:
            yield replace(puzzle, givens=move.grid(puzzle.givens))
