"""Whether a told path is true and has nothing to spare: each step from what it says it needs."""

from collections.abc import Callable, Iterator, Sequence
from functools import cache

from tests.support.reasons import answer_kept, is_news, not_entailed
from tests.support.truths import at_home, loose, tight
from verify.formula.formula import Formula
from verify.manifest.read import puzzle_from_text
from verify.pencil import ABSENT, Mask, every_digit
from verify.proof.solver import Base
from verify.puzzle import Puzzle
from verify.rules import BY_NAME
from verify.walk.facts.notes import Notes
from verify.walk.told.event import Based
from verify.walk.told.path import ToldPath, told_path


def told_example(rule: str) -> tuple[Puzzle, ToldPath]:
    """A rule's own example, and how it is told."""
    return _example(rule), _told(_example, rule)


def told_tight(rule: str) -> tuple[Puzzle, ToldPath]:
    """A random puzzle with one answer, and how it is told."""
    return tight(rule), _told(tight, rule)


def told_loose(rule: str) -> tuple[Puzzle, ToldPath]:
    """A random puzzle with many answers, and how it is told as far as it goes."""
    return _loose(rule), _told(_loose, rule)


@cache
def _example(rule: str) -> Puzzle:
    return puzzle_from_text(BY_NAME[rule].example)


def _loose(rule: str) -> Puzzle:
    return loose(rule)[0]


@cache
def _told(puzzle_of: Callable[[str], Puzzle], rule: str) -> ToldPath:
    return told_path(puzzle_of(rule))


def faults(puzzle: Puzzle, path: ToldPath, known: Sequence[Sequence[int]]) -> Iterator[str]:
    """All that is wrong with a path, in words; `known` are answers to the puzzle."""
    notes = Notes(puzzle)
    for number, kept in enumerate(path.steps):
        if not is_news(notes.pencil, kept.step):
            yield f"{number} no news: {kept.step}"
        if not kept.based.stands_on(notes.pencil):
            yield f"{number} rests on what nobody told: {kept.based}"
        yield from (f"{number} {each}" for each in unproved(puzzle, kept.based))
        if not at_home(notes, kept.step):
            yield f"{number} reasons from elsewhere: {kept.step}"
        if not all(use < number for use in kept.uses):
            yield f"{number} uses later steps: {kept.uses}"
        elif not kept.based.stands_on(_after(puzzle, path, kept.uses)):
            yield f"{number} rests on more than it says that it uses: {kept.uses}"
        if not all(answer_kept(answer, kept.step) for answer in known):
            yield f"{number} an answer is lost: {kept.step}"
        notes.apply([kept.step])
    if path.finished and notes.open:
        yield "the steps do not lead to the end"


def unproved(puzzle: Puzzle, based: Based) -> list[str]:
    """What of a step does not follow from its marks and houses and what it needs, all else open."""
    board, step = puzzle.board, based.step
    every = every_digit(board.digits)
    known = [ABSENT if cell in board.absent else every for cell in range(len(puzzle.givens))]
    for cell, mask in based.needs:
        known[cell] &= ~mask
    formula = Formula(board.digits, known)
    for link in step.because.links:
        link.constraint.clauses(formula)
    for house in step.because.houses:
        formula.distinct(house.cells)
    full = tuple(house.cells for house in step.because.houses if house.full)
    session = Base(board.digits, full, known).open(formula)
    return not_entailed(board, session, formula, step)


def _after(puzzle: Puzzle, path: ToldPath, numbers: Sequence[int]) -> list[Mask]:
    """The sheet after some steps of a path."""
    notes = Notes(puzzle)
    notes.apply([path.steps[number].step for number in numbers])
    return notes.pencil


def needless(puzzle: Puzzle, path: ToldPath) -> list[int]:
    """The numbers of the strikes without which every other step stands all the same."""
    return [
        number
        for number, kept in enumerate(path.steps)
        if not kept.step.places and _stand_without(puzzle, path, number)
    ]


def _stand_without(puzzle: Puzzle, path: ToldPath, left_out: int) -> bool:
    notes = Notes(puzzle)
    for number, kept in enumerate(path.steps):
        if number != left_out:
            if not kept.based.stands_on(notes.pencil):
                return False
            notes.apply([kept.step])
    return True
