"""A puzzle and its answer as a formula in DIMACS CNF, the form that SAT solvers share.

The formula says what the puzzle means, and that the answer is not the answer; so it has no model
exactly where there is no other answer. It is made of clauses alone, and of nothing but the rules'
own clauses, cells and houses: what this program has concluded is not in it.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Final, TypeAlias

from verify.budget import MOST_IN_HOUSES, NEVER, BudgetSpent, Deadline
from verify.formula.formula import Formula, Literal
from verify.pencil import ABSENT, every_digit
from verify.puzzle import Puzzle

Clause: TypeAlias = Sequence[Literal]

_HEAD: Final = """\
c The last clause says that the answer is another one: if there is no model, there is none.
c The clauses before it are the puzzle: cells, houses, marks, and a clause for each given.
"""


@dataclass(frozen=True, slots=True)
class Encoding:
    """The formula of a puzzle: `clauses` mean the puzzle, and `block` rules its answer out.

    `names` say what the first variables mean, such as `r1c1=5`; those behind them are helpers of
    the rules' marks. `answer` is the digit in each cell by the cell's name, `placed` its variables.
    """

    names: tuple[str, ...]
    variables: int
    clauses: tuple[Clause, ...]
    answer: dict[str, int]
    placed: tuple[Literal, ...]

    @property
    def block(self) -> Clause:
        """The clause that rules out the answer, and only it."""
        return [-literal for literal in self.placed]

    def dimacs(self) -> bytes:
        """The formula in DIMACS CNF: comments, the problem line, and a clause a line."""
        lines = [f"c {name} is {number}" for number, name in enumerate(self.names, start=1)]
        lines.append(f"p cnf {self.variables} {len(self.clauses) + 1}")
        lines += [" ".join(map(str, [*clause, 0])) for clause in (*self.clauses, self.block)]
        return (_HEAD + "\n".join(lines) + "\n").encode("ascii")


def encode(puzzle: Puzzle, answer: Sequence[int], deadline: Deadline = NEVER) -> Encoding:
    """The formula of a puzzle with the clause that rules out `answer`, a digit for each cell.

    The same puzzle and answer give the same formula. Raises BudgetSpent after the deadline, and
    where there are too many clauses.
    """
    board, digits, cells = puzzle.board, puzzle.board.digits, puzzle.board.cells
    named = [cell * digits + digit for cell in cells for digit in range(1, digits + 1)]
    numbers = {literal: number for number, literal in enumerate(named, start=1)}
    clauses = [*_cells(puzzle), *_houses(puzzle), *_givens(puzzle), *_marks(puzzle, deadline)]
    deadline.check()
    renumbered = tuple(_renumbered(clauses, numbers))
    return Encoding(
        tuple(f"{board.name(cell)}={digit}" for cell in cells for digit in range(1, digits + 1)),
        len(numbers),
        renumbered,
        {board.name(cell): answer[cell] for cell in cells},
        tuple(numbers[cell * digits + answer[cell]] for cell in cells),
    )


def _cells(puzzle: Puzzle) -> Iterator[Clause]:
    """Each cell holds a digit, and no two."""
    digits = puzzle.board.digits
    for cell in puzzle.board.cells:
        literals = [cell * digits + digit for digit in range(1, digits + 1)]
        yield literals
        yield from ([-one, -other] for one, other in combinations(literals, 2))


def _houses(puzzle: Puzzle) -> Iterator[Clause]:
    """Each house holds every digit. That it holds none twice is one of the marks."""
    digits, houses = puzzle.board.digits, puzzle.houses()
    if digits * sum(map(len, houses)) > MOST_IN_HOUSES:
        raise BudgetSpent
    for house in houses:
        yield from ([cell * digits + digit for cell in house] for digit in range(1, digits + 1))


def _givens(puzzle: Puzzle) -> Iterator[Clause]:
    digits = puzzle.board.digits
    yield from ([cell * digits + given] for cell, given in enumerate(puzzle.givens) if given)


def _marks(puzzle: Puzzle, deadline: Deadline) -> Sequence[Clause]:
    """What the rules say of the open board: their clauses know nothing of the givens."""
    board = puzzle.board
    everything = every_digit(board.digits)
    pencil = [ABSENT if cell in board.absent else everything for cell in board.places]
    formula = Formula(board.digits, pencil, deadline)
    for constraint in puzzle.constraints():
        deadline.check()
        constraint.clauses(formula)
    return formula.clauses


def _renumbered(clauses: Iterable[Clause], numbers: dict[Literal, int]) -> Iterator[Clause]:
    """The clauses with variables numbered without gaps: helpers in the order they come in.

    The literal that always holds never comes: `Formula` leaves it out of all clauses.
    """
    for clause in clauses:
        yield [
            numbers.setdefault(literal, len(numbers) + 1)
            if literal > 0
            else -numbers.setdefault(-literal, len(numbers) + 1)
            for literal in clause
        ]
