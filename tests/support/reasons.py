"""Whether a step follows from its stated reasons alone, asked of a SAT solver."""

from collections.abc import Iterator, Sequence

from verify.board import Board, Cell
from verify.formula.formula import Formula
from verify.pencil import ABSENT, digits_of, every_digit
from verify.proof.solver import Base, Session
from verify.walk.facts.step import Step, Technique

BY_PLACES = frozenset(
    {
        Technique.HIDDEN_SINGLE,
        Technique.LOCKED,
        Technique.HIDDEN_PAIR,
        Technique.HIDDEN_TRIPLE,
        Technique.HIDDEN_QUAD,
        Technique.TWO_LINE_FISH,
        Technique.THREE_LINE_FISH,
        Technique.FOUR_LINE_FISH,
        Technique.COLOUR_CHAIN,
    }
)
"""What looks at the places of its digits alone, whatever else stands in the cells."""


def unproved(board: Board, pencil: Sequence[int], step: Step) -> list[str]:
    """What of a step does not follow from the marks, houses and candidates that it names.

    `pencil` holds the marks before the step; where a cell is not named it may hold any digit.
    """
    known = _told(board, pencil, step)
    formula = Formula(board.digits, known)
    for link in step.because.links:
        link.constraint.clauses(formula)
    for house in step.because.houses:
        formula.distinct(house.cells)
    full = tuple(house.cells for house in step.because.houses if house.full)
    session = Base(board.digits, full, known).open(formula)
    return not_entailed(board, session, formula, step)


def _told(board: Board, pencil: Sequence[int], step: Step) -> list[int]:
    """The marks that a step speaks of; all that it does not name may be anything.

    What looks at the places of its digits may not rest on other digits of the same cells, and
    the last cell of a house not on what is left in it.
    """
    every = every_digit(board.digits)
    known = [ABSENT if cell in board.absent else every for cell in range(len(pencil))]
    named = step.because.digits if step.technique in BY_PLACES else every
    filled = {cell for cell, _ in step.places} if step.technique is Technique.LAST_CELL else ()
    for cell in step.because.cells:
        if cell not in filled:
            known[cell] = pencil[cell] | every & ~named
    return known


def not_entailed(board: Board, session: Session, formula: Formula, step: Step) -> list[str]:
    """What of a step some answer to a formula does otherwise."""
    return [
        f"{step.technique.value}: {board.name(cell)} {'=' if placed else 'not'} {digit}"
        for cell, digit, placed in claims(step)
        if session.possible(formula.literal(cell, digit) * (-1 if placed else 1))
    ]


def claims(step: Step) -> Iterator[tuple[Cell, int, bool]]:
    """Each cell and digit that a step speaks of: True where it is placed, False where struck."""
    for cell, mask in step.removes:
        for digit in digits_of(mask):
            yield cell, digit, False
    for cell, digit in step.places:
        yield cell, digit, True


def answer_kept(answer: Sequence[int], step: Step) -> bool:
    """Whether a step leaves an answer as it is."""
    return all((answer[cell] == digit) is placed for cell, digit, placed in claims(step))


def is_news(pencil: Sequence[int], step: Step) -> bool:
    """Whether a step strikes only what stands there, and places only what is open."""
    return all(mask and not mask & ~pencil[cell] for cell, mask in step.removes) and all(
        pencil[cell] >> digit & 1 for cell, digit in step.places
    )
