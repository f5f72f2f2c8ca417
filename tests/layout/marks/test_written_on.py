"""A solver writes in the middle of a cell: what is printed there must let a pencil be seen.

Looked for on the printed page, where a dark disc as wide as a fine pencil's stroke has room.
"""

from functools import cache

import numpy as np
import pypdfium2
import pytest

from layout.board.board import draw_board, lay_out
from layout.writers.pdf import pdf_of_picture
from tests.support.drawn import STYLES, board_style
from tests.support.drawn_marks import LINE_ROLES, line_of, nine, with_marks

DOTS = 20
"""Dots a millimetre."""

STROKE = {"large-print": 0.5}
"""How wide a pencil writes, in millimetres, where not 0.3: the finest lead and a usual one in
ISO 9175-1, by memory; large print is written with a thicker pen (common practice, no source)."""

MOST_INK = 0.3
MIDDLE = 0.12
"""How far around the middle is looked, of a cell's side: within the edges of broad shapes."""

CROSSED = 1.42
"""Where two strokes cross, a disc has room that is wider than either: by the root of two."""


@cache
def printed(role, style, side):
    """Darkness from 0 to 1 around the middle of each cell on a line."""
    puzzle = with_marks(nine(full=False), [line_of(role)])
    look = board_style(style)
    width = side / lay_out(puzzle, look, 100).side * 100
    place = lay_out(puzzle, look, width)
    page = pypdfium2.PdfDocument(pdf_of_picture(draw_board(puzzle, look, width)))[0]
    image = page.render(scale=DOTS * 25.4 / 72, grayscale=True).to_numpy()
    half = round(MIDDLE * side * DOTS)
    middles = []
    for each in line_of(role).branches[0]:
        x, y = (round(at * DOTS) for at in place.centre(each))
        middles.append(1 - image[y - half : y + half, x - half : x + half] / 255)
    return middles


def room_for_disc(dark, diameter):
    """Whether a disc so wide, in dots, lies on dark dots alone."""
    reach = diameter // 2
    around = range(-reach, reach + 1)
    fits = np.ones_like(dark)
    for down in around:
        for right in around:
            if down * down + right * right <= reach * reach:
                fits &= np.roll(dark, (down, right), (0, 1))
    return bool(fits[reach:-reach, reach:-reach].any())


@pytest.mark.parametrize("side", [8.0, 20.0])
@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("role", LINE_ROLES)
def test_no_line_through_a_middle_is_darker_than_a_pencil_shows_on(role, style, side):
    # A dot on either side is half covered.
    stroke = round(STROKE.get(style, 0.3) * CROSSED * DOTS) + 3
    for middle in printed(role, style, side):
        assert not room_for_disc(middle > MOST_INK + 0.03, stroke)


def test_a_stroke_is_found_where_it_is_too_broad():
    dark = np.zeros((40, 40), dtype=bool)
    dark[18:24, :] = True
    assert room_for_disc(dark, 5)
    assert not room_for_disc(dark, 9)
