"""What the shipped styles promise: contrast, what newsprint holds, what large print asks."""

from itertools import product
from typing import Any

import pytest

from layout.board.board import draw_board
from layout.board.step import draw_step
from layout.picture.items import Stroke, Text
from tests.support.drawn import POINT, STYLES, board_style, filled, full_puzzle, plain_puzzle
from tests.support.drawn_marks import EVERY_MARK, with_marks
from verify.walk.facts.step import Consequence, DeadEnd, House
from verify.walk.report.replay import Scene


def luminance(ink):
    """Relative luminance of a grey (WCAG 2.2), the grey taken as sRGB 1 - ink."""
    c = 1 - ink
    return c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4


def contrast(one, other):
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def behind_digits(look):
    yield from (trail.ink for trail in look.marks.trails.values() if trail.broad)
    yield from (trail.circle_ink for trail in look.marks.trails.values())
    yield from (area.ink for area in look.marks.areas.values())
    # Heads at the edges are no ground: no tint under a digit is solid.
    yield from (tint.ink for tint in look.marks.tints.values() if tint.ink < 1)


def test_the_formula_gives_the_known_ratios():
    # WCAG 2.2: black on white is 21; #949494 and #767676 are the lightest greys for 3 and 4.5.
    assert contrast(0, 1) == pytest.approx(21)
    assert contrast(0, 1 - 0x94 / 255) == pytest.approx(3.03, abs=0.01)
    assert contrast(0, 1 - 0x76 / 255) == pytest.approx(4.54, abs=0.01)


@pytest.mark.parametrize("style", STYLES)
def test_black_digits_on_every_shape_reach_the_enhanced_contrast(style):
    """WCAG 2.2, 1.4.6: 7 to 1."""
    for ink in behind_digits(board_style(style)):
        assert contrast(1, ink) >= 7


@pytest.mark.parametrize("style", STYLES)
def test_every_shape_has_a_line_that_stands_out_from_the_paper(style):
    """WCAG 2.2, 1.4.11: 3 to 1 for what must be seen to understand a graphic."""
    marks = board_style(style).marks
    looks: list[Any] = [*marks.trails.values(), *marks.areas.values(), *marks.tints.values()]
    for look in looks:
        assert max(contrast(0, look.ink), contrast(0, look.edge_ink)) >= 3
        assert look.edge.of_cell or look.ink > 0.5
    lines: list[Any] = [*marks.rays.values(), *marks.cages.values()]
    for look in lines:
        assert contrast(0, look.ink) >= 3


def busy_puzzle():
    """A board with a mark of each role."""
    return with_marks(full_puzzle(), EVERY_MARK)


def strokes(style, width, answer=None):
    puzzle = busy_puzzle()
    items = draw_board(puzzle, board_style(style), width, answer=answer).items
    return [item for item in items if isinstance(item, Stroke) and item.grey < 1]


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("width", [20, 40, 100, 300])
def test_no_line_is_thinner_than_a_book_printer_holds(style, width):
    """At least 0.25 pt (a print-on-demand printer's guidelines)."""
    assert min(stroke.width for stroke in strokes(style, width)) >= 0.25 * POINT - 1e-9


@pytest.mark.parametrize("width", [20, 40, 52, 108, 180])
@pytest.mark.parametrize("with_answer", [False, True])
def test_newsprint_lines_are_half_a_point_or_more(width, with_answer):
    """Newspaper specifications ask for 0.5 pt in one ink."""
    answer = filled(full_puzzle()) if with_answer else None
    for stroke in strokes("newsprint", width, answer):
        assert stroke.width >= 0.5 * POINT - 1e-9


@pytest.mark.parametrize("with_answer", [False, True])
def test_newsprint_lines_are_black(with_answer):
    """A screen would break up a thin grey line."""
    answer = filled(full_puzzle()) if with_answer else None
    assert {stroke.grey for stroke in strokes("newsprint", 52, answer) if thin(stroke)} == {0}


def thin(stroke):
    """Whether the stroke is a line rather than a ground."""
    return stroke.width < 0.6


@pytest.mark.parametrize("with_answer", [False, True])
def test_newsprint_has_no_tint_that_drops_out_or_fills_in(with_answer):
    """SNAP: under 5 % drops out, over 80 % fills in, 25 % gain; so 10 to 50 % and solid black."""
    puzzle = busy_puzzle()
    answer = filled(puzzle) if with_answer else None
    items = draw_board(puzzle, board_style("newsprint"), 52, answer=answer).items
    inks = {round(1 - item.grey, 6) for item in items}
    assert all(ink in (0, 1) or 0.1 <= ink <= 0.5 for ink in inks)
    assert {item.grey for item in items if isinstance(item, Text)} == {0.0}


@pytest.mark.parametrize("cell", [16.5, 17, 20, 30])
@pytest.mark.parametrize("with_answer", [False, True])
def test_large_print_letters_are_eighteen_points_or_more(cell, with_answer):
    """Ideal size for large print: 18 pt (UKAAF G003; APH guidelines)."""
    puzzle = full_puzzle()
    answer = filled(puzzle) if with_answer else None
    picture = draw_board(puzzle, board_style("large-print"), cell * 9.1, answer=answer)
    sizes = [item.size / POINT for item in picture.items if isinstance(item, Text)]
    assert min(sizes) >= 18


def test_large_print_keeps_to_a_face_made_for_low_vision():
    look = board_style("large-print")
    names = [look.digits.given, look.digits.filled, look.marks.cages["cage"].label]
    assert all(name.startswith("Atkinson Hyperlegible") for name in names)
    assert not any("Italic" in name for name in names)


@pytest.mark.parametrize("style", STYLES)
def test_givens_are_the_heavier(style):
    weights = ["Light", "Regular", "Medium", "SemiBold", "Bold"]
    look = board_style(style).digits
    given, filled_in = (weights.index(name.split()[-1]) for name in (look.given, look.filled))
    assert given >= filled_in + 2 or (given, filled_in) == (4, 1)


def scenes():
    """A step of each kind on a board with every mark."""
    pencil, open_board = (0b1111111110,) * 81, (0,) * 81
    end = DeadEnd(house=House("row", tuple(range(72, 81)), True))
    chain = tuple(Consequence(cell, 5) for cell in (40, 44, 53))
    yield Scene(
        pencil,
        open_board,
        struck=((3, 0b1110),),
        grounds=(3, 4, 12),
        counting=((3, 0b1110), (4, 0b10)),
    )
    yield Scene(
        pencil, open_board, pushing=(3, 4), told=((4, 0b111100), (5, 0b11001100)), concluded=(5,)
    )
    yield Scene(pencil, open_board, placed=((0, 1), (60, 9)))
    yield Scene(pencil, open_board, grounds=(40, 44), chain=chain, dead_end=end)
    yield Scene(pencil, open_board, chain=chain, dead_end=DeadEnd(cell=53, digit=5))


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("width", [30, 50, 110])
def test_steps_hold_what_their_sheet_promises_of_lines_and_tints(style, width):
    """The bounds of the tests above: 0.25 pt, and for newsprint 0.5 pt, 10 to 50 % and black."""
    puzzle = with_marks(plain_puzzle(9), EVERY_MARK)
    least = 0.5 if style == "newsprint" else 0.25
    for scene, every_mark in product(scenes(), (False, True)):
        items = draw_step(puzzle, board_style(style), width, scene, every_mark=every_mark).items
        for item in items:
            ink = round(1 - item.grey, 6)
            if isinstance(item, Stroke) and ink:
                assert item.width >= least * POINT - 1e-9
            if style == "newsprint":
                assert ink in (0, 1) or 0.1 <= ink <= 0.5
            if isinstance(item, Text):
                assert ink == 1


@pytest.mark.parametrize("style", STYLES)
def test_black_marks_on_the_ground_of_reasons_reach_the_enhanced_contrast(style):
    look = board_style(style).steps
    assert contrast(1, look.reason) >= 7
    assert look.edge.of_cell
