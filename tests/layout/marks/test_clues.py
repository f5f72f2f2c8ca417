"""Clues outside: the grid in the middle, the width exact, labels in their places and apart."""

import re
from itertools import combinations
from math import dist, isclose

import pytest

from layout.board.board import draw_board, extent_of, lay_out
from layout.marks.label import ink_box
from layout.picture.items import Stroke, Text
from layout.style.style import read_style
from layout.writers.svg import svg_of_picture
from tests.support.drawn import (
    STYLES,
    SVG,
    board_style,
    glyphs,
    painted_bounds,
    plain_puzzle,
    svg_of,
)
from tests.support.drawn_marks import BOTTOM, LEFT, RIGHT, TOP, clue, nine, with_marks

SETS = {
    "top": [TOP(0, "35"), TOP(3, "7"), TOP(8, "120")],
    "left": [LEFT(0, "35"), LEFT(3, "7"), LEFT(8, "120")],
    "both": [TOP(0, "35"), LEFT(0, "2"), RIGHT(4, "17"), BOTTOM(8, "4")],
    "diagonal": [TOP(0, "35", "se"), TOP(1, "7", "sw"), LEFT(4, "120", "ne"), RIGHT(2, "9", "nw")],
    "one place": [
        TOP(3, "13", "sw"),
        TOP(3, "24", "se"),
        TOP(3, "35"),
        TOP(3, "6", "s", digits=()),
        LEFT(2, "45", "ne"),
        LEFT(2, "38", "se"),
        LEFT(2, "11"),
        RIGHT(2, "45", "nw"),
        RIGHT(2, "38", "sw"),
        BOTTOM(4, "4", "nw"),
        BOTTOM(4, "44", "ne"),
        BOTTOM(4, "22"),
    ],
    "side by side": [
        mark
        for at in range(8)
        for mark in (TOP(at, "35", "se"), TOP(at + 1, "28", "sw"), LEFT(at, "41", "se"))
    ],
}


def shown(name, style="paperback", width=100, full=True):
    puzzle = with_marks(nine(full), SETS[name])
    look = board_style(style)
    return draw_board(puzzle, look, width), lay_out(puzzle, look, width)


def width_for(name, style, cells):
    """The width at which cells are so many times as large as the style's smallest answers'."""
    sheet = read_style(style)
    across = extent_of(with_marks(nine(), SETS[name]), sheet.board).across
    return across * cells * sheet.page.cells.smallest_in_answers


def labels(picture, digits=81):
    texts = [item for item in picture.items if isinstance(item, Text)]
    return texts[: len(texts) - digits]


@pytest.mark.parametrize("name", SETS)
@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("cells", [1, 1.5, 3])
def test_the_grid_is_centred_and_everything_lies_within_the_width(name, style, cells):
    width = width_for(name, style, cells)
    picture, place = shown(name, style, width)
    assert picture.width == width
    right = width - place.left - 9 * place.side
    bottom = picture.height - place.top - 9 * place.side
    assert place.left == pytest.approx(right)
    assert place.top == pytest.approx(bottom)
    root = svg_of(svg_of_picture(picture))
    for left, top, right, bottom in [*painted_bounds(root), *glyphs(root)]:
        assert min(left, top) >= -1e-3
        assert right <= picture.width + 1e-3
        assert bottom <= picture.height + 1e-3


@pytest.mark.parametrize("name", SETS)
@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("cells", [1, 1.5, 3])
def test_labels_stand_outside_the_frame_and_none_overlaps_another(name, style, cells):
    width = width_for(name, style, cells)
    picture, place = shown(name, style, width)
    every = labels(picture)
    assert [text.text for text in every] == [mark.label for mark in SETS[name]]
    reach = place.frame / 2 + 0.02 * place.side
    left, top = place.left - reach, place.top - reach
    right, bottom = place.left + 9 * place.side + reach, place.top + 9 * place.side + reach
    boxes = [ink_box(text) for text in every]
    for box in boxes:
        assert box[2] < left or box[0] > right or box[3] < top or box[1] > bottom
    for one, other in combinations(boxes, 2):
        gap = max(one[0] - other[2], other[0] - one[2], one[1] - other[3], other[1] - one[3])
        assert gap > 0.05 * place.side, (one, other)
    for arrow in arrows(picture):
        for box in boxes:
            assert apart(arrow, box) > 0.01 * place.side


def arrows(picture):
    """The boxes of all arrows: strokes of a shaft and a head outside the board."""
    boxes = []
    for item in picture.items:
        if isinstance(item, Stroke) and [len(each.segments) for each in item.path] == [1, 2]:
            xs, ys = zip(
                *(p for each in item.path for p in (each.start, *each.segments)), strict=True
            )
            half = item.width / 2
            boxes.append((min(xs) - half, min(ys) - half, max(xs) + half, max(ys) + half))
    return boxes


def apart(one, other):
    return max(one[0] - other[2], other[0] - one[2], one[1] - other[3], other[1] - one[3])


def test_there_is_room_on_the_sides_where_clues_stand_and_on_no_other():
    look = board_style()
    for name, across, down in (("top", False, True), ("left", True, False), ("both", True, True)):
        extent = extent_of(with_marks(nine(), SETS[name]), look)
        assert (extent.across > 9, extent.down > 9) == (across, down)
    plain = extent_of(nine(), look)
    assert (plain.across, plain.down) == (9, 9)


@pytest.mark.parametrize("name", ["top", "left", "both"])
def test_straight_clues_stand_on_the_middle_line_of_their_row_or_column(name):
    picture, place = shown(name)
    for mark, text in zip(SETS[name], labels(picture), strict=True):
        left, top, right, bottom = ink_box(text)
        x, y = (left + right) / 2, (top + bottom) / 2
        row, column = mark.outside.row, mark.outside.column
        if 0 <= column < 9:
            assert x == pytest.approx(place.left + (column + 0.5) * place.side)
        else:
            assert y == pytest.approx(place.top + (row + 0.5) * place.side)


def test_an_arrow_points_at_the_corner_where_its_diagonal_enters():
    for to, row, column in (("se", 0, 4), ("sw", 0, 3)):
        puzzle = with_marks(nine(), [TOP(3, "9", to)])
        picture, place = draw_board(puzzle, board_style(), 100), lay_out(puzzle, board_style(), 100)
        (arrow,) = (
            item
            for item in picture.items
            if isinstance(item, Stroke) and [len(e.segments) for e in item.path] == [1, 2]
        )
        (x1, y1), (x2, y2) = arrow.path[0].start, arrow.path[0].segments[0]
        x, y = place.corner(row, column)
        assert isclose((y2 - y1) / (x2 - x1), 1 if to == "se" else -1)
        assert isclose((y - y2) / (x - x2), 1 if to == "se" else -1)
        assert y1 < y2 < y


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("label", ["35", "2 7", "120", "1 3 5"])
def test_a_clue_fits_beside_one_cell_at_a_size_that_is_read(style, label):
    for mark in (TOP(3, label), LEFT(3, label)):
        puzzle = with_marks(nine(), [mark])
        picture = draw_board(puzzle, board_style(style), 100)
        place = lay_out(puzzle, board_style(style), 100)
        (text,) = labels(picture)
        left, top, right, bottom = ink_box(text)
        assert right - left < place.side
        assert bottom - top > 0.19 * place.side


def test_digits_are_printed_as_the_puzzle_s_symbols():
    puzzle = with_marks(
        plain_puzzle(4, more="symbols: [A, B, C, D]\n"), [clue(-1, 1, "s", "", digits=(2, 4))]
    )
    picture = draw_board(puzzle, board_style(), 60)
    assert [item.text for item in picture.items if isinstance(item, Text)] == ["BD"]
    assert "Outside BD: top c2." in picture.description


def test_clues_are_told_with_their_places():
    said = shown("one place")[0].description
    for words in ("Diagonal 24: top c4 se.", "Outside 11: left r3.", "Diagonal 38: right r3 sw."):
        assert words in said


def test_extents_turn_widths_into_heights_and_back():
    extent = extent_of(with_marks(nine(), SETS["top"]), board_style())
    for width in (30, 100, 180):
        height = extent.height(width)
        assert height > width
        assert extent.within(1000, height) == pytest.approx(width)
        assert extent.within(width, 1000) == width
        picture, _ = shown("top", width=width)
        assert picture.height == pytest.approx(height)


@pytest.mark.parametrize("way", ["in", "out"])
@pytest.mark.parametrize("stand", [TOP, LEFT, BOTTOM, RIGHT])
def test_an_arrow_alone_points_towards_the_grid_or_away_from_it(stand, way):
    puzzle = with_marks(nine(full=False), [stand(3, "", arrow=way)])
    picture, place = draw_board(puzzle, board_style(), 100), lay_out(puzzle, board_style(), 100)
    root = svg_of(svg_of_picture(picture))
    paths = [each.attrib["d"] for each in root.iter(f"{SVG}path") if each.get("id") is None]
    (arrow,) = (path for path in paths if path.count("M") == 2 and "Z" not in path)
    shaft, head = (
        list(zip(*[iter(map(float, re.findall(r"-?[\d.]+", part)))] * 2, strict=True))
        for part in arrow.split("M")[1:]
    )
    assert (len(shaft), len(head)) == (2, 3)
    middle = (place.left + 4.5 * place.side, place.top + 4.5 * place.side)
    tip, tails = head[1], (head[0], head[2])
    tail = max(shaft, key=lambda end: dist(end, tip))
    towards = dist(tip, middle) < dist(tail, middle)
    assert towards == (way == "in")
    for each in tails:
        assert dist(tip, tail) > dist(each, tail)
