"""Puzzles that ask for given marks: what is drawn is tested without the rules that draw it."""

from collections.abc import Iterable
from dataclasses import replace
from functools import cache
from typing import Any

from tests.support.drawn import cells, plain_puzzle, trail
from verify.board import Outside
from verify.marks import Area, Badge, Cage, Clue, Mark, Tint, Trail
from verify.puzzle import Puzzle
from verify.rule import Rule, Use

EVERY_DIGIT = "\n".join(" ".join("123456789"[row:] + "123456789"[:row]) for row in range(9))

TOP, LEFT, BOTTOM, RIGHT = (
    lambda at, label, to="s", **more: clue(-1, at, to, label, **more),
    lambda at, label, to="e", **more: clue(at, -1, to, label, **more),
    lambda at, label, to="n", **more: clue(9, at, to, label, **more),
    lambda at, label, to="w", **more: clue(at, 9, to, label, **more),
)
"""Clues beside a board of nine rows and columns, at a row or column from 0."""


def clue(row: int, column: int, to: str, label: str, **more: Any) -> Clue:
    role = "diagonal" if len(to) == 2 else "outside"
    return Clue(role, Outside(row, column, to), label, **more)


def with_marks(puzzle: Puzzle, marks: Iterable[Mark]) -> Puzzle:
    """The puzzle with a rule that draws these marks and says nothing."""
    rule: Rule[Any] = Rule(
        name="drawn",
        meaning="",
        marks="",
        schema={},
        read=lambda node, reader: (),
        draw=lambda board, constraints: tuple(marks),
        says=lambda constraints: (),
        survives=frozenset(),
        example="",
    )
    return replace(puzzle, uses=(*puzzle.uses, Use(rule, ())))


@cache
def nine(full: bool = True) -> Puzzle:
    """A board with a digit in every cell, or empty."""
    return plain_puzzle(9, EVERY_DIGIT if full else "")


def line(role: str, path: str, **more: Any) -> Trail:
    return Trail(role, (trail(path),), **more)


def line_of(role: str, path: str = "r5c2 e e e") -> Trail:
    """A trail of a role, with what stands at its ends in a rule's drawing."""
    ends: dict[str, dict[str, Any]] = {
        "between": {"start": "circle", "end": "circle"},
        "beyond": {"start": "circle", "end": "circle"},
        "double-arrow": {"start": "circle", "end": "circle"},
        "product-arrow": {"end": "arrowhead", "ring": trail(path)[:1]},
        "arrow": {"end": "arrowhead", "ring": trail(path)[:1]},
        "thermometer": {"start": "bulb"},
        "slow-thermometer": {"start": "bulb"},
    }
    return line(role, path, **ends.get(role, {}))


LINE_ROLES = (
    "thermometer",
    "slow-thermometer",
    "arrow",
    "palindrome",
    "renban",
    "whisper",
    "between",
    "beyond",
    "equal-sum",
    "same-difference",
    "parity-line",
    "entropic-line",
    "modular-line",
    "zipper",
    "double-arrow",
    "product-arrow",
)

OTHERS: tuple[Mark, ...] = (
    Cage("cage", cells("r1c1 r1c2 r2c1"), "15"),
    Cage("calculation", cells("r1c1 r1c2 r2c1"), "12×"),
    Cage("equal-cages", cells("r1c1 r1c2 r2c1"), "A"),
    Area("window", cells("r1c1 r1c2 r2c1 r2c2")),
    Area("extra-region", cells("r1c1 r1c2 r2c1 r2c2")),
    Area("clone", cells("r1c1 r1c2 r2c1 r2c2"), "A"),
    Tint("count-circle", cells("r5c5")[0], "disc"),
    Tint("local-minimum", cells("r5c5")[0], "inward"),
    Tint("local-maximum", cells("r5c5")[0], "outward"),
    Badge("consecutive", cells("r5c5 r5c6")),
    Badge("ratio", cells("r5c5 r5c6")),
    Badge("difference", cells("r5c5 r5c6"), "3"),
    Badge("sum-mark", cells("r5c5 r5c6"), "11"),
    Badge("quad", cells("r5c5 r5c6 r6c5 r6c6"), digits=(1, 2, 3, 4)),
    Badge("sum-quad", cells("r5c5 r5c6 r6c5 r6c6"), "22"),
    TOP(2, "17"),
    TOP(2, "35", "se"),
)

EVERY_MARK: tuple[Mark, ...] = (*(line_of(role) for role in LINE_ROLES), *OTHERS)
"""A mark of each role whose look is not a border, a sign or a ray."""
