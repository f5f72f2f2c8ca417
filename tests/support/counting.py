"""All answers of small boards: by the formula, and by looking through every grid."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import product

from verify.formula.formula import Formula
from verify.formula.stamped import Houses, StampedFormula
from verify.pencil import ABSENT, digits_of
from verify.proof.solver import Allowance, Base, Session, alone
from verify.rule import Constraint

Answer = tuple[int, ...]


def formula_answers(
    digits: int,
    pencil: Sequence[int],
    constraints: Sequence[Constraint],
    houses: Iterable[tuple[int, ...]] = (),
) -> Iterator[Answer]:
    """Every answer that the clauses allow, each once."""
    formula = Formula(digits, pencil)
    for constraint in constraints:
        constraint.clauses(formula)
    return _answers(Base(digits, tuple(houses), pencil).open(formula), pencil)


def stamped_answers(
    digits: int, pencil: Sequence[int], constraints: Sequence[Constraint], houses: Houses
) -> Iterator[Answer]:
    """The same as a verdict is reached: stamped, with what follows from the houses."""
    formula = StampedFormula(digits, pencil, houses=houses, native=True)
    for constraint in constraints:
        constraint.clauses(formula)
    return _answers(alone(formula, houses), pencil)


def _answers(session: Session, pencil: Sequence[int]) -> Iterator[Answer]:
    allowance, cells = Allowance(10**9), [at for at, mask in enumerate(pencil) if mask != ABSENT]
    while (answer := session.answer(allowance)) is not None:
        yield answer
        session.differ(answer, cells)


def plain_answers(pencil: Sequence[int], constraints: Sequence[Constraint]) -> Iterator[Answer]:
    """Every grid of the marks that the plain check lets pass."""
    for grid in product(*(tuple(digits_of(mask)) for mask in pencil)):
        if all(constraint.holds(grid) for constraint in constraints):
            yield grid
