"""A formula for the proof of a verdict: what alike marks say is worked out once and stamped.

The clauses of a mark depend on its kind, its numbers and how many cells it has; where the cells
lie only says which variables stand in them. So they are made once over cells 0, 1, 2 ... and kept
as a *stamp*; each mark of the kind then sets its own variables into it, which is several times as
quick as making them anew. A stamp of more than a few cells knows nothing of the candidates that
are left: the solver, which knows, leaves out what is settled.
"""

from collections.abc import Callable, Hashable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache, reduce
from operator import and_, itemgetter
from typing import Final, TypeAlias, TypeVarTuple

from verify.board import Cell
from verify.budget import NEVER, BudgetSpent, Deadline
from verify.formula.formula import Formula, Literal
from verify.pencil import Pencil, every_digit

Ts = TypeVarTuple("Ts")

Houses: TypeAlias = tuple[tuple[Cell, ...], ...]

FEW_CELLS: Final = 3
"""Cells of a mark whose stamp knows their candidates."""

MOST_KEPT: Final = 200_000
"""Clauses of all stamps that are kept at once: some 40 MiB."""


@dataclass(frozen=True, slots=True)
class Stamp:
    """Clauses over the digits of cells 0, 1, 2 ... and over helpers, numbered on behind them.

    `units` are clauses of one literal. `longer` pick the literals of a clause out of a table of
    all. `clash` says whether there is a clause of none, `literals` how many literals there are.
    """

    units: tuple[Literal, ...]
    longer: tuple[Callable[[Sequence[Literal]], tuple[Literal, ...]], ...]
    clash: bool
    helpers: int
    literals: int


class StampedFormula(Formula):
    """A formula whose marks are stamped, and which knows which cells differ by `houses`.

    The houses themselves are no part of it: the solver that it is given to must know them, and must
    take `counts` where it is `native`.
    """

    def __init__(
        self,
        digits: int,
        pencil: Pencil,
        deadline: Deadline = NEVER,
        houses: Houses = (),
        *,
        native: bool = False,
    ) -> None:
        super().__init__(digits, pencil, deadline)
        self.native = native
        self._houses_of = _houses_of(houses)

    def apart(self, cells: Sequence[Cell]) -> bool:
        """Whether the cells lie in one house, so that no digit stands twice in them."""
        return bool(reduce(and_, (self._houses_of.get(cell, 0) for cell in cells)))

    def stamp(
        self,
        shape: Callable[[Formula, tuple[Cell, ...], *Ts], None],
        cells: tuple[Cell, ...],
        *numbers: *Ts,
    ) -> None:
        """See `Formula.stamp`."""
        if len(cells) <= FEW_CELLS:
            masks = tuple([self.pencil[cell] for cell in cells])
        else:
            masks = (every_digit(self.digits),) * len(cells)
        apart = self.apart(cells)
        key = shape, self.digits, masks, apart, numbers
        stamp = _KEPT.get(key)
        if stamp is None:
            stamp = self._cut(masks, apart, lambda blank, all_: shape(blank, all_, *numbers))
            if stamp is None:
                shape(self, cells, *numbers)
                return
            _KEPT.keep(key, stamp)
        self._press(stamp, cells)

    def _cut(
        self, pencil: Pencil, apart: bool, shape: Callable[[Formula, tuple[Cell, ...]], None]
    ) -> Stamp | None:
        """The stamp; None where the mark has too many clauses to be kept.

        Raises BudgetSpent after the deadline.
        """
        cells = tuple(range(len(pencil)))
        blank = StampedFormula(self.digits, pencil, self.deadline, (cells,) if apart else ())
        try:
            shape(blank, cells)
        except BudgetSpent:
            self.deadline.check()
            return None
        if len(blank.clauses) > MOST_KEPT // 4:
            return None
        return _stamp_of(blank.clauses, len(cells) * self.digits)

    def _press(self, stamp: Stamp, cells: Sequence[Cell]) -> None:
        """Adds the clauses of a stamp over these cells."""
        digits, first, last = self.digits, self._last + 1, self._last + stamp.helpers
        # Behind the variables stand their negations backwards, where a negative index finds them.
        table: list[Literal] = [0]
        for cell in cells:
            table += range(cell * digits + 1, cell * digits + digits + 1)
        table += range(first, last + 1)
        table += range(-last, -first + 1)
        for cell in reversed(cells):
            table += range(-cell * digits - digits, -cell * digits)
        self._last = last
        # What is settled comes first, for the solver then leaves it out of the rest.
        self.clauses += [(table[unit],) for unit in stamp.units]
        self.clauses += [pick(table) for pick in stamp.longer]
        if stamp.clash:
            self.clauses.append(())
        self._count(stamp.literals)


def _stamp_of(clauses: Sequence[Sequence[Literal]], width: int) -> Stamp:
    """The stamp of clauses over cells with so many variables; helpers lose the gaps before them."""
    numbers: dict[Literal, int] = {}

    def own(literal: Literal) -> int:
        variable = abs(literal)
        if variable > width:
            variable = numbers.setdefault(variable, width + 1 + len(numbers))
        return variable if literal > 0 else -variable

    local = [tuple(map(own, clause)) for clause in clauses]
    return Stamp(
        tuple(clause[0] for clause in local if len(clause) == 1),
        tuple(itemgetter(*clause) for clause in local if len(clause) > 1),
        not all(local),
        len(numbers),
        sum(map(len, local)),
    )


class _Kept:
    """Stamps by what they depend on; where there is no room for another, all others go."""

    def __init__(self) -> None:
        self._stamps: dict[Hashable, Stamp] = {}
        self._room = MOST_KEPT

    def get(self, key: Hashable) -> Stamp | None:
        return self._stamps.get(key)

    def keep(self, key: Hashable, stamp: Stamp) -> None:
        # A stamp of no clauses takes room, too.
        needed = 1 + len(stamp.units) + len(stamp.longer)
        if needed > self._room:
            self._stamps.clear()
            self._room = MOST_KEPT
        self._room -= needed
        self._stamps[key] = stamp


_KEPT: Final = _Kept()


@lru_cache(maxsize=32)
def _houses_of(houses: Houses) -> Mapping[Cell, int]:
    """For each cell, the houses that it lies in, as the bits of a whole number."""
    found: dict[Cell, int] = {}
    for number, house in enumerate(houses):
        for cell in house:
            found[cell] = found.get(cell, 0) | 1 << number
    return found
