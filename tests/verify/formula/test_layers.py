"""Layers against looking through every way: what stands where some cells must differ."""

from itertools import product

from hypothesis import given
from hypothesis import strategies as st

from verify.formula.layers import layers_of
from verify.formula.scan import Scan, total_scan
from verify.pencil import bit, digits_of

DIGITS = 5


@st.composite
def cases(draw):
    """A scan over one to five cells in any order, groups of these and others, and marks."""
    cells = draw(st.permutations(range(draw(st.integers(1, 5)))))
    pencil = [draw(st.integers(1, 31)) << 1 for _ in cells]
    groups = draw(st.lists(st.lists(st.sampled_from([*cells, 7]), unique=True), max_size=3))
    if draw(st.booleans()):
        weights = {cell: draw(st.sampled_from([-1, 1, 1, 2])) for cell in cells}
        return total_scan(weights, draw(st.integers(-2, 18)), pencil), groups, pencil
    below = draw(st.integers(1, 4))
    return (
        Scan(tuple(cells), 0, lambda high, at, digit: _rises(high, digit, below), bool),
        groups,
        pencil,
    )


def _rises(high, digit, below):
    """The highest digit so far; none is further below it than that."""
    return max(high, digit) if digit > high - below else None


def ways(scan, groups, pencil):
    """Every way through the marks that ends well, with digits that differ within groups."""
    for line in product(*(tuple(digits_of(pencil[cell])) for cell in scan.cells)):
        held, note = dict(zip(scan.cells, line, strict=True)), scan.start
        for index, digit in enumerate(line):
            note = None if note is None else scan.step(note, index, digit)
        inside = [[held[cell] for cell in group if cell in held] for group in groups]
        if note is not None and scan.ends(note) and all(len(set(g)) == len(g) for g in inside):
            yield line


@given(cases(), st.data())
def test_what_is_kept_of_a_sheet_and_of_those_that_come_of_it(case, data):
    scan, groups, pencil = case
    layers = layers_of(scan, groups, pencil)
    for _ in range(3):
        kept = [0] * len(pencil)
        for line in ways(scan, groups, pencil):
            for at, digit in enumerate(line):
                kept[at] |= bit(digit)
        assert layers.kept(pencil) == kept
        assert layers.has_way(pencil) == any(kept)
        pencil = [mask & data.draw(st.integers(1, 31)) << 1 for mask in pencil]


def test_more_edges_than_there_is_room_for_are_not_made():
    scan, pencil = total_scan(dict.fromkeys(range(4), 1), 12, [62] * 4), [62] * 4
    layers = layers_of(scan, [range(4)], pencil)
    assert layers_of(scan, [range(4)], pencil, most=layers.edges // 2) is None
    assert layers_of(scan, [range(4)], pencil, most=4 * layers.edges).edges == layers.edges
