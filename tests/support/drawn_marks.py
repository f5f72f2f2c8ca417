"""Puzzles that ask for given marks: what is drawn is tested without the rules that draw it."""

from collections.abc import Iterable
from dataclasses import replace
from functools import cache
from typing import Any

from tests.support.drawn import cells, plain_puzzle, trail
from tests.support.sayings import puzzles
from verify.board import Outside
from verify.marks import Area, Badge, Cage, Clue, Mark, Tint, Trail
from verify.puzzle import Puzzle
from verify.reading.grammar import FLAG
from verify.rule import Rule, Use
from verify.rules import RULES

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
    rule: Rule[Any, Any] = Rule(
        name="drawn",
        meaning="",
        marks="",
        grammar=FLAG,
        make=lambda flag, reader: (),
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


@cache
def examples() -> dict[tuple[type, str], Any]:
    """Of each kind and role of mark the one with the longest label, of all rules' examples."""
    marks: dict[tuple[type, str], Any] = {}
    for puzzle in (puzzle for rule in RULES for puzzle in puzzles(rule)):
        for mark in (mark for use in puzzle.uses for mark in use.marks(puzzle.board)):
            key = type(mark), mark.role
            if key not in marks or label_of(marks[key]) < label_of(mark):
                marks[key] = mark
    return marks


def label_of(mark: Any) -> int:
    """How long the label of a mark is."""
    return len(getattr(mark, "label", "")) + len(getattr(mark, "digits", ()))


def of_kind(kind: type) -> list[Any]:
    """The examples of one kind of mark."""
    return [mark for (its_kind, _), mark in examples().items() if its_kind is kind]


def line_of(role: str, path: str = "r5c2 e e e") -> Trail:
    """A trail of a role, with what stands at its ends in a rule's drawing."""
    drawn = examples()[Trail, role]
    ring = trail(path)[:1] if drawn.ring else ()
    return line(role, path, start=drawn.start, end=drawn.end, ring=ring)


LINE_ROLES = tuple(mark.role for mark in of_kind(Trail))

CORNER = cells("r1c1 r1c2 r2c1")
SQUARE = cells("r1c1 r1c2 r2c1 r2c2")
BETWEEN = {2: cells("r5c5 r5c6"), 4: cells("r5c5 r5c6 r6c5 r6c6")}
ABOVE = {"outside": Outside(-1, 2, "s"), "diagonal": Outside(-1, 2, "se")}

EVERY_MARK = (
    *(line_of(role) for role in LINE_ROLES),
    *(replace(mark, cells=CORNER) for mark in of_kind(Cage)),
    *(replace(mark, cells=SQUARE) for mark in of_kind(Area)),
    *(replace(mark, cell=cells("r5c5")[0]) for mark in of_kind(Tint)),
    *(replace(mark, cells=BETWEEN[len(mark.cells)]) for mark in of_kind(Badge)),
    *(replace(mark, outside=ABOVE[mark.role]) for mark in of_kind(Clue)),
)
"""A mark of each role whose look is not a border, a sign or a ray."""
