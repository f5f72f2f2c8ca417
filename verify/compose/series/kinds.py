"""The kinds of puzzles that a series may have: what is laid out, and how it is written."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise
from typing import Final

from verify.compose.motifs.drawing import MOTIFS, layouts
from verify.compose.motifs.strokes import Spot, Stroke

WAYS: Final = {
    (-1, 0): "n",
    (-1, 1): "ne",
    (0, 1): "e",
    (1, 1): "se",
    (1, 0): "s",
    (1, -1): "sw",
    (0, -1): "w",
    (-1, -1): "nw",
}
"""Compass steps of a trail."""


@dataclass(frozen=True, slots=True)
class Kind:
    """A rule, and the cells that each of its marks may have; no cells where it has no marks.

    `value` is what stands behind a rule without marks; nothing for classic puzzles. `is_cage`
    where marks are groups of cells that share sides, with a sum.
    """

    rule: str = ""
    least: int = 0
    most: int = 0
    value: str = ""
    is_cage: bool = False

    @property
    def is_drawn(self) -> bool:
        """Whether there are shapes to lay out."""
        return self.most > 0

    def motifs(self, size: int) -> tuple[str, ...]:
        """The motifs of which there are layouts on a board of that size."""
        if not self.is_drawn:
            return ()
        return tuple(name for name in MOTIFS if any(True for _ in self.layouts(name, size, "")))

    def layouts(self, motif: str, size: int, seed: str) -> Iterator[tuple[Stroke, ...]]:
        """Layouts of a motif, by chance from a seed."""
        most = min(self.most, size)
        if most < self.least:
            return iter(())
        return layouts(motif, size, self.least, most, seed, slants=not self.is_cage)


KINDS: Final[Mapping[str, Kind]] = {
    "classic": Kind(),
    "diagonals": Kind("diagonals", value="both"),
    "windows": Kind("windows", value="true"),
    "disjoint-groups": Kind("disjoint-groups", value="true"),
    "anti-king": Kind("anti-king", value="true"),
    "anti-knight": Kind("anti-knight", value="true"),
    "non-consecutive": Kind("non-consecutive", value="true"),
    "thermometer": Kind("thermometer", 3, 7),
    "slow-thermometer": Kind("slow-thermometer", 3, 7),
    "crest": Kind("crest", 3, 7),
    "arrow": Kind("arrow", 3, 4),
    "double-arrow": Kind("double-arrow", 3, 5),
    "palindrome": Kind("palindrome", 3, 7),
    "renban": Kind("renban", 3, 6),
    "whisper": Kind("whisper", 3, 6),
    "between": Kind("between", 3, 6),
    "beyond": Kind("beyond", 3, 5),
    "parity-line": Kind("parity-line", 3, 7),
    "entropic-line": Kind("entropic-line", 3, 7),
    "modular-line": Kind("modular-line", 3, 7),
    "zipper": Kind("zipper", 3, 5),
    "cage": Kind("cage", 3, 4, is_cage=True),
}
"""By the name that a plan gives them: that of their rule."""


def rule_lines(kind: Kind, strokes: Sequence[Stroke], sums: Sequence[int] = ()) -> Iterator[str]:
    """The lines of a manifest that say the rule with its marks; cages with sums, if told."""
    if not kind.rule:
        return
    yield "rules:"
    if not kind.is_drawn:
        yield f"  {kind.rule}: {kind.value}"
        return
    yield f"  {kind.rule}:"
    for number, stroke in enumerate(strokes):
        if kind.is_cage:
            total = f", sum: {sums[number]}" if sums else ""
            yield f"    - {{cells: {trail(stroke)}{total}}}"
        else:
            yield f"    - {trail(stroke)}"


def trail(stroke: Stroke) -> str:
    """A stroke as a trail: `r1c1 2e s`."""
    steps = [WAYS[b[0] - a[0], b[1] - a[1]] for a, b in pairwise(stroke)]
    runs = ((way, len(list(run))) for way, run in groupby(steps))
    words = (way if length == 1 else f"{length}{way}" for way, length in runs)
    return " ".join([_name(stroke[0]), *words])


def _name(spot: Spot) -> str:
    return f"r{spot[0] + 1}c{spot[1] + 1}"
