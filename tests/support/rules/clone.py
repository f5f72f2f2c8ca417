"""Clones, for the tests."""

from hypothesis import strategies as st

from tests.support.paths import around
from verify.rules.cells.clone import Clone


def mark(draw, board):
    """Cells anywhere, with one or two copies so far down and right that none overlaps."""
    first, *copies = draw(
        st.lists(st.sampled_from(board.cells), min_size=2, max_size=3, unique=True)
    )
    twins = [(first, *copies)]
    for _ in range(draw(st.integers(0, 2))):
        taken = {cell for cells in twins for cell in cells}
        shifted = (_shifted(board, twins[0], first, cell) for cell in board.cells)
        free = [cells for cells in shifted if None not in cells and not taken & set(cells)]
        if free:
            twins.append(draw(st.sampled_from(free)))
    return Clone(tuple(zip(*sorted(twins), strict=True)))


def _shifted(board, cells, start, end):
    """The cells moved as far as it is from start to end; None for those off the board."""
    (row, column), (to_row, to_column) = board.place(start), board.place(end)
    down, right = to_row - row, to_column - column
    places = [(row + down, column + right) for row, column in map(board.place, cells)]
    return tuple(board.cell(*place) if board.holds(*place) else None for place in places)


def _model(model, at, rule):
    for twins in zip(*rule.shapes, strict=True):
        for twin in twins[1:]:
            model.add(at[twins[0]] == at[twin])


MODELS = {Clone: _model}


def sow(board, answer, dice):
    """The largest shapes of touching cells that stand in the answer twice, on free cells."""
    clones, taken = [], set()
    for pairs in sorted(_twice(board, answer, dice), key=len, reverse=True):
        shape, twin = zip(*pairs, strict=True)
        if not taken & {*shape, *twin} and len(clones) < 8:
            clones.append(Clone((shape, twin)))
            taken.update(shape, twin)
    return tuple(clones)


def _twice(board, answer, dice):
    """For each step of up to half a board: touching cells that it leads to their like."""
    middle = board.cell(board.rows // 2, board.columns // 2)
    ends = [end for end in board.cells if end != middle]
    for end in dice.sample(ends, len(ends)):
        twins = dict(zip(board.cells, _shifted(board, board.cells, middle, end), strict=True))
        alike = [
            cell
            for cell, twin in twins.items()
            if twin is not None and answer[cell] == answer[twin]
        ]
        while alike:
            shape, edge = [], [alike.pop()]
            while edge:
                cell = edge.pop()
                shape.append(cell)
                near = [at for at in around(board, cell) if at in alike]
                alike = [at for at in alike if at not in near]
                edge.extend(near)
            if not set(shape) & {twins[cell] for cell in shape}:
                yield [(cell, twins[cell]) for cell in sorted(shape)]


WRITTEN = ("[[r1c1 e, r3c1 e]]",)
