"""Layers of a mark against its solver: the same arrangements, on any sheet that comes of one."""

import random
from collections.abc import Iterable

import pytest

from tests.support.sowing import sown
from verify.formula.noted import noted
from verify.pencil import Mask, bit, digits_of, every_digit
from verify.walk.facts.cells import set_of
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import House, Link
from verify.walk.ways.arrangers import arrangers_of
from verify.walk.ways.mark_layers import MarkLayers
from verify.walk.ways.mark_solver import MarkSolver

MARKS = 3
SHEETS = 3
"""Sheets for each mark, each with fewer candidates than the one before."""


NOTED = [
    "arrow",
    "cage",
    "calculation",
    "diagonal-sum",
    "double-arrow",
    "edge-sum",
    "equal-cages",
    "equal-sum",
    "product-arrow",
    "sandwich",
    "skyscraper",
    "sum-mark",
    "sum-quad",
    "x-sum",
    "zipper",
]


def noted_marks(name: str, notes: Notes) -> list[Link]:
    """The marks of a rule with a note that says all, and more than one cell."""
    return [
        link
        for link, said in notes.facets.items()
        if link.rule == name
        and len(link.constraint.cells) > 1
        and noted(link.constraint, said, notes.pencil) is not None
    ]


def solver_of(notes: Notes, link: Link, houses: Iterable[House]) -> MarkSolver:
    return MarkSolver(notes.digits, notes.pencil, link.constraint, tuple(houses))


def thinned(mask: Mask, digit: int, dice: random.Random) -> Mask:
    """Some of the digits of a cell, that of the answer among them."""
    return mask & (dice.getrandbits(7) | dice.getrandbits(7) | bit(digit))


@pytest.mark.parametrize("name", NOTED)
def test_layers_say_what_a_solver_says(name):
    dice = random.Random(name)
    puzzle, answer = sown(name, 6, 1)
    notes = Notes(puzzle)
    links = noted_marks(name, notes)
    for link in dice.sample(links, min(MARKS, len(links))):
        cells = sorted(set(link.constraint.cells))
        houses = [each for each in notes.houses if len({*cells}.intersection(each.cells)) > 1]
        layers = arrangers_of(notes).of(link, houses)
        assert isinstance(layers, MarkLayers)
        solver = solver_of(notes, link, houses)
        pencil = list(notes.pencil)
        for _ in range(SHEETS):
            standing = layers.standing(pencil)
            held = [(cell, digit) for cell in cells for digit in digits_of(pencil[cell])]
            for cell, digit in held:
                found = solver.without(cell, digit, pencil)
                assert (found is None) == bool(standing[cell] >> digit & 1)
                if found is not None:
                    needed = layers.without(cell, digit, pencil)
                    fewer = solver_of(notes, link, needed)
                    assert fewer.without(cell, digit, pencil) is not None
            for some, digit in ((dice.sample(cells, 2), d) for d in digits_of(every_digit(6))):
                found, same = (each.nowhere(some, digit, pencil) for each in (solver, layers))
                assert (found is None) == (same is None)
                asked = [(set_of(cells), bit(digit)), (set_of(some), bit(digit))]
                digits = bit(digit) if same is not None else 0
                assert layers.may_be_needed(asked, pencil)[1] == digits
                assert digits & ~solver.may_be_needed(asked, pencil)[1] == 0
            pencil = [thinned(mask, answer[cell], dice) for cell, mask in enumerate(pencil)]
