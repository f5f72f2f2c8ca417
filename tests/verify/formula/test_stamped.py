"""What only stamps do: they are kept within bounds, and cells of one house are known."""

from verify.formula import stamped
from verify.formula.stamped import StampedFormula
from verify.pencil import every_digit
from verify.rules.workings.totals import total_clauses


def formula_of(houses=(), native=False):
    return StampedFormula(9, (every_digit(9),) * 81, houses=houses, native=native)


def test_stamps_that_are_kept_take_bounded_room(monkeypatch):
    monkeypatch.setattr(stamped, "MOST_KEPT", 2_000)
    kept = stamped._Kept()
    monkeypatch.setattr(stamped, "_KEPT", kept)
    totals = [*range(3, 25), *range(3, 25)]
    for total in totals:
        total_clauses(formula_of(), {0: 1, 1: 1, 2: 1}, total)
        clauses = sum(len(each.units) + len(each.longer) for each in kept._stamps.values())
        assert 0 < clauses <= 2_000
    assert len(kept._stamps) < len({*totals})


def test_a_stamp_sets_its_own_variables_and_helpers():
    first, second = formula_of(), formula_of()
    total_clauses(first, {0: 1, 1: 1, 2: 1}, 12)
    total_clauses(second, {40: 1, 50: 1, 60: 1}, 12)
    total_clauses(second, {41: 1, 51: 1, 61: 1}, 12)
    half = len(first.clauses)
    assert len(second.clauses) == 2 * half
    said, again = second.clauses[:half], second.clauses[half:]
    helpers = [
        {abs(each) for clause in some for each in clause if abs(each) > 9 * 81}
        for some in (said, again)
    ]
    assert helpers[0].isdisjoint(helpers[1])
    cells = [
        {(abs(each) - 1) // 9 for clause in some for each in clause if abs(each) <= 9 * 81}
        for some in (said, again)
    ]
    assert cells == [{40, 50, 60}, {41, 51, 61}]


def test_sums_within_a_house_are_sets_and_long_ones_elsewhere_are_counted():
    row, diagonal = tuple(range(9)), tuple(range(0, 81, 10))
    within, across = formula_of((row,), native=True), formula_of((row,), native=True)
    total_clauses(within, dict.fromkeys(row[:4], 1), 20)
    total_clauses(across, dict.fromkeys(diagonal, 1), 45)
    assert within.apart(row[:4])
    assert not within.apart((0, 80))
    assert within.clauses
    assert not within.counts
    assert len(across.counts) == 1
