"""Where clues stand outside a board, and how much room they ask for.

Along each side lie strips: next to the board one for the clues that look along a diagonal,
since their arrows point at its corners; beyond it one for those that look straight on; and
further ones where several of these stand at the same place.
"""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import fsum
from typing import Final

from layout.style.board import ClueLook
from verify.board import COMPASS, Board, Outside
from verify.marks import Clue, Mark

SIDES: Final = ("left", "right", "top", "bottom")


@dataclass(frozen=True, slots=True)
class Stand:
    """The strip that a clue stands in: how far off the board, and how deep, in cells.

    `alone` says whether no other clue stands at the same place in the strip.
    """

    off: float
    depth: float
    alone: bool


@dataclass(frozen=True, slots=True)
class Outskirts:
    """The room outside a board, in cells: as much left as right, and as much above as below.

    `left` and `right`, `top` and `bottom` are what the clues of these sides take of it.
    """

    left: float = 0.0
    right: float = 0.0
    top: float = 0.0
    bottom: float = 0.0
    stands: tuple[tuple[Clue, Stand], ...] = ()

    @property
    def across(self) -> float:
        """The room left and right, each."""
        return max(self.left, self.right)

    @property
    def down(self) -> float:
        """The room above and below, each."""
        return max(self.top, self.bottom)

    def stand(self, clue: Clue) -> Stand:
        """Where a clue stands."""
        return next(stand for each, stand in self.stands if each == clue)


NO_OUTSKIRTS: Final = Outskirts()
"""Nothing outside."""


def outskirts(marks: Iterable[Mark], looks: Mapping[str, ClueLook], board: Board) -> Outskirts:
    """The places of all clues among the marks; those whose role has no look get none."""
    clues = [mark for mark in marks if isinstance(mark, Clue) and mark.role in looks]
    if not clues:
        return NO_OUTSKIRTS
    clues = list(dict.fromkeys(clues))
    strips = dict(zip(clues, _strips(clues), strict=True))
    depths: dict[tuple[str, int], float] = {}
    for clue, strip in strips.items():
        key = side_of(clue.outside, board), strip
        depths[key] = max(depths.get(key, 0.0), looks[clue.role].room)
    shared = Counter((clue.outside.row, clue.outside.column, strips[clue]) for clue in clues)
    stands = []
    for clue, strip in strips.items():
        side = side_of(clue.outside, board)
        off = fsum(depths.get((side, nearer), 0.0) for nearer in range(strip))
        alone = shared[clue.outside.row, clue.outside.column, strip] == 1
        stands.append((clue, Stand(off, depths[side, strip], alone)))
    left, right, top, bottom = (_room(depths, side) for side in SIDES)
    return Outskirts(left, right, top, bottom, tuple(stands))


def looks_askew(outside: Outside) -> bool:
    """Whether a clue looks along a diagonal."""
    return all(COMPASS[outside.direction])


def side_of(outside: Outside, board: Board) -> str:
    """The side of the board that a place lies at."""
    if 0 <= outside.column < board.columns:
        return "top" if outside.row < 0 else "bottom"
    return "left" if outside.column < 0 else "right"


def _strips(clues: Iterable[Clue]) -> list[int]:
    """The number of each clue's strip, from the board outwards: diagonal ones share the first."""
    before: Counter[tuple[int, int]] = Counter()
    strips = []
    for clue in clues:
        place = clue.outside.row, clue.outside.column
        if looks_askew(clue.outside):
            strips.append(0)
            continue
        before[place] += 1
        strips.append(before[place])
    return strips


def _room(depths: Mapping[tuple[str, int], float], side: str) -> float:
    """What the strips of a side take."""
    return fsum(depth for (each, _), depth in depths.items() if each == side)
