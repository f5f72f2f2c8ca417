"""Cells, steps and neighbours."""

import networkx
import pytest
from hypothesis import given
from hypothesis import strategies as st

from verify.board import COMPASS, DEFAULT_BOXES, Board

SIZES = st.integers(1, 25)


@st.composite
def board_and_cell(draw):
    board = Board(draw(SIZES), draw(SIZES), 9)
    return board, draw(st.sampled_from(board.cells))


@given(board_and_cell())
def test_place_and_cell_are_each_others_reverse(drawn):
    board, cell = drawn
    assert board.cell(*board.place(cell)) == cell


@given(board_and_cell(), st.sampled_from(sorted(COMPASS)), st.integers(1, 30))
def test_a_step_is_undone_by_the_opposite_step(drawn, direction, count):
    board, cell = drawn
    down, right = COMPASS[direction]
    opposite = next(d for d, step in COMPASS.items() if step == (-down, -right))
    there = board.step(cell, direction, count)
    if there is not None:
        assert board.step(there, opposite, count) == cell


@pytest.mark.parametrize(("rows", "columns"), [(1, 1), (3, 5), (6, 6)])
def test_shared_edges_are_those_of_a_grid_graph(rows, columns):
    # networkx.grid_2d_graph
    board = Board(rows, columns, 6)
    ours = {
        (board.place(a), board.place(b))
        for a in board.cells
        for b in board.cells
        if a < b and board.share_edge(a, b)
    }
    assert ours == set(networkx.grid_2d_graph(rows, columns).edges)


@given(st.data())
def test_hanging_together_is_being_connected(data):
    board = Board(4, 4, 4)
    cells = data.draw(st.sets(st.sampled_from(board.cells), min_size=1))
    graph = networkx.Graph()
    graph.add_nodes_from(cells)
    graph.add_edges_from((a, b) for a in cells for b in cells if board.share_edge(a, b))
    assert board.hang_together(cells) == networkx.is_connected(graph)


@pytest.mark.parametrize("size", DEFAULT_BOXES)
def test_usual_boxes_fill_the_board_once(size):
    board = Board(size, size, size, DEFAULT_BOXES[size])
    blocks = list(board.box_blocks())
    assert {len(block) for block in blocks} == {size}
    assert sorted(cell for block in blocks for cell in block) == list(board.cells)


def test_names_count_from_one():
    board = Board(9, 9, 9)
    assert (board.name(0), board.name(80), board.name(board.cell(3, 6))) == ("r1c1", "r9c9", "r4c7")
