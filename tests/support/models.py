"""The rules again, in OR-tools CP-SAT's own constraints: a model independent of ours."""

from collections.abc import Iterable, Sequence
from functools import cache
from math import inf

from tests.support.rules import every_model
from verify.board import Board
from verify.pencil import digits_of, every_digit
from verify.proof.parts import GivenPart, Part, ground_of
from verify.puzzle import Puzzle
from verify.rule import Constraint

known = cache(every_model)


def model_answers(
    board: Board,
    pencil: Sequence[int],
    constraints: Sequence[Constraint],
    most: int = 2,
    seconds: float = inf,
) -> list[tuple[int, ...]]:
    """Up to `most` answers, found by CP-SAT with one worker.

    Raises TimeoutError where `seconds` are over before they are found.
    """
    from ortools.sat.python import cp_model

    from tests.support.collector import Collector

    model = cp_model.CpModel()
    at = [
        model.new_int_var_from_domain(cp_model.Domain.from_values(list(digits_of(mask))), "")
        for mask in pencil
    ]
    for constraint in constraints:
        known()[type(constraint)](model, at, constraint)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.enumerate_all_solutions = True
    if seconds < inf:
        solver.parameters.max_time_in_seconds = seconds
    collector = Collector(at, most)
    status = solver.solve(model, collector)
    if status not in (cp_model.OPTIMAL, cp_model.INFEASIBLE) and len(collector.answers) < most:
        raise TimeoutError
    return collector.answers


def answers_with(puzzle: Puzzle, parts: Iterable[Part], most: int = 2) -> list[tuple[int, ...]]:
    """Up to `most` answers that CP-SAT finds to the grid of a puzzle with some parts alone."""
    full = every_digit(puzzle.board.digits)
    pencil = [1 if cell in puzzle.board.absent else full for cell in puzzle.board.places]
    constraints = list(ground_of(puzzle))
    for part in parts:
        if isinstance(part, GivenPart):
            pencil[part.cell] = 1 << part.digit
        else:
            constraints += part.constraints
    return model_answers(puzzle.board, pencil, constraints, most)


def puzzle_answers(puzzle: Puzzle, most: int = 2, seconds: float = inf) -> list[tuple[int, ...]]:
    """Up to `most` answers of a puzzle; raises TimeoutError as `model_answers` does."""
    full = (2 << puzzle.board.digits) - 2
    pencil = [1 << digit if digit else full for digit in puzzle.givens]
    for cell in puzzle.board.absent:
        pencil[cell] = 1
    return model_answers(puzzle.board, pencil, list(puzzle.constraints()), most, seconds)
