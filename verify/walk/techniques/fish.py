"""Fish: in so many parallel lines a digit keeps to so many lines across."""

from collections.abc import Callable, Iterator
from itertools import chain, combinations
from typing import Final, TypeAlias

from verify.pencil import bit, digits_of, is_single
from verify.walk.facts.cells import Cells, cells_of
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Because, House, Step, Technique

Finder: TypeAlias = Callable[[Notes], Iterator[Step]]

Lines: TypeAlias = tuple[tuple[House, Cells], ...]
"""Parallel lines, each with the set of its cells."""

MOST_LINES: Final = 12
"""Lines in question past which nobody looks for the larger fish by eye."""

NAMES: Final = {
    2: Technique.TWO_LINE_FISH,
    3: Technique.THREE_LINE_FISH,
    4: Technique.FOUR_LINE_FISH,
}


def fish(size: int) -> Finder:
    """A digit that has, in `size` rows, cells in `size` columns alone; or the other way round."""

    def find(notes: Notes) -> Iterator[Step]:
        rows = tuple(each for each in notes.full_sets if each[0].kind == "row")
        columns = tuple(each for each in notes.full_sets if each[0].kind == "column")
        for digit in range(1, notes.digits + 1):
            upright = _of_digit(notes, digit, rows, columns, size)
            turned = _of_digit(notes, digit, columns, rows, size)
            steps = chain(upright, turned)
            yield from notes.if_changed(("fish", size, digit), notes.where[digit], steps)

    return find


def _of_digit(notes: Notes, digit: int, lines: Lines, across: Lines, size: int) -> Iterator[Step]:
    """The fish of one digit with its cells in some of `lines`."""
    few: list[tuple[House, Cells, int]] = []
    where = notes.where[digit]
    for line, within in lines:
        spots = where & within
        if not spots or is_single(spots):
            continue
        crossed = 0
        for index, (_, cells) in enumerate(across):
            if cells & spots:
                crossed |= 1 << index
        # Each cell must lie on a line across: boards of several grids have some that don't.
        if crossed.bit_count() <= size:
            few.append((line, spots, crossed))
    if size > 2 and len(few) > MOST_LINES:
        return
    for chosen in combinations(few, size):
        crossed = chosen[0][2]
        cells = chosen[0][1]
        overlap = False
        for _, spots, also in chosen[1:]:
            crossed |= also
            overlap = overlap or bool(cells & spots)
            cells |= spots
        if crossed.bit_count() != size or overlap:
            continue
        covers = tuple(across[index][0] for index in digits_of(crossed))
        yield from _strike(notes, digit, tuple(line for line, _, _ in chosen), covers, cells)


def _strike(
    notes: Notes, digit: int, lines: tuple[House, ...], covers: tuple[House, ...], cells: Cells
) -> Iterator[Step]:
    """What a fish strikes: the rest of the lines across."""
    covered = 0
    for cover in covers:
        covered |= notes.sets[cover]
    struck = covered & ~cells & notes.where[digit]
    if cells & ~covered or not struck:
        return
    where = tuple(cell for line in lines for cell in line.cells)
    because = Because(tuple(sorted(where)), bit(digit), (*lines, *covers))
    removes = tuple((cell, bit(digit)) for cell in cells_of(struck))
    yield Step(NAMES[len(lines)], because, removes=removes)
