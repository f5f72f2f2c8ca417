"""Calculation cages, for the tests."""

from functools import reduce
from math import prod
from operator import floordiv, sub

from hypothesis import strategies as st

from tests.support.paths import blobs, random_blob
from verify.rules.cells.calculation import Calculation, Operation


def mark(draw, board):
    """Cages with a result that some digits give, taken in the order in which they are drawn."""
    cells = draw(blobs(board, 1, 6))
    digits = [draw(st.integers(1, board.digits)) for _ in cells]
    results = _results(digits)
    operation = draw(st.sampled_from(sorted(results, key=lambda each: each.value)))
    hidden = len(cells) == 1 or draw(st.booleans())
    return Calculation(cells, None if hidden else operation, results[operation])


def _results(digits):
    """What each operation that gives a whole number makes of digits in falling order."""
    falling = sorted(digits, reverse=True)
    results = {Operation.ADD: sum(digits), Operation.MULTIPLY: prod(digits)}
    if reduce(sub, falling) >= 0:
        results[Operation.SUBTRACT] = reduce(sub, falling)
    if falling[0] % prod(falling[1:]) == 0:
        results[Operation.DIVIDE] = reduce(floordiv, falling)
    return results


def _model(model, at, rule):
    inside = [at[cell] for cell in rule.cells]
    turns = [(one, inside[:index] + inside[index + 1 :]) for index, one in enumerate(inside)]
    ways = {
        Operation.ADD: lambda: [_is(model, sum(inside), rule.result)],
        Operation.MULTIPLY: lambda: [_is(model, _product(model, inside), rule.result)],
        Operation.SUBTRACT: lambda: [
            _is(model, one - sum(others), rule.result) for one, others in turns
        ],
        Operation.DIVIDE: lambda: [
            _is(model, one - rule.result * _product(model, others), 0) for one, others in turns
        ],
    }
    asked = Operation if rule.operation is None else [rule.operation]
    model.add_bool_or(way for operation in asked for way in ways[operation]())


def _product(model, variables):
    product = model.new_int_var(0, 10**9, "")
    model.add_multiplication_equality(product, variables)
    return product


def _is(model, expression, number):
    """A variable that is true just where the expression has that value."""
    true = model.new_bool_var("")
    model.add(expression == number).only_enforce_if(true)
    model.add(expression != number).only_enforce_if(~true)
    return true


MODELS = {Calculation: _model}


def sow(board, answer, dice):
    """Cages over most of the board; every third hides its operation."""
    cages, taken = [], set()
    for _ in range(len(board.cells) // 3):
        cells = random_blob(board, dice, dice.choice([2, 2, 3, 4]), taken)
        if len(cells) < 2:
            continue
        taken.update(cells)
        results = _results([answer[cell] for cell in cells])
        operation = dice.choice(sorted(results, key=lambda each: each.value))
        hidden = dice.random() < 1 / 3
        cages.append(Calculation(cells, None if hidden else operation, results[operation]))
    return tuple(cages)


WRITTEN = ("[{cells: r1c1, result: 3}]",)
