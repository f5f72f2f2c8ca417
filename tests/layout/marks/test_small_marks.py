"""Tints, signs and rays; and the table of drawers."""

from math import dist
from typing import get_args

import pytest

from layout.marks import ray, sign, tint
from layout.marks.drawers import DRAWERS, NoLook, draw_marks, lined_cells, tell_marks
from layout.picture.items import Fill, Stroke
from layout.picture.order import Layer
from tests.support.drawn import NINE, STYLES, board_style, cell, cells, lattice, points, trail
from verify.board import Board
from verify.marks import Border, Cage, Mark, Ray, Sign, Tint, Trail
from verify.rules import RULES

PLACE = lattice(side=10.0)


def marks_look(style="paperback"):
    return board_style(style).marks


@pytest.mark.parametrize("style", STYLES)
def test_even_is_a_square_and_odd_a_disc_inside_the_cell(style):
    x, y = PLACE.centre(cell("r2c3"))
    for mark in (Tint("even", cell("r2c3"), "square"), Tint("odd", cell("r2c3"), "disc")):
        look = marks_look(style).tints[mark.role]
        items = [item for _, item in tint.draw(mark, look, PLACE)]
        assert isinstance(items[0], Fill)
        edge = look.edge.at(PLACE.side)
        around = [max(abs(px - x), abs(py - y)) for px, py in points(items[0].path)]
        assert max(around) + edge / 2 == pytest.approx(look.size * PLACE.side / 2)
        assert max(around) + edge / 2 < PLACE.side / 2
    discs = [dist(p, (x, y)) for p in points(items[0].path)]
    assert max(discs) == pytest.approx(min(discs))


@pytest.mark.parametrize(
    ("larger", "smaller"), [("r5c5", "r5c6"), ("r5c6", "r5c5"), ("r5c5", "r6c5"), ("r6c5", "r5c5")]
)
def test_a_sign_sits_on_the_edge_and_opens_towards_the_larger(larger, smaller):
    mark = Sign("greater", (cell(larger), cell(smaller)), "greater")
    ground, chevron = (item for _, item in sign.draw(mark, marks_look().signs["greater"], PLACE))
    (x1, y1), (x2, y2) = PLACE.centre(cell(larger)), PLACE.centre(cell(smaller))
    middle = (x1 + x2) / 2, (y1 + y2) / 2
    one, tip, other = points(chevron.path)
    opening = (one[0] + other[0]) / 2, (one[1] + other[1]) / 2
    assert ((opening[0] + tip[0]) / 2, (opening[1] + tip[1]) / 2) == pytest.approx(middle)
    assert dist(tip, (x2, y2)) < dist(opening, (x2, y2))
    xs, ys = zip(*points(ground.path), strict=True)
    reach = chevron.width / 2
    assert ground.grey == 1.0
    for x, y in (one, tip, other):
        assert min(xs) < x - reach * 0.7 or x + reach * 0.7 < max(xs)
        assert min(xs) <= x <= max(xs)
        assert min(ys) <= y <= max(ys)


def test_a_diagonal_runs_from_corner_to_corner():
    mark = Ray("diagonal", tuple(range(0, 81, 10)))
    ((_, line),) = ray.draw(mark, marks_look().rays["diagonal"], PLACE)
    start, end = points(line.path)
    assert start == pytest.approx(PLACE.corner(0, 0))
    assert end == pytest.approx(PLACE.corner(9, 9))


def test_a_straight_ray_runs_from_edge_to_edge():
    ((_, line),) = ray.draw(
        Ray("diagonal", cells("r2c1 r2c2 r2c3")), marks_look().rays["diagonal"], PLACE
    )
    (x1, y1), (x2, y2) = points(line.path)
    assert y1 == y2
    assert (x1, x2) == pytest.approx((PLACE.left, PLACE.left + 30))


def test_every_kind_of_mark_has_a_drawer_but_borders_which_are_the_grid_s():
    assert set(DRAWERS) == set(get_args(Mark)) - {Border}


@pytest.mark.parametrize("style", STYLES)
def test_every_shipped_style_says_how_every_rule_s_marks_look(style):
    from verify.manifest.read import puzzle_from_text

    for rule in RULES:
        for mark in puzzle_from_text(rule.example).marks():
            assert marks_look(style).knows(mark), (rule.name, mark.role)


def test_a_role_that_the_style_leaves_out_is_told():
    marks = [Tint("prime", 0, "disc")]
    assert not marks_look().knows(marks[0])
    with pytest.raises(NoLook, match='nothing of "prime"'):
        list(draw_marks(marks, marks_look(), PLACE))


def test_no_drawer_s_layers_reach_the_digits():
    marks: list[Mark] = [
        Trail("thermometer", (trail("r1c1 e"),), start="bulb"),
        Trail("arrow", (trail("r2c2 e"),), end="arrowhead", ring=cells("r2c2")),
        Cage("cage", cells("r4c4 r4c5"), "7"),
        Tint("even", 8, "square"),
        Sign("greater", (cell("r8c8"), cell("r8c9")), "greater"),
        Ray("diagonal", tuple(range(0, 81, 10))),
        Border("box", cells("r1c1 r1c2")),
    ]
    layers = {layer for layer, _ in draw_marks(marks, marks_look(), PLACE)}
    assert layers == {
        Layer.TRAIL,
        Layer.SHAFT,
        Layer.CAGE,
        Layer.LABEL,
        Layer.TINT,
        Layer.SIGN,
        Layer.RAY,
    }
    assert len(list(tell_marks(marks, NINE))) == 6


def test_lines_run_behind_the_cells_of_shafts_and_rays():
    marks: list[Mark] = [
        Trail("thermometer", (trail("r1c1 e"),), start="bulb"),
        Trail("arrow", (trail("r2c2 e e"),), end="arrowhead", ring=cells("r2c2")),
        Ray("diagonal", cells("r7c7 r8c8")),
    ]
    assert lined_cells(marks, marks_look()) == set(cells("r2c3 r2c4 r7c7 r8c8"))
    crossed = [Ray("diagonal", cells("r1c1 r2c2")), marks[1]]
    assert lined_cells(crossed, marks_look()) == set(cells("r1c1 r2c2 r2c3 r2c4"))


def test_borders_are_told_only_where_the_board_has_no_boxes():
    border = [Border("region", (0, 1, 2, 4))]
    assert list(tell_marks(border, Board(4, 4, 4, (2, 2)))) == []
    assert list(tell_marks(border, Board(4, 4, 4))) == ["region: r1c1 r1c2 r1c3 r2c1"]
    assert all(
        isinstance(item, Stroke | Fill) for _, item in draw_marks(border, marks_look(), PLACE)
    )
