"""Random puzzles of every rule: a random answer, marks that it keeps, then fewest givens."""

import random
from dataclasses import replace

from tests.support import maker
from tests.support.boards import plain
from tests.support.rules import support
from verify.board import DEFAULT_BOXES
from verify.budget import BudgetSpent
from verify.puzzle import Puzzle
from verify.rule import Use
from verify.rules import BY_NAME

IMPLIED = ("rows", "columns", "boxes")


def sown(name: str, size: int, seed: int) -> tuple[Puzzle, tuple[int, ...]]:
    """A board with marks of one rule, without givens, and an answer that keeps them."""
    for attempt in range(50):
        dice = random.Random(f"{name} {size} {seed} {attempt}")
        ground = plain(size, DEFAULT_BOXES[size])
        if name == "regions":
            ground = plain(size)
        module, rule = support(name), BY_NAME[name]
        if hasattr(module, "before") and name not in IMPLIED:
            marks = module.before(ground.board, dice)
            ground = replace(ground, uses=(*ground.uses, Use(rule, marks)))
        try:
            answer = maker.random_answer(ground, dice)
        except BudgetSpent:
            continue
        if answer is None:
            continue
        if not hasattr(module, "sow"):
            return ground, answer
        marks = module.sow(ground.board, answer, dice)
        if marks:
            return replace(ground, uses=(*ground.uses, Use(rule, marks))), answer
    raise AssertionError(f"no marks of {name} could be sown")


def random_minimal(name: str, size: int, seed: int) -> Puzzle:
    """A puzzle with marks of one rule of which no given can be spared."""
    puzzle, answer = sown(name, size, seed)
    return maker.minimal(puzzle, answer, random.Random(seed))
