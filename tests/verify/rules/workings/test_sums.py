"""Sums against the combinatorics of the handbooks."""

from itertools import combinations
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.support.counting import formula_answers
from verify.pencil import bit, digits_of
from verify.rules.workings.sums import digit_sets, largest_sum, least_sum, sum_survivors, sums_of
from verify.rules.workings.totals import total_clauses

PENCILS = st.lists(st.integers(1, 511).map(lambda bits: bits << 1), min_size=1, max_size=4)


@pytest.mark.parametrize(
    ("cells", "total", "sets"),
    # Combinatorics, by hand: 3 in two cells is 1+2 alone, 15 in three has 8, 45 in nine all digits.
    [(2, 3, 1), (2, 10, 4), (3, 15, 8), (4, 10, 1), (4, 20, 12), (9, 45, 1), (2, 18, 0)],
)
def test_digit_sets_are_as_many_as_combinatorics_says(cells, total, sets):
    assert len(digit_sets(cells, total, 9) or ()) == sets


def test_every_set_of_digits_has_one_sum():
    # The number of n-subsets of 1 to 9, over all sums, is 9 choose n: 511 sets in all.
    counted = sum(
        len(digit_sets(cells, total, 9) or ()) for cells in range(1, 10) for total in range(46)
    )
    assert counted == 511


def test_bounds_are_reached():
    for cells in range(1, 10):
        every = [sum(chosen) for chosen in combinations(range(1, 10), cells)]
        assert (min(every), max(every)) == (least_sum(cells), largest_sum(cells, 9))


@given(PENCILS, st.data())
def test_survivors_are_just_the_digits_of_some_choice(pencil, data):
    weights = [data.draw(st.sampled_from([1, 10])) for _ in pencil]
    terms = list(enumerate(weights))
    totals = data.draw(st.sets(st.integers(1, 130), max_size=3))
    choices: list[tuple[int, ...]] = [()]
    for mask in pencil:
        choices = [(*chosen, digit) for chosen in choices for digit in digits_of(mask)]
    reached = {sum(w * d for w, d in zip(weights, c, strict=True)): c for c in choices}
    assert set(reached) == {s for s in range(500) if sums_of(terms, pencil) >> s & 1}
    fitting = [c for c in choices if sum(w * d for w, d in zip(weights, c, strict=True)) in totals]
    kept = dict(sum_survivors(terms, pencil, sum(1 << total for total in totals)))
    for cell in range(len(pencil)):
        assert kept[cell] == sum({bit(chosen[cell]) for chosen in fitting})


class _Total:
    def __init__(self, weights, total):
        self.weights, self.total = weights, total

    def clauses(self, formula):
        total_clauses(formula, self.weights, self.total)


@given(PENCILS, st.data())
def test_a_total_as_a_decision_diagram_has_just_its_grids(pencil, data):
    weights = {cell: data.draw(st.sampled_from([-10, -1, 1, 2])) for cell in range(len(pencil))}
    total = data.draw(st.integers(-30, 30))
    choices: list[tuple[int, ...]] = [()]
    for mask in pencil:
        choices = [(*chosen, digit) for chosen in choices for digit in digits_of(mask)]
    fitting = [c for c in choices if sum(weights[i] * d for i, d in enumerate(c)) == total]
    marks: list[Any] = [_Total(weights, total)]
    found = formula_answers(9, pencil, marks)
    assert sorted(found) == sorted(fitting)
