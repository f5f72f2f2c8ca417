"""Helper digits in open cells, and drawn shapes in the place of digits."""

from dataclasses import replace
from itertools import combinations

import pytest
from PIL import Image, ImageChops

from layout.board.board import draw_board
from layout.board.helpers import NoRoomForHelpers
from layout.marks.label import ink_box
from layout.picture.items import Fill, Picture, Stroke, Text
from layout.picture.shape_symbols import SHAPES, first_shapes
from layout.writers.raster import png_of_picture
from tests.support.drawn import board_style
from verify.manifest.read import puzzle_from_text
from verify.rules import BY_NAME

STYLES = ("classroom", "paperback", "newsprint", "large-print")


def latin(size, symbols=None):
    rows = "\n".join("  " + " ".join("." * size) for _ in range(size))
    puzzle = puzzle_from_text(f"kind: latin\nsize: {size}\ngivens: |\n{rows}\n")
    return replace(puzzle, symbols=symbols) if symbols else puzzle


def drawn(name, solid=True):
    """A shape alone, as grey pixels."""
    from io import BytesIO

    shape = SHAPES[name]
    items = (shape.solid if solid else shape.open)((5.0, 5.0), 8.0)
    data = png_of_picture(Picture(10.0, 10.0, tuple(items)), 150)
    return Image.open(BytesIO(data)).convert("L").resize((24, 24))


@pytest.mark.parametrize("solid", [True, False])
def test_shapes_are_told_apart_in_black_and_white(solid):
    """Any two differ in more than a tenth of what either covers, also in a copy without greys."""
    pixels = {name: drawn(name, solid).point(lambda v: 255 * (v > 150)) for name in SHAPES}
    for one, two in combinations(pixels, 2):
        differs = ImageChops.difference(pixels[one], pixels[two]).histogram()[255]
        covers = min(pixels[each].histogram()[0] for each in (one, two))
        assert differs > 0.3 * covers, (one, two)


@pytest.mark.parametrize("name", SHAPES)
def test_a_shape_keeps_to_its_square(name):
    for item in SHAPES[name].solid((0.0, 0.0), 1.0):
        assert isinstance(item, Fill | Stroke)
        for contour in item.path:
            for x, y in [contour.start, *((each[-2], each[-1]) for each in contour.segments)]:
                assert max(abs(x), abs(y)) <= 0.56


def test_givens_are_solid_and_the_answer_is_outlined():
    puzzle = replace(latin(4, first_shapes(4)), givens=(1, *[0] * 15))
    answer = tuple((row + column) % 4 + 1 for row in range(4) for column in range(4))
    style = board_style("classroom")
    open_items, filled = (
        draw_board(puzzle, style, 60, answer=each).items for each in (None, answer)
    )
    assert [item.grey for item in open_items if isinstance(item, Fill)] == [0.0]
    assert [item.grey for item in filled if isinstance(item, Fill)].count(1.0) >= 15
    assert not any(isinstance(item, Text) for item in filled)


def test_a_reader_who_cannot_see_it_is_told_the_names():
    puzzle = replace(latin(4, first_shapes(4)), givens=(1, 0, 0, 2, *[0] * 12))
    told = draw_board(puzzle, board_style("classroom"), 60).description
    assert "drop in column 1, star in column 4" in told


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("size", [1, 2, 3, 4, 5, 6, 7, 8, 9])
def test_helper_digits_stand_apart_along_the_edges(style, size):
    cell = 26.0 if style == "large-print" else 12.0
    picture = draw_board(latin(size), board_style(style), cell * size, helpers=True)
    texts = [item for item in picture.items if isinstance(item, Text)]
    assert len(texts) == size * size * size
    first = sorted(texts[:size], key=lambda text: (round(text.y, 3), text.x))
    assert "".join(text.text for text in first) == "123456789"[:size]
    boxes = [ink_box(text) for text in texts[:size]]
    for (l1, t1, r1, b1), (l2, t2, r2, b2) in combinations(boxes, 2):
        assert r1 < l2 or r2 < l1 or b1 < t2 or b2 < t1
    middle = cell / 2
    assert all(box[3] < middle - 0.15 * cell or box[1] > middle + 0.15 * cell for box in boxes)


@pytest.mark.parametrize(("size", "width"), [(9, 40.0), (10, 400.0)])
def test_cells_too_small_and_boards_too_large_are_refused(size, width):
    with pytest.raises(NoRoomForHelpers):
        draw_board(latin(size), board_style("classroom"), width, helpers=True)


def test_helper_digits_keep_clear_of_a_cages_line_and_label():
    puzzle = puzzle_from_text(BY_NAME["cage"].example)
    look = board_style("classroom")
    plain, helped = (draw_board(puzzle, look, 90, helpers=each).items for each in (False, True))
    labels = [item for item in plain if isinstance(item, Text)]
    small = [item for item in helped if isinstance(item, Text) and item not in labels]
    side = 90 / 6
    cage = look.marks.cages["cage"]
    for text in small:
        left, top, right, bottom = ink_box(text)
        assert left % side > cage.inset * side
        assert right % side < side - cage.inset * side + 0.5
        for label in map(ink_box, labels):
            apart = right < label[0] or left > label[2] or bottom < label[1] or top > label[3]
            assert apart


def test_helper_digits_have_no_room_beside_discs_on_edges():
    puzzle = puzzle_from_text(BY_NAME["dots"].example)
    with pytest.raises(NoRoomForHelpers, match="discs"):
        draw_board(puzzle, board_style("classroom"), 150, helpers=True)
