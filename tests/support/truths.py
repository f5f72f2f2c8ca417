"""Whether all of a walk is true: held against rules and givens, stated reasons, and answers."""

import random
from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import Final

from tests.support.maker import answers, random_answer, with_givens
from tests.support.reasons import answer_kept, is_news, not_entailed, unproved
from tests.support.sowing import sown
from verify.board import Cell
from verify.formula.formula import Formula
from verify.proof.propagate import penciled
from verify.proof.solver import Base
from verify.puzzle import Puzzle
from verify.rule import Constraint
from verify.rules.cells.cage import Cage
from verify.rules.cells.equal_cages import EqualCages
from verify.rules.lines.renban import Renban
from verify.rules.workings.distinct import Distinct
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Step
from verify.walk.walk import Walk

SHARE: Final = 0.12
"""Cells that are given: on most boards of 6 x 6 that leaves many answers, and some way to go."""


@lru_cache
def loose(rule: str) -> tuple[Puzzle, tuple[int, ...]]:
    """A board of 6 x 6 with marks of a rule and few givens, and one of its answers."""
    puzzle, answer = sown(rule, 6, 1)
    return loosened(puzzle, answer, SHARE, random.Random(rule)), answer


@lru_cache
def tight(rule: str) -> Puzzle:
    """The same with just so many more givens that one answer is left."""
    return tightened(*loose(rule), random.Random(rule))


def loosened(puzzle: Puzzle, answer: Sequence[int], share: float, dice: random.Random) -> Puzzle:
    """A puzzle with a share of an answer's digits as givens, however many answers that leaves."""
    cells = list(puzzle.board.cells)
    given = set(dice.sample(cells, round(share * len(cells))))
    return with_givens(puzzle, [d if cell in given else 0 for cell, d in enumerate(answer)])


def tightened(puzzle: Puzzle, answer: Sequence[int], dice: random.Random) -> Puzzle:
    """A puzzle with one answer: givens put back where two answers differ."""
    found = answers(puzzle)
    while len(found) > 1:
        givens = list(puzzle.givens)
        cell = dice.choice([at for at, digit in enumerate(found[0]) if digit != found[1][at]])
        givens[cell] = answer[cell]
        puzzle = with_givens(puzzle, givens)
        found = answers(puzzle)
    return puzzle


def some_answers(puzzle: Puzzle, count: int, dice: random.Random) -> list[tuple[int, ...]]:
    """Answers drawn at random, some perhaps twice; each has passed the rules' plain check."""
    drawn = [random_answer(puzzle, dice) for _ in range(count)]
    found = [answer for answer in drawn if answer is not None]
    assert all(each.holds(answer) for each in puzzle.constraints() for answer in found)
    return found


def untruths(puzzle: Puzzle, walk: Walk, known: Sequence[Sequence[int]]) -> Iterator[str]:
    """All that is not true of a walk, in words; `known` are answers to the puzzle.

    Each step must strike or place something new, follow from rules and givens, follow from its
    stated reasons alone, state only reasons that the puzzle has, and leave every answer.
    """
    notes = Notes(puzzle)
    formula = _formula(puzzle)
    session = Base(puzzle.board.digits, puzzle.houses(), formula.pencil).open(formula)
    for each in walk.rounds:
        for step in each.steps:
            if not is_news(notes.pencil, step):
                yield f"no news: {step}"
            yield from not_entailed(puzzle.board, session, formula, step)
            yield from unproved(puzzle.board, notes.pencil, step)
            if not at_home(notes, step):
                yield f"reasons from elsewhere: {step}"
            if not all(answer_kept(answer, step) for answer in known):
                yield f"an answer is lost: {step}"
        notes.apply(each.steps)
        for answer in known:
            yield from _lost(puzzle, notes, answer)
    if tuple(notes.pencil) != walk.pencil:
        yield "the steps do not lead to the marks at the end"


def _formula(puzzle: Puzzle) -> Formula:
    """Rules and givens, with nothing worked out of them."""
    formula = Formula(puzzle.board.digits, penciled(puzzle))
    for constraint in puzzle.constraints():
        constraint.clauses(formula)
    return formula


def at_home(notes: Notes, step: Step) -> bool:
    """Whether every house and mark that a step names is one of the puzzle's."""
    groups = {cells for each in notes.puzzle.constraints() for cells in _groups(each)}
    marks = {
        (use.rule.name, constraint) for use in notes.puzzle.uses for constraint in use.constraints
    }
    digits = notes.puzzle.board.digits
    return all((link.rule, link.constraint) in marks for link in step.because.links) and all(
        house.cells in groups and house.full == (len(house.cells) == digits)
        for house in step.because.houses
    )


def _groups(constraint: Constraint) -> Sequence[tuple[Cell, ...]]:
    """The groups of cells in which no digit stands twice, whatever mark says so."""
    match constraint:
        case Distinct() | Cage() | Renban():
            return [constraint.cells]
        case EqualCages():
            return constraint.cages
    return []


def _lost(puzzle: Puzzle, notes: Notes, answer: Sequence[int]) -> Iterator[str]:
    """Digits of an answer that have left the sheet, by whatever way."""
    for cell in puzzle.board.cells:
        if not notes.pencil[cell] >> answer[cell] & 1:
            yield f"{answer[cell]} is lost in {puzzle.board.name(cell)}"
