"""Where a picture stands on the page that opens a part, and how large it is."""

from typing import Final, Literal

from layout.pages.common.book import Illustration
from layout.pages.common.design import Design
from layout.pages.common.misfit import Misfit, Misfits
from layout.picture.items import Group

BESIDE_WORDS: Final = 0.42
"""The most of the page's depth that a picture takes of itself where words follow it."""

LEAST: Final = 15.0
"""Millimetres of depth under which a picture has no room."""


def illustrate(
    picture: Illustration, top: float, design: Design, *, alone: bool
) -> tuple[Group, float]:
    """A picture at the left of the text area from `top` on, and how high it is.

    It is as wide as the area where its height allows that; `alone` it may reach to the foot of the
    page. Raises Misfits for one that has no room.
    """
    free = design.depth - top
    usual = free if alone else min(free, BESIDE_WORDS * design.depth)
    artwork = picture.artwork
    width = picture.width or min(design.measure, usual * artwork.width / artwork.height)
    height = artwork.height_at(width)
    if usual < LEAST or width > design.measure + 1e-6 or height > free + 1e-6:
        raise Misfits([Misfit(_no_room(width, height, free, design), picture.path)])
    role: Literal["", "furniture"] = "" if picture.words else "furniture"
    return Group(0.0, top, artwork.as_wide(width), title=picture.words, role=role), height


def _no_room(width: float, height: float, free: float, design: Design) -> str:
    found = f"a picture of {width:.0f} x {height:.0f} mm"
    return f"found {found}, expected at most {design.measure:.0f} x {max(free, 0):.0f} mm"
