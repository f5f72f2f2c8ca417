"""Lines through cells: what the rules whose marks are paths have in common."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Final, Literal

from verify.board import Board, Cell
from verify.marks import Mark, Trail
from verify.pencil import Mask, Pencil, Strike
from verify.reading.grammar import Cells, Placed, Several
from verify.reading.reader import Reader
from verify.rule import Constraint

_COUNTS: Final = {1: "one cell", 2: "two cells", 3: "three cells"}


def fitting(
    paths: Several[Cells], reader: Reader, least: int = 2, most: int | None = None
) -> Iterator[Placed[Cells]]:
    """The paths of `least` cells or more; a problem for each of the others.

    `most` is set where no more cells than that, the number of digits, can keep the rule.
    """
    for path in paths.value:
        found = f"a path of {count_of(len(path.value))}"
        if len(path.value) < least:
            reader.problems.expected(path.place, found, f"{count_of(least)} or more")
        elif most is not None and len(path.value) > most:
            expected = f"at most {most}, as many as there are digits"
            reader.problems.expected(path.place, found, expected)
        else:
            yield path


def fitting_cells(
    paths: Several[Cells], reader: Reader, least: int = 2, most: int | None = None
) -> list[Cells]:
    """The cells of the same paths, without their places."""
    return [path.value for path in fitting(paths, reader, least, most)]


def trails(
    role: str,
    board: Board,
    lines: Sequence[Constraint],
    *,
    ends: Literal["plain", "circle"] = "plain",
) -> tuple[Mark, ...]:
    """A trail for each line; with `ends` circles, from disc to disc."""
    return tuple(Trail(role, (line.cells,), start=ends, end=ends) for line in lines)


def count_of(cells: int) -> str:
    """How many cells, for a sentence to an editor."""
    return _COUNTS.get(cells, f"{cells} cells")


def unkept(kept: Mapping[Cell, Mask], pencil: Pencil) -> Iterator[Strike]:
    """Strikes all candidates but those kept; the reason is all of these cells together."""
    because = tuple(kept)
    for cell, mask in kept.items():
        struck = pencil[cell] & ~mask
        if struck:
            yield Strike(((cell, struck),), because)
