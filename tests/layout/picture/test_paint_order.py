"""What is painted over what."""

from layout.picture.items import Anchor
from layout.picture.order import SHAPES, Layer, in_order

BOTTOM_UP = [
    "AREA",
    "AREA_EDGE",
    "TINT",
    "TRAIL",
    "RAY",
    "SHAFT",
    "HALO",
    "GRID",
    "CAGE",
    "FRAME",
    "SIGN",
    "LABEL",
    "CLUE",
    "PENCIL",
    "DIGIT",
    "STRIKE",
]


def test_the_layers_from_the_bottom_up():
    assert [layer.name for layer in sorted(Layer)] == BOTTOM_UP


def test_items_come_out_by_layer_and_keep_their_order_within_one():
    names = [(Layer.DIGIT, "d"), (Layer.TINT, "t1"), (Layer.GRID, "g"), (Layer.TINT, "t2")]
    ordered = in_order((layer, Anchor(name, 0)) for layer, name in names)
    assert [item.name for item in ordered] == ["t1", "t2", "g", "d"]


def test_shapes_all_lie_under_the_grid():
    assert all(layer < Layer.GRID for layer in SHAPES)
