"""Grid lines: of two weights, never over each other, closed at every join."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layout.board.grid import grid_lines
from tests.support.drawn import NINE, board_style, lattice
from verify.board import DEFAULT_BOXES, Board


def edges_of(stroke, place):
    """The single cell edges that a stroke's straight lines cover, each as two crossings."""
    for contour in stroke.path:
        (x1, y1), (x2, y2) = contour.start, contour.segments[0]
        column, row = round((x1 - place.left) / place.side), round((y1 - place.top) / place.side)
        across, down = round((x2 - x1) / place.side), round((y2 - y1) / place.side)
        for step in range(max(across, down)):
            right, below = (step, 0) if across else (0, step)
            start = (row + below, column + right)
            yield start, (start[0] + (down > 0), start[1] + (across > 0))


def inner_edges(board):
    for row in range(1, board.rows):
        yield from (((row, column), (row, column + 1)) for column in range(board.columns))
    for column in range(1, board.columns):
        yield from (((row, column), (row + 1, column)) for row in range(board.rows))


def sides(edge):
    """The two cells that an inner edge parts."""
    (row, column), (row2, _) = edge
    return ((row, column), (row, column - 1)) if row2 > row else ((row, column), (row - 1, column))


@pytest.mark.parametrize("size", sorted(DEFAULT_BOXES))
def test_every_inner_edge_is_drawn_once_and_heavy_only_between_boxes(size):
    board = Board(size, size, size, DEFAULT_BOXES[size])
    place = lattice(board)
    hair, heavy, _ = grid_lines(place, tuple(board.box_blocks()), board_style().lines)
    thin, thick = list(edges_of(hair, place)), list(edges_of(heavy, place))
    assert sorted(thin + thick) == sorted(inner_edges(board))
    height, width = DEFAULT_BOXES[size]
    for edge in thick:
        (r1, c1), (r2, c2) = sides(edge)
        assert (r1 // height, c1 // width) != (r2 // height, c2 // width)
    assert len(thick) == size * (size // height - 1 + size // width - 1)


@given(st.lists(st.integers(0, 3), min_size=36, max_size=36))
def test_heavy_lines_part_any_regions_whatever(labels):
    board = Board(6, 6, 6)
    place = lattice(board)
    regions = tuple(
        tuple(cell for cell in board.cells if labels[cell] == label) for label in range(4)
    )
    *lines, _ = grid_lines(place, regions, board_style().lines)
    thick = {edge for line in lines if line.cap == "square" for edge in edges_of(line, place)}
    wanted = {
        edge
        for edge in inner_edges(board)
        if len({labels[board.cell(*one)] for one in sides(edge)}) == 2
    }
    assert thick == wanted


def test_weights_rise_from_hairline_to_frame():
    hair, heavy, frame = grid_lines(lattice(), tuple(NINE.box_blocks()), board_style().lines)
    assert hair.width < heavy.width < frame.width
    assert heavy.width >= 2 * hair.width
    assert frame.join == "miter"
    assert frame.path[0].closed


def test_a_heavy_line_s_square_end_stays_inside_the_frame():
    for side in (2.0, 4.4, 12.9, 20.0):
        _, heavy, frame = grid_lines(
            lattice(side=side), tuple(NINE.box_blocks()), board_style().lines
        )
        assert heavy.cap == "square"
        assert heavy.width <= frame.width


def test_a_latin_board_has_hairlines_and_a_frame_alone():
    board = Board(5, 5, 5)
    hair, frame = grid_lines(lattice(board), (), board_style().lines)
    assert len(list(edges_of(hair, lattice(board)))) == 2 * 4 * 5
    assert frame.width > hair.width
