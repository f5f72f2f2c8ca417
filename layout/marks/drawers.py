"""The drawers, one a kind of mark: an explicit table.

No drawer knows which rule it draws for: it sees a mark's facts and the look of its role.
Borders are drawn with the grid, in `layout.board.grid`.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Final

from layout.marks import area, badge, cage, clue, ray, sign, tint, trail
from layout.marks.lattice import Lattice
from layout.picture.cannot import CannotDraw
from layout.picture.order import Painted
from layout.style.board import MarkLooks
from verify.board import Board, Cell
from verify.marks import Area, Badge, Border, Cage, Clue, Mark, Ray, Sign, Tint, Trail


@dataclass(frozen=True, slots=True)
class Drawer:
    """How one kind of mark is painted, told in words, and where its looks stand."""

    looks: Callable[[MarkLooks], Mapping[str, Any]]
    draw: Callable[[Any, Any, Lattice], Iterable[Painted]]
    tell: Callable[[Any, Board], str]


DRAWERS: Final[Mapping[type, Drawer]] = {
    Trail: Drawer(lambda looks: looks.trails, trail.draw, trail.tell),
    Cage: Drawer(lambda looks: looks.cages, cage.draw, cage.tell),
    Area: Drawer(lambda looks: looks.areas, area.draw, area.tell),
    Tint: Drawer(lambda looks: looks.tints, tint.draw, tint.tell),
    Sign: Drawer(lambda looks: looks.signs, sign.draw, sign.tell),
    Badge: Drawer(lambda looks: looks.badges, badge.draw, badge.tell),
    Clue: Drawer(lambda looks: looks.clues, clue.draw, clue.tell),
    Ray: Drawer(lambda looks: looks.rays, ray.draw, ray.tell),
}


class NoLook(CannotDraw):
    """A style sheet does not say how marks of some role look."""


def draw_marks(marks: Iterable[Mark], looks: MarkLooks, lattice: Lattice) -> Iterator[Painted]:
    """Everything that the marks ask for.

    Raises NoLook for a role that the style sheet leaves out.
    """
    for mark in marks:
        if isinstance(mark, Border):
            continue
        drawer = DRAWERS[type(mark)]
        look = drawer.looks(looks).get(mark.role)
        if look is None:
            raise NoLook(f'the style sheet says nothing of "{mark.role}"')
        yield from drawer.draw(mark, look, lattice)


def lined_cells(marks: Iterable[Mark], looks: MarkLooks) -> frozenset[Cell]:
    """The cells whose digits a line runs behind, which would cut a digit without a halo."""
    cells: set[Cell] = set()
    for mark in marks:
        if isinstance(mark, Ray):
            cells.update(mark.cells)
        elif isinstance(mark, Trail) and trail.is_line(mark, looks.trails[mark.role]):
            cells.update(trail.lined(mark))
    return frozenset(cells)


def tell_marks(marks: Iterable[Mark], board: Board) -> Iterator[str]:
    """Every mark in words; borders that are the board's own boxes are left out."""
    for mark in marks:
        if not isinstance(mark, Border):
            yield DRAWERS[type(mark)].tell(mark, board)
        elif board.boxes is None:
            yield f"{mark.role}: {' '.join(map(board.name, mark.cells))}"
