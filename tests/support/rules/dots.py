"""Dots, for the tests."""

from hypothesis import strategies as st

from tests.support.paths import edge_pair
from verify.rules.cells.dots import Dotted, Relation
from verify.rules.workings.neighbours import neighbours

RELATIONS: list[Relation] = ["consecutive", "ratio", "neither"]


def mark(draw, board):
    return Dotted(edge_pair(draw, board), draw(st.sampled_from(RELATIONS)), board.digits)


def _model(model, at, rule):
    one, other = (at[cell] for cell in rule.cells)
    if rule.relation == "consecutive":
        model.add_abs_equality(1, one - other)
    elif rule.relation == "ratio":
        doubles = [model.new_bool_var("") for _ in range(2)]
        for is_double, (half, double) in zip(doubles, [(one, other), (other, one)], strict=True):
            model.add(double == 2 * half).only_enforce_if(is_double)
            model.add(double != 2 * half).only_enforce_if(~is_double)
        model.add_bool_or(doubles)
    else:
        model.add(one - other != 1)
        model.add(other - one != 1)
        model.add(one != 2 * other)
        model.add(other != 2 * one)


MODELS = {Dotted: _model}


def sow(board, answer, dice):
    """All dots of the answer, with all shown or not; between 1 and 2 either."""
    relations = RELATIONS if dice.random() < 0.5 else RELATIONS[:2]
    sown = []
    for pair in neighbours(board):
        marks = [Dotted(pair, relation, board.digits) for relation in relations]
        fitting = [mark for mark in marks if mark.holds(answer)]
        sown += dice.sample(fitting, min(1, len(fitting)))
    return tuple(sown)
