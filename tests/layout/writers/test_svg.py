"""SVG files: parsed, measured, and readable without eyes."""

from xml.etree import ElementTree

import pytest

from layout.board.board import draw_board
from layout.picture.items import Anchor, Fill, Group, Link, Picture, Stroke, Text
from layout.picture.shapes import disc, polyline, rectangle
from layout.type.fonts import font
from layout.writers.svg import svg_of_picture
from tests.support.drawn import HREF, SVG, board_style, full_puzzle, glyphs, path_bounds, svg_of


def text(words, x=10.0, y=20.0, name="Spectral Regular", size=4.0, grey=0.0):
    return Text(x, y, words, name, size, font(name).advances(words), grey)


def drawn(*items, title="Low & <Slack>", description="A sluice."):
    return svg_of(svg_of_picture(Picture(90, 60, items, title, description)))


def test_one_unit_is_a_millimetre():
    root = drawn()
    assert (root.get("width"), root.get("height")) == ("90mm", "60mm")
    assert root.get("viewBox") == "0 0 90 60"


def test_title_and_description_come_first_and_label_the_picture():
    """SVG 2, Document Structure: title and desc; WAI-ARIA: role img."""
    root = drawn()
    title, desc = list(root)[:2]
    assert (title.tag, title.text) == (f"{SVG}title", "Low & <Slack>")
    assert (desc.tag, desc.text) == (f"{SVG}desc", "A sluice.")
    assert root.get("role") == "img"
    assert root.get("aria-labelledby").split() == [title.get("id"), desc.get("id")]


def test_neither_is_ever_empty():
    title, desc = list(drawn(title="", description=""))[:2]
    assert title.text
    assert desc.text


def test_no_font_is_needed():
    data = svg_of_picture(draw_board(full_puzzle(), board_style(), 80))
    assert b"<text" not in data
    assert b"font-family" not in data


def test_a_glyph_is_defined_once_and_used_where_it_stands():
    root = drawn(text("aba"), text("b", x=50))
    assert len(root.find(f"{SVG}defs")) == 2
    boxes = list(glyphs(root))
    assert len(boxes) == 4
    face = font("Spectral Regular")
    for box, (char, x) in zip(
        boxes, (("a", 10), ("b", 10 + 4 * face.advances("aba")[0])), strict=False
    ):
        left, bottom, right, top = face.bounds(char)
        assert box == pytest.approx(
            (x + left * 4, 20 - top * 4, x + right * 4, 20 - bottom * 4), abs=0.01
        )


def test_a_space_has_no_outline():
    assert len(list(glyphs(drawn(text("a b"))))) == 2


def test_strokes_fills_and_greys():
    root = drawn(
        Stroke((polyline([(1, 2), (3, 4)]),), 0.5, 0.5, "round", "round", (1, 0.5)),
        Fill((disc((10, 10), 2), rectangle(20, 20, 4, 5)), 0.8),
    )
    stroke, fill = root.findall(f"{SVG}path")
    assert stroke.get("d") == "M1 2L3 4"
    assert stroke.get("stroke") == "#808080"
    assert stroke.get("stroke-width") == "0.5"
    assert stroke.get("stroke-linecap") == stroke.get("stroke-linejoin") == "round"
    assert stroke.get("stroke-dasharray") == "1 0.5"
    assert stroke.get("fill") == "none"
    assert fill.get("fill") == "#cccccc"
    assert path_bounds(fill.get("d")) == pytest.approx((8, 8, 24, 25), abs=0.001)


def test_a_group_moves_its_items_and_tells_its_name():
    root = drawn(Group(5, 7, (Fill((rectangle(0, 0, 1, 1),)),), "Puzzle 3"))
    group = root.find(f"{SVG}g")
    assert group.get("transform") == "translate(5 7)"
    assert group.find(f"{SVG}title").text == "Puzzle 3"


def test_links_and_anchors_are_a_document_s_alone():
    assert len(list(drawn(Link(0, 0, 1, 1, "x"), Anchor("x", 0)))) == len(list(drawn()))


def test_two_pictures_in_one_page_share_no_id():
    def ids(title):
        root = drawn(text("1"), title=title)
        return {element.get("id") for element in root.iter() if element.get("id")}

    assert len(ids("Low")) == 3
    assert not ids("Low") & ids("High")


def test_every_use_has_its_definition():
    root = svg_of(svg_of_picture(draw_board(full_puzzle(), board_style(), 80)))
    defined = {f"#{element.get('id')}" for element in root.iter() if element.get("id")}
    assert {use.get(HREF) for use in root.iter(f"{SVG}use")} <= defined


def test_the_same_picture_gives_the_same_bytes():
    picture = draw_board(full_puzzle(), board_style(), 80)
    assert svg_of_picture(picture) == svg_of_picture(picture)
    ElementTree.fromstring(svg_of_picture(picture))
