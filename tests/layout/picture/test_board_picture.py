"""Boards as pictures, read back from the finished SVG and PDF."""

import pypdfium2
import pytest

from layout.board.board import draw_board, lay_out
from layout.picture.items import Stroke, Text
from layout.type.fonts import font
from layout.writers.pdf import pdf_of_picture
from layout.writers.svg import svg_of_picture
from tests.support.drawn import (
    POINT,
    STYLES,
    board_style,
    cells,
    filled,
    full_puzzle,
    glyphs,
    painted_bounds,
    plain_puzzle,
    svg_of,
)

WIDTHS = (40, 100, 180)
EVERY_DIGIT = "\n".join(" ".join("123456789"[row:] + "123456789"[:row]) for row in range(9))
LONG_SYMBOLS = "symbols: [1, 2, 3, 10]\n"
HALF_A_TENTH = 0.05


def centres(puzzle, style, width):
    place = lay_out(puzzle, style, width)
    return {cell: place.centre(cell) for cell in puzzle.board.cells}


def nearest(point, centred):
    return min(centred, key=lambda c: abs(c[0] - point[0]) + abs(c[1] - point[1]))


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("width", WIDTHS)
def test_the_ink_of_each_digit_is_centred_in_its_cell_in_svg(style, width):
    puzzle, look = plain_puzzle(9, EVERY_DIGIT), board_style(style)
    root = svg_of(svg_of_picture(draw_board(puzzle, look, width)))
    boxes = list(glyphs(root))
    assert len(boxes) == 81
    for box, centre in zip(boxes, centres(puzzle, look, width).values(), strict=True):
        assert (box[0] + box[2]) / 2 == pytest.approx(centre[0], abs=HALF_A_TENTH)
        assert (box[1] + box[3]) / 2 == pytest.approx(centre[1], abs=HALF_A_TENTH)


@pytest.mark.parametrize("style", STYLES)
def test_the_ink_of_each_digit_is_centred_in_its_cell_in_pdf(style):
    puzzle, look = plain_puzzle(9, EVERY_DIGIT), board_style(style)
    picture = draw_board(puzzle, look, 100)
    page = pypdfium2.PdfDocument(pdf_of_picture(picture))[0]
    text = page.get_textpage()
    found = {}
    for index in range(text.count_chars()):
        char = text.get_text_range(index, 1)
        if char.strip():
            left, bottom, right, top = (value * POINT for value in text.get_charbox(index))
            found[(left + right) / 2, picture.height - (bottom + top) / 2] = char
    assert len(found) == 81
    for cell, centre in centres(puzzle, look, 100).items():
        at = nearest(centre, found)
        assert at == pytest.approx(centre, abs=HALF_A_TENTH)
        assert found[at] == str(puzzle.givens[cell])


def test_a_symbol_of_two_characters_is_one_centred_thing_within_its_cell():
    puzzle, look = (
        plain_puzzle(4, "10 . . 3\n. 2 10 .\n. 3 . .\n1 . . .", more=LONG_SYMBOLS),
        board_style(),
    )
    picture = draw_board(puzzle, look, 60)
    place = lay_out(puzzle, look, 60)
    boxes = list(glyphs(svg_of(svg_of_picture(picture))))
    one, zero = boxes[:2]
    x, y = place.centre(0)
    assert (one[0] + zero[2]) / 2 == pytest.approx(x, abs=HALF_A_TENTH)
    assert zero[2] - one[0] <= look.digits.widest * place.side + 1e-3
    assert min(one[1], zero[1]) < y < max(one[3], zero[3])


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("with_answer", [False, True])
def test_everything_lies_within_the_picture(style, width, with_answer):
    puzzle = full_puzzle()
    answer = filled(puzzle) if with_answer else None
    picture = draw_board(puzzle, board_style(style), width, answer=answer)
    root = svg_of(svg_of_picture(picture))
    boxes = [*painted_bounds(root), *glyphs(root)]
    assert len(boxes) > 60
    for left, top, right, bottom in boxes:
        assert min(left, top) >= -1e-3
        assert right <= picture.width + 1e-3
        assert bottom <= picture.height + 1e-3


@pytest.mark.parametrize("width", [20, 40, 92.7, 180])
@pytest.mark.parametrize("size", [4, 6, 9, 16, 25])
def test_the_frame_s_outer_edge_is_the_picture_s_edge(size, width):
    puzzle = plain_puzzle(size)
    picture = draw_board(puzzle, board_style(), width)
    *_, frame = (item for item in picture.items if isinstance(item, Stroke))
    left, top = frame.path[0].start
    right, bottom = frame.path[0].segments[1]
    half = frame.width / 2
    assert (left - half, top - half) == pytest.approx((0, 0), abs=1e-9)
    assert (right + half, bottom + half) == pytest.approx((width, width), abs=1e-9)
    assert (picture.width, picture.height) == pytest.approx((width, width))


def test_givens_and_filled_digits_are_told_apart_by_their_font_and_not_by_grey():
    puzzle, look = plain_puzzle(4, "1 . . 4\n. . 2 .\n. 3 . .\n. . . 1"), board_style()
    texts = texts_of(draw_board(puzzle, look, 60, answer=[1, 2, 3, 4] * 4))
    by_font = {name: sum(text.font == name for text in texts) for name in {t.font for t in texts}}
    assert by_font == {look.digits.given: 5, look.digits.filled: 11}
    assert {text.grey for text in texts} == {0.0}
    assert look.digits.given != look.digits.filled


def texts_of(picture):
    return [item for item in picture.items if isinstance(item, Text)]


def test_an_answer_keeps_the_shapes_light():
    puzzle, look = full_puzzle(), board_style()

    def ink(answer):
        picture = draw_board(puzzle, look, 60, answer=answer)
        return sorted({1 - item.grey for item in picture.items if not isinstance(item, Text)})

    thermometer = look.marks.trails["thermometer"].ink
    assert any(level == pytest.approx(thermometer) for level in ink(None))
    assert any(
        level == pytest.approx(thermometer * look.answer.shapes) for level in ink(filled(puzzle))
    )
    assert not any(level == pytest.approx(thermometer) for level in ink(filled(puzzle)))


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("width", [40, 60, 100, 180])
def test_no_label_touches_a_digit(style, width):
    puzzle, look = full_puzzle(), board_style(style)
    picture = draw_board(puzzle, look, width)
    place = lay_out(puzzle, look, width)
    # Labels are painted before the digits; two cages have one.
    labels, digits = texts_of(picture)[:2], texts_of(picture)[2:]
    assert [label.text for label in labels] == ["15", "9"]
    for label in labels:
        for digit in digits:
            assert apart(ink_of(label), ink_of(digit)) > 0.02 * place.side


def test_an_answer_has_no_sums_and_digits_of_full_height():
    puzzle, look = full_puzzle(), board_style("paperback")
    picture = draw_board(puzzle, look, 100, answer=filled(puzzle))
    place = lay_out(puzzle, look, 100)
    texts = texts_of(picture)
    assert len(texts) == len(puzzle.givens)
    heights = [bottom - top for _, top, _, bottom in map(ink_of, texts)]
    assert max(heights) >= look.digits.height * place.side


def ink_of(text):
    left, bottom, right, top = (value * text.size for value in font(text.font).bounds(text.text))
    return text.x + left, text.y - top, text.x + right, text.y - bottom


def apart(one, other):
    """The larger of the gaps between two boxes, level and upright."""
    return max(one[0] - other[2], other[0] - one[2], one[1] - other[3], other[1] - one[3])


def test_a_digit_that_a_line_runs_behind_has_white_around_it():
    crossed = plain_puzzle(
        4, "1 . . .\n. . 2 .\n. . . .\n. . . .", more="rules: {diagonals: falling}\n"
    )
    items = draw_board(crossed, board_style(), 60).items
    halos = [i for i, item in enumerate(items) if isinstance(item, Stroke) and item.grey == 1]
    (ray,) = (i for i, item in enumerate(items) if isinstance(item, Stroke) and 0 < item.grey < 1)
    grid = next(i for i, item in enumerate(items) if isinstance(item, Stroke) and item.grey == 0)
    assert len(halos) == 1  # r1c1; r2c3 lies off the diagonal
    assert ray < halos[0] < grid


def test_the_description_says_what_is_seen():
    picture = draw_board(full_puzzle(), board_style(), 60)
    assert picture.title == "Every Mark"
    for words in (
        "A grid of 9 rows and 9 columns in boxes of 3 by 3.",
        "Row 2: 8 in column 2, 9 in column 5.",
        "Thermometer: r2c1 r2c2 r2c3 r3c4; r2c1 r2c2 r1c3.",
        "Arrow with r8c2 r8c3 ringed: r8c3 r7c3 r6c4 r5c4.",
        "Cage 15: r4c1 r5c1 r5c2.",
        "Even: r5c5.",
        "Odd: r5c6.",
        "R1c4 > r1c5.",
        "Diagonal: r1c1 to r9c9.",
    ):
        assert words in picture.description
    assert "Row 3" not in picture.description
    assert "No givens" in draw_board(plain_puzzle(4), board_style(), 40).description


def test_black_and_white_alone_still_tells_the_shapes():
    """Every grey shape has a line around it that stays when greys drop out at one half."""
    puzzle = full_puzzle()
    for style in STYLES:
        picture = draw_board(puzzle, board_style(style), 100)
        page = pypdfium2.PdfDocument(pdf_of_picture(picture))[0]
        image = page.render(scale=12, grayscale=True).to_numpy()
        place = lay_out(puzzle, board_style(style), 100)
        scale = 12 / POINT
        for cell in cells("r9c9 r5c5 r5c6 r1c9 r6c6"):
            x, y = place.centre(cell)
            start, end = round(x * scale), round((x + 0.47 * place.side) * scale)
            assert image[round(y * scale), start:end].min() < 128, (style, cell)
