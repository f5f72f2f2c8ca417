"""The sheet that a walk is written on: pencil marks, and what can be read off them quickly."""

from collections.abc import Callable, Hashable, Iterable, Iterator, Mapping
from functools import cached_property
from typing import Any, TypeVar, cast

from verify.board import Cell
from verify.budget import NEVER, Deadline
from verify.facets import Facets, Form, facets_of
from verify.pencil import Mask, bit, digits_of, every_digit, highest
from verify.proof.propagate import penciled
from verify.puzzle import Puzzle
from verify.walk.facts.cells import Candidate, Cells, cells_of, set_of
from verify.walk.facts.equations import Equation, LeftOver, left_overs
from verify.walk.facts.ranks import Rank, ranks
from verify.walk.facts.step import House, Link, Step

T = TypeVar("T")


class Notes:
    """Pencil marks of one puzzle, from the givens on.

    `placed` are the cells whose digit is written in; a digit that is placed leaves all cells
    that see it at once. `where[d]` are the cells that still hold candidate d. `broken` is set
    when a cell has no candidate left: the puzzle has no answer. Without `reasons`, steps whose
    reasons take long to find may leave them out. Whatever takes long looks at the `deadline`, and
    raises BudgetSpent after it.
    """

    def __init__(self, puzzle: Puzzle, *, reasons: bool = True, deadline: Deadline = NEVER) -> None:
        self.puzzle = puzzle
        self.reasons = reasons
        self.deadline = deadline
        self.digits = puzzle.board.digits
        self.pencil: list[Mask] = penciled(puzzle)
        self.broken = False
        self.facets: dict[Link, Facets] = {
            Link(use.rule.name, constraint): facets_of(constraint, self.digits)
            for use in puzzle.uses
            for constraint in use.constraints
        }
        self.houses = _houses(self.facets.values(), self.digits)
        self.full = tuple(house for house in self.houses if house.full)
        self.sets = {house: set_of(house.cells) for house in self.houses}
        self.links = tuple(
            link for link, said in self.facets.items() if said.all_by is not Form.APART
        )
        self.full_sets = tuple((house, self.sets[house]) for house in self.full)
        self._barren: dict[Hashable, Hashable] = {}
        self._made: dict[Callable[..., Any], Any] = {}
        self.apart = _apart(self.facets)
        self.peers = self._seen()
        self._shared: dict[Cells, tuple[House, ...]] = {}
        self.where: list[Cells] = [
            set_of(cell for cell, mask in enumerate(self.pencil) if mask >> digit & 1)
            for digit in range(self.digits + 1)
        ]
        self.placed: Cells = self.where[0]
        self.every_cell: Cells = set_of(puzzle.board.cells)
        for cell, digit in enumerate(puzzle.givens):
            if digit:
                self.place(cell, digit)

    @property
    def open(self) -> Cells:
        """The cells whose digit is not placed yet."""
        return self.every_cell & ~self.placed

    def once(self, make: "Callable[[Notes], T]") -> T:
        """`make(notes)`, made when it is first asked for; the same one ever after."""
        if make not in self._made:
            self._made[make] = make(self)
        return cast(T, self._made[make])

    def candidates(self) -> Iterator[Candidate]:
        """The candidates of all cells that are not placed yet."""
        for cell in cells_of(self.open):
            for digit in digits_of(self.pencil[cell]):
                yield cell, digit

    @cached_property
    def left_overs(self) -> tuple[LeftOver, ...]:
        """What the sums of marks leave of the sums of houses."""
        equations: list[Equation] = []
        for link, facets in self.facets.items():
            for said in facets.sums:
                self.deadline.check()
                equations.append(Equation(link, said))
        return left_overs(self.full, equations, self.digits, self.deadline)

    @cached_property
    def ranks(self) -> tuple[Rank, ...]:
        """What marks say about the order within houses."""
        return tuple(ranks(self.houses, self.facets, self.deadline))

    @property
    def finished(self) -> bool:
        """Whether every cell is placed, and the grid keeps every rule.

        Techniques suppose that there is an answer: without one, all cells may be placed before
        they meet the contradiction.
        """
        if self.broken or self.open:
            return False
        grid = [highest(mask) for mask in self.pencil]
        return all(constraint.holds(grid) for constraint in self.puzzle.constraints())

    @property
    def lacks_a_place(self) -> bool:
        """Whether a full house has no cell left for some digit: then there is no answer."""
        return any(not where & cells for where in self.where[1:] for _, cells in self.full_sets)

    def strike(self, cell: Cell, mask: Mask) -> None:
        """Takes candidates from a cell."""
        for digit in digits_of(self.pencil[cell] & mask):
            self.where[digit] &= ~(1 << cell)
        self.pencil[cell] &= ~mask
        if not self.pencil[cell]:
            self.broken = True

    def place(self, cell: Cell, digit: int) -> None:
        """Writes a digit into a cell; it leaves all cells that see it."""
        if not self.pencil[cell] >> digit & 1:
            self.broken = True
            return
        self.strike(cell, self.pencil[cell] & ~bit(digit))
        self.placed |= 1 << cell
        for other in cells_of(self.where[digit] & self.peers[cell]):
            self.strike(other, bit(digit))

    def apply(self, steps: Iterable[Step]) -> None:
        """Strikes and places all that some steps say."""
        for step in steps:
            for cell, mask in step.removes:
                self.strike(cell, mask)
            for cell, digit in step.places:
                if not self.placed >> cell & 1:
                    self.place(cell, digit)

    def fresh(self, removes: Iterable[tuple[Cell, Mask]]) -> tuple[tuple[Cell, Mask], ...]:
        """What of some strikes still stands on the sheet."""
        live = ((cell, mask & self.pencil[cell]) for cell, mask in removes)
        return tuple((cell, mask) for cell, mask in live if mask)

    def if_changed(
        self, place: Hashable, state: Hashable, steps: Iterable[Step]
    ) -> tuple[Step, ...]:
        """The steps of one place; nobody looks for them where the same state had none before.

        `place` tells who looks and where, `state` is all of the sheet that counts there, and
        `steps` begins to look when it is asked for the first.
        """
        if self._barren.get(place) == state:
            return ()
        self.deadline.check()
        found = tuple(steps)
        if not found:
            self._barren[place] = state
        return found

    def marks(self, cells: Iterable[Cell]) -> tuple[Mask, ...]:
        """The marks of some cells."""
        return tuple([self.pencil[cell] for cell in cells])

    def spots(self, digit: int, house: House) -> Cells:
        """Where a digit can still go in a house."""
        return self.where[digit] & self.sets[house]

    def unplaced(self, house: House) -> Mask:
        """The digits that are not placed in a full house yet."""
        left = every_digit(self.digits)
        for cell in cells_of(self.sets[house] & self.placed):
            left &= ~self.pencil[cell]
        return left

    def seeing_all(self, cells: Cells, among: Cells) -> Cells:
        """The cells, among some, that see every one of others."""
        for cell in cells_of(cells):
            among &= self.peers[cell]
            if not among:
                break
        return among

    def sights(
        self, one: Iterable[Cell], others: Iterable[Cell]
    ) -> tuple[tuple[House, ...], tuple[Link, ...]]:
        """The houses and marks by which cells see other cells, each once."""
        houses: dict[House, None] = {}
        links: dict[Link, None] = {}
        others = tuple(others)
        for cell in one:
            for other in others:
                if cell != other:
                    self._sight(cell, other, houses, links)
        return tuple(houses), tuple(links)

    def _sight(
        self, cell: Cell, other: Cell, houses: dict[House, None], links: dict[Link, None]
    ) -> None:
        by = self._houses_of_both(1 << cell | 1 << other)
        if by:
            if not any(house in houses for house in by):
                houses[by[0]] = None
        else:
            for link in self.apart.get(frozenset((cell, other)), ())[:1]:
                links[link] = None

    def _houses_of_both(self, both: Cells) -> tuple[House, ...]:
        """The houses that have two cells."""
        found = self._shared.get(both)
        if found is None:
            found = tuple(house for house, cells in self.sets.items() if cells & both == both)
            self._shared[both] = found
        return found

    def _seen(self) -> list[Cells]:
        peers = [0] * len(self.pencil)
        for house in self.houses:
            for cell in house.cells:
                peers[cell] |= self.sets[house]
        for pair in self.apart:
            one, other = pair
            peers[one] |= 1 << other
            peers[other] |= 1 << one
        return [seen & ~(1 << cell) for cell, seen in enumerate(peers)]


def _houses(facets: Iterable[Facets], digits: int) -> tuple[House, ...]:
    """The groups of cells in which no digit stands twice, each once."""
    houses: dict[tuple[Cell, ...], House] = {}
    for said in facets:
        for group in said.groups:
            if len(group.cells) > 1:
                house = House(group.kind, group.cells, len(group.cells) == digits)
                houses.setdefault(group.cells, house)
    return tuple(houses.values())


def _apart(facets: Mapping[Link, Facets]) -> dict[frozenset[Cell], tuple[Link, ...]]:
    """The pairs of cells that some mark of a rule keeps different, with those marks."""
    found: dict[frozenset[Cell], tuple[Link, ...]] = {}
    for link, said in facets.items():
        for pair in said.apart():
            key = frozenset(pair)
            found[key] = (*found.get(key, ()), link)
    return found
