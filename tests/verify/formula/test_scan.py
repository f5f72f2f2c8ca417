"""Scans against looking through every way: what survives, what the clauses allow, how it ends."""

from itertools import product

from hypothesis import given
from hypothesis import strategies as st

from tests.support.effort import effort
from verify.formula.formula import Formula
from verify.formula.scan import Scan, diagram, live, scan_survivors, survivors, total_scan
from verify.pencil import bit, digits_of
from verify.proof.solver import Allowance, Base

DIGITS = 4
STATES = 3


@st.composite
def scans(draw):
    """A random scan over one to four cells, by a table of its steps, and pencil marks."""
    cells = tuple(range(draw(st.integers(1, 4))))
    where = st.none() | st.integers(0, STATES - 1)
    keys = [(state, at, digit) for state in range(STATES) for at in cells for digit in range(1, 5)]
    table = {key: draw(where) for key in keys}
    fine = draw(st.sets(st.integers(0, STATES - 1)))
    mask = st.integers(1, 15).map(lambda bits: bits << 1)
    pencil = tuple(draw(mask) for _ in cells)
    scan = Scan(cells, 0, lambda state, at, digit: table[state, at, digit], fine.__contains__)
    return scan, pencil


def ways(scan, pencil):
    """Every way through the marks that ends well, with its end."""
    found = {}
    for line in product(*(tuple(digits_of(mask)) for mask in pencil)):
        state = scan.start
        for index, digit in enumerate(line):
            state = scan.step(state, index, digit)
            if state is None:
                break
        if state is not None and scan.ends(state):
            found[line] = state
    return found


def models(formula, pencil, also=()):
    """Every grid that the formula's clauses and some literals allow."""
    session = Base(formula.digits, (), pencil).open(formula)
    for literal in also:
        session.rule_out(-literal)
    allowance, grids = Allowance(10**6), []
    while (grid := session.answer(allowance)) is not None:
        grids.append(grid)
        session.differ(grid, range(len(pencil)))
    return grids


@effort(2)
@given(scans())
def test_survivors_and_clauses_are_those_of_all_ways(case):
    scan, pencil = case
    every = ways(scan, pencil)
    kept = [sum({bit(line[cell]) for line in every}) for cell in scan.cells]
    assert [mask for _, mask in scan_survivors(scan, pencil)] == kept
    whole = diagram(scan, [30] * len(pencil))
    assert [mask for _, mask in survivors(whole, scan.cells, pencil)] == kept
    formula = Formula(DIGITS, pencil)
    formula.scan(scan)
    assert sorted(models(formula, pencil)) == sorted(every)


@given(scans())
def test_a_scan_that_hangs_on_a_literal_asks_nothing_without_it(case):
    scan, pencil = case
    formula = Formula(DIGITS, pencil)
    where = formula.fresh()
    formula.scan(scan, where)
    assert sorted(models(formula, pencil, [where])) == sorted(ways(scan, pencil))
    everything = list(product(*(tuple(digits_of(mask)) for mask in pencil)))
    assert sorted(models(formula, pencil, [-where])) == everything


@given(scans())
def test_outcomes_tell_the_ends_apart(case):
    scan, pencil = case
    formula = Formula(DIGITS, pencil)
    ends = formula.outcomes(scan)
    every = ways(scan, pencil)
    assert set(ends) == set(every.values()) or not every
    for end, literal in ends.items():
        wanted = sorted(line for line, state in every.items() if state == end)
        others = [-each for each in ends.values() if each != literal]
        assert sorted(models(formula, pencil, [literal, *others])) == wanted


@given(st.lists(st.integers(1, 15).map(lambda bits: bits << 1), min_size=1, max_size=4), st.data())
def test_a_total_looks_no_further_than_it_can_reach(pencil, data):
    weights = {cell: data.draw(st.sampled_from([-2, -1, 1, 3])) for cell in range(len(pencil))}
    total = data.draw(st.integers(-20, 30))
    scan = total_scan(weights, total, pencil)
    found = {
        line
        for line in product(*(tuple(digits_of(mask)) for mask in pencil))
        if sum(weights[cell] * digit for cell, digit in enumerate(line)) == total
    }
    assert set(ways(scan, pencil)) == found
    assert all(live(diagram(scan, pencil), scan.cells, pencil)) == bool(found)
