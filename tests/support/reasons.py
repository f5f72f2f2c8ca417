"""Whether a step follows from its stated reasons alone, asked of a SAT solver."""

from collections.abc import Sequence

from verify.board import Board
from verify.pencil import ABSENT, digits_of, every_digit
from verify.proof.formula import Formula
from verify.proof.solver import Base
from verify.walk.step import Step


def unproved(board: Board, pencil: Sequence[int], step: Step) -> list[str]:
    """What of a step does not follow from the marks, houses and candidates that it names.

    `pencil` holds the marks before the step; where a cell is not named it may hold any digit.
    """
    known = [every_digit(board.digits)] * len(pencil)
    for cell in board.absent:
        known[cell] = ABSENT
    for cell in step.because.cells:
        known[cell] = pencil[cell]
    formula = Formula(board.digits, known)
    for link in step.because.links:
        link.constraint.clauses(formula)
    for house in step.because.houses:
        formula.distinct(house.cells)
    full = tuple(house.cells for house in step.because.houses if house.full)
    session = Base(board.digits, full, known).open(formula)
    claims = [(cell, digit, False) for cell, mask in step.removes for digit in digits_of(mask)]
    claims += [(cell, digit, True) for cell, digit in step.places]
    missing = []
    for cell, digit, placed in claims:
        literal = formula.literal(cell, digit)
        if session.possible(-literal if placed else literal):
            name = board.name(cell)
            missing.append(f"{step.technique.value}: {name} {'=' if placed else 'not'} {digit}")
    return missing


def answer_kept(answer: Sequence[int], step: Step) -> bool:
    """Whether a step leaves an answer as it is."""
    return not any(mask >> answer[cell] & 1 for cell, mask in step.removes) and all(
        answer[cell] == digit for cell, digit in step.places
    )


def is_news(pencil: Sequence[int], step: Step) -> bool:
    """Whether a step strikes only what stands there, and places only what is open."""
    return all(mask and not mask & ~pencil[cell] for cell, mask in step.removes) and all(
        pencil[cell] >> digit & 1 for cell, digit in step.places
    )
