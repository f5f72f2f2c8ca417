"""What strikes while something is supposed: marks of rules, and lists of ways to fill cells."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace

from verify.board import Cell
from verify.pencil import Pencil, Strike
from verify.walk.facts.cells import Cells, set_of
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import House, Link
from verify.walk.ways.listed import Listed


@dataclass(frozen=True, slots=True)
class Striker:
    """Strikes candidates from its cells; `within` is the set of them.

    `links` and `houses` are the reasons for what it strikes, beside the marks of its cells; those
    of a list all count, as it was made from them.
    """

    cells: tuple[Cell, ...]
    within: Cells
    links: tuple[Link, ...]
    houses: tuple[House, ...]
    strikes: Callable[[Pencil], Iterable[Strike]]
    is_list: bool = False


def strikers_of_marks(notes: Notes) -> dict[Link, Striker]:
    """The marks of rules.

    Those of a single cell are left out: they have said all at the start.
    """
    return {
        link: _striker(link.constraint.cells, (link,), (), link.constraint.strikes)
        for link in notes.links
        if len(set(link.constraint.cells)) > 1
    }


def strikers_of_lists(lists: Sequence[Listed]) -> tuple[Striker, ...]:
    """Lists as they are made."""
    return tuple(
        replace(_striker(each.cells, each.links, each.houses, each.strikes), is_list=True)
        for each in lists
    )


def _striker(
    cells: Iterable[Cell],
    links: tuple[Link, ...],
    houses: tuple[House, ...],
    strikes: Callable[[Pencil], Iterable[Strike]],
) -> Striker:
    own = tuple(sorted(set(cells)))
    return Striker(own, set_of(own), links, houses, strikes)
