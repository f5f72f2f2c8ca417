"""The order of a whole board within one house: how much must still fit above or below a cell.

Whatever shapes make cells larger than one cell, forks and several shapes together: those of
them that stand in one house hold different digits, all of them larger.
"""

from collections.abc import Iterator, Sequence

from verify.pencil import Mask, at_most, bit, digits_of
from verify.walk.facts.notes import Notes
from verify.walk.facts.ranks import Rank
from verify.walk.facts.step import Because, Step, Technique


def order(notes: Notes) -> Iterator[Step]:
    """Digits of a cell that leave the larger, or smaller, cells of a house too little room."""
    still_open = notes.open
    for index, rank in enumerate(notes.ranks):
        if still_open >> rank.cell & 1:
            marks = notes.marks((rank.cell, *rank.beyond))
            yield from notes.if_changed(("order", index), marks, _of_rank(notes, rank))


def _of_rank(notes: Notes, rank: Rank) -> Iterator[Step]:
    """What leaves a cell because of the cells of one house that are beyond it."""
    beyond = notes.marks(rank.beyond)
    struck = 0
    digits = tuple(digits_of(notes.pencil[rank.cell]))
    for digit in reversed(digits) if rank.upwards else digits:
        if not too_little_room(digit, beyond, upwards=rank.upwards):
            # All the digits that follow leave more room.
            break
        struck |= bit(digit)
    if struck:
        cells = tuple(sorted((rank.cell, *rank.beyond)))
        because = Because(cells, 0, (rank.house,), rank.links)
        removes = ((rank.cell, struck),)
        yield Step(Technique.ORDER, because, removes=removes, rule=rank.links[0].rule)


def too_little_room(digit: int, beyond: Sequence[Mask], *, upwards: bool) -> bool:
    """Whether cells that differ and all lie beyond a digit can't each take one of their own."""
    return not _fit([mask & _past(digit, upwards) for mask in beyond])


def _past(digit: int, upwards: bool) -> Mask:
    """The digits beyond one."""
    return ~at_most(digit) if upwards else at_most(digit - 1)


def _fit(masks: list[Mask]) -> bool:
    """Whether each of some cells can take a digit of its own (augmenting paths)."""
    holder: dict[int, int] = {}

    def seat(index: int, tried: set[int]) -> bool:
        for digit in digits_of(masks[index]):
            if digit not in tried:
                tried.add(digit)
                if digit not in holder or seat(holder[digit], tried):
                    holder[digit] = index
                    return True
        return False

    return all(seat(index, set()) for index in range(len(masks)))
