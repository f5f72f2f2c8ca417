"""Looks under which a part of a mark would not show: each is refused at its key.

A thermometer without its bulb, or an arrow without its head, asks another puzzle than the one
that was proved. So what the reference style sheet shows, every style sheet has to show.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields
from typing import Any, Final

from layout.style.board import MarkLooks, TrailLook, Weight
from verify.reading.node import Fields, Place
from verify.reading.problems import Problems
from verify.reading.record import key_of

SHOWN: Final[Mapping[str, tuple[tuple[str, ...], ...]]] = {
    "trails": (
        ("width",),
        ("ink", "edge"),
        ("bulb",),
        ("ring",),
        ("circle",),
        ("ring_line",),
        ("head",),
    ),
    "cages": (("line",), ("ink",), ("label_height",)),
    "areas": (("ink", "edge"), ("label_height",)),
    "tints": (("size",), ("ink", "edge")),
    "signs": (("line",), ("length",), ("spread",)),
    "badges": (("size",), ("label_height",)),
    "clues": (("label_height",), ("widest",), ("room",), ("arrow",), ("line",)),
    "rays": (("line",), ("ink",)),
}
"""By kind of mark: of each group one must not be nothing, if the reference shows any of it."""

PARTS: Final = ("bulb", "ring", "circle", "head")
"""Parts of a trail that its line must not be as wide as."""

DARKEST_GROUND: Final = 0.4
"""The most ink under a badge's label; a badge may be darker where the reference is, as it is bare.

From experience: digits are black, and stay clear of a ground no darker than this.
"""


@dataclass(frozen=True, slots=True)
class _Role:
    """A role's look, the reference's look of it, and the mapping that tells it."""

    look: Any
    reference: Any
    table: Fields
    file: str

    def place(self, *names: str) -> Place:
        """Where one of the keys stands, best one in the style sheet's own file."""
        keys = {key_of(field): field.name for field in fields(self.look)}
        found = [key.place for key, _ in self.table.entries if keys.get(key.text) in names]
        own = [place for place in found if place.file == self.file]
        return (own or found or [self.table.place])[0]


def check_looks(
    tables: Mapping[str, Fields],
    looks: MarkLooks,
    reference: MarkLooks,
    file: str,
    problems: Problems,
) -> None:
    """One problem for each look that would hide a part of its mark.

    `tables` are the style sheet's own mappings of roles by kind, unknown ones among them, which
    their reader tells of; `file` is what the style sheet is called.
    """
    for kind, table in tables.items():
        if kind not in SHOWN:
            continue  # an unknown kind of mark is told already
        known = getattr(reference, kind)
        for key, node in table.entries:
            look = getattr(looks, kind).get(key.text)
            if look is None or key.text not in known or not isinstance(node, Fields):
                continue
            role = _Role(look, known[key.text], node, file)
            for place, message in _hidden(kind, role):
                problems.add(place, f'"{key.text}": {message}')


def _hidden(kind: str, role: _Role) -> Iterator[tuple[Place, str]]:
    """What would not show, with the place of the key that hides it."""
    for names in SHOWN[kind]:
        if _shows(role.reference, names) and not _shows(role.look, names):
            told = " and ".join(f'"{_told(name)}"' for name in names)
            keys = (*names, "edge_ink") if "edge" in names else names
            yield role.place(*keys), f"with nothing for {told} a part of it does not show"
    if kind == "trails":
        yield from _hidden_in_trail(role)
    if kind == "badges":
        yield from _hidden_in_badge(role)


def _shows(look: Any, names: tuple[str, ...]) -> bool:
    return any(_is_shown(look, name) for name in names)


def _is_shown(look: Any, name: str) -> bool:
    """Whether a size or an ink is more than nothing; an edge needs ink of its own."""
    value = getattr(look, name)
    inked = name != "edge" or look.edge_ink > 0
    return inked and (value.of_cell > 0 or value.least > 0 if isinstance(value, Weight) else value)


def _hidden_in_trail(role: _Role) -> Iterator[tuple[Place, str]]:
    look: TrailLook = role.look
    for part in PARTS:
        if 0 < getattr(look, part) <= look.width.of_cell:
            message = f'the "{part}" does not show, as it is no larger than the width'
            yield role.place(part, "width"), message
    for pattern in ("dash", "dots"):
        for other in ("pen", "rungs"):
            if getattr(look, pattern) and (look.double if other == "pen" else look.rungs):
                message = f'"{pattern}" and "{other}" can\'t be combined'
                yield role.place(pattern, other), message
    if look.double and 2 * look.pen.of_cell >= look.width.of_cell:
        yield role.place("pen", "width"), 'the two lines of a "pen" so wide show as one'
    if look.dash and not look.gap:
        yield role.place("dash", "gap"), 'the "dash" does not show without a "gap"'
    if look.rungs and look.rung <= (0 if look.double else look.width.of_cell):
        message = 'the "rungs" do not show, as "rung" is no larger than the width'
        yield role.place("rung", "rungs", "width"), message


def _hidden_in_badge(role: _Role) -> Iterator[tuple[Place, str]]:
    look, reference = role.look, role.reference
    if look.ink > DARKEST_GROUND and reference.ink <= DARKEST_GROUND:
        yield role.place("ink"), f'a label does not show on more "ink" than {DARKEST_GROUND:.0%}'
    bare = _is_shown(look, "ink") or _is_shown(look, "line")
    if not bare and (_is_shown(reference, "ink") or _is_shown(reference, "line")):
        yield role.place("ink", "line"), 'with nothing for "ink" and "line" it does not show'


def _told(name: str) -> str:
    """A field's name as it stands in a style sheet."""
    return name.replace("_", "-")
