"""The rules again, in OR-tools CP-SAT's own constraints: a model independent of ours."""

from collections.abc import Callable, Sequence

from ortools.sat.python import cp_model

from verify.board import Board
from verify.pencil import digits_of
from verify.puzzle import Puzzle
from verify.rules.arrow import Arrow
from verify.rules.cage import Cage
from verify.rules.distinct import Distinct
from verify.rules.greater import Greater
from verify.rules.parity import Parity
from verify.rules.rule import Constraint
from verify.rules.slow_thermometer import SlowThermometer
from verify.rules.thermometer import Thermometer

Digits = list[cp_model.IntVar]


def _distinct(model: cp_model.CpModel, at: Digits, rule: Distinct) -> None:
    model.add_all_different(at[cell] for cell in rule.cells)


def _thermometer(model: cp_model.CpModel, at: Digits, rule: Thermometer) -> None:
    for low, high in zip(rule.cells, rule.cells[1:], strict=False):
        model.add(at[low] + 1 <= at[high])


def _slow_thermometer(model: cp_model.CpModel, at: Digits, rule: SlowThermometer) -> None:
    for low, high in zip(rule.cells, rule.cells[1:], strict=False):
        model.add(at[low] <= at[high])


def _greater(model: cp_model.CpModel, at: Digits, rule: Greater) -> None:
    model.add(at[rule.cells[0]] > at[rule.cells[1]])


def _arrow(model: cp_model.CpModel, at: Digits, rule: Arrow) -> None:
    number: cp_model.LinearExprT = 0
    for cell in rule.total:
        number = number * 10 + at[cell]
    model.add(sum(at[cell] for cell in rule.shaft) == number)


def _cage(model: cp_model.CpModel, at: Digits, rule: Cage) -> None:
    model.add_all_different(at[cell] for cell in rule.cells)
    if rule.total is not None:
        model.add(sum(at[cell] for cell in rule.cells) == rule.total)


def _parity(model: cp_model.CpModel, at: Digits, rule: Parity) -> None:
    for cell in rule.cells:
        model.add_modulo_equality(rule.remainder, at[cell], 2)


MODELS: dict[type, Callable[..., None]] = {
    Distinct: _distinct,
    Thermometer: _thermometer,
    SlowThermometer: _slow_thermometer,
    Greater: _greater,
    Arrow: _arrow,
    Cage: _cage,
    Parity: _parity,
}


class _Collector(cp_model.CpSolverSolutionCallback):
    def __init__(self, at: Digits, most: int) -> None:
        super().__init__()
        self.at, self.most = at, most
        self.answers: list[tuple[int, ...]] = []

    def on_solution_callback(self) -> None:
        self.answers.append(tuple(self.value(digit) for digit in self.at))
        if len(self.answers) >= self.most:
            self.stop_search()


def model_answers(
    board: Board, pencil: Sequence[int], constraints: Sequence[Constraint], most: int = 2
) -> list[tuple[int, ...]]:
    """Up to `most` answers, found by CP-SAT with one worker."""
    model = cp_model.CpModel()
    at = [
        model.new_int_var_from_domain(cp_model.Domain.from_values(list(digits_of(mask))), "")
        for mask in pencil
    ]
    for constraint in constraints:
        MODELS[type(constraint)](model, at, constraint)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.enumerate_all_solutions = True
    collector = _Collector(at, most)
    solver.solve(model, collector)
    return collector.answers


def puzzle_answers(puzzle: Puzzle, most: int = 2) -> list[tuple[int, ...]]:
    """Up to `most` answers of a puzzle."""
    full = (2 << puzzle.board.digits) - 2
    pencil = [1 << digit if digit else full for digit in puzzle.givens]
    return model_answers(puzzle.board, pencil, list(puzzle.constraints()), most)
