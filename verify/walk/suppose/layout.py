"""What never changes on a sheet, as arrays: who sees whom, houses, and where digits are confined.

Arrays of sheets have a row for each cell and one more behind the last, for nobody, who holds no
digit: lists of unlike lengths are filled up with nobody.
"""

from collections.abc import Sequence

from verify.pencil import digits_of, every_digit
from verify.walk.facts.arrays import Masks, Numbers, kind_of
from verify.walk.facts.confined import confinements
from verify.walk.facts.notes import Notes


class Layout:
    """The layout of one sheet.

    `kind` is the kind of number that holds the digits of a cell. `houses` has the cells of each
    full house (rows), `seats` the full houses of each cell, filled up with the number of houses.
    `others` are the cells that each cell sees beside these, a column for each cell.
    """

    def __init__(self, notes: Notes) -> None:
        import numpy

        self.every_digit = every_digit(notes.digits)
        self.kind = kind_of(notes.digits)
        self.nobody = len(notes.pencil)
        full = [house.cells for house in notes.full]
        self.houses = numpy.array(full, int).reshape(len(full), notes.digits)
        self.seats = numpy.ascontiguousarray(_filled(_seats(notes), len(full)).T)
        self.others = numpy.ascontiguousarray(_filled(_others(notes), self.nobody).T)
        self.confined = Confines(notes)
        self.widest = max(self.nobody, self.houses.size, self.confined.widest)

    def once_or_more(self, held: Masks) -> tuple[Masks, Masks]:
        """The digits that stand in each full house, and those that stand there several times.

        Behind the last house there is one without digits.
        """
        import numpy

        cells = held[self.houses]
        once = numpy.zeros((len(cells) + 1, held.shape[1]), held.dtype)
        more = numpy.zeros_like(once)
        some, several = once[:-1], more[:-1]
        for place in range(cells.shape[1]):
            here = cells[:, place]
            several |= some & here
            some |= here
        return once, more

    def of_cells(self, digits: Masks) -> Masks:
        """For each cell the digits of its full houses together."""
        found: Masks = digits[self.seats[0]]
        for seat in self.seats[1:]:
            found |= digits[seat]
        return found

    def seen(self, taken: Masks) -> Masks:
        """What leaves each cell, but nobody, as other cells which it sees take digits."""
        once, more = self.once_or_more(taken)
        seen = self.of_cells(once)
        seen &= ~taken[:-1]
        if more.any():
            seen |= self.of_cells(more)
        for other in self.others:
            seen |= taken[other]
        return seen


class Confines:
    """Where houses confine digits to.

    `others` has the cells of each confinement, a column for each; `by` the confinements that
    speak to each of `cells`, a column for each, filled up with the number of confinements.
    """

    def __init__(self, notes: Notes) -> None:
        import numpy

        found = confinements(notes)
        speaking: dict[int, list[int]] = {}
        for at, each in enumerate(found):
            for cell in digits_of(each.outside):
                speaking.setdefault(cell, []).append(at)
        others = [list(digits_of(each.others)) for each in found]
        self.cells = numpy.array(sorted(speaking), int)
        self.others = numpy.ascontiguousarray(_filled(others, len(notes.pencil)).T)
        by = [speaking[cell] for cell in sorted(speaking)]
        self.by = numpy.ascontiguousarray(_filled(by, len(found)).T)
        self.widest = max(len(found), len(self.cells))

    def leaving(self, held: Masks, every_digit: int) -> Masks:
        """The digits that leave each of `cells`."""
        import numpy

        confined = numpy.zeros((self.others.shape[1] + 1, held.shape[1]), held.dtype)
        for others in self.others:
            confined[:-1] |= held[others]
        numpy.bitwise_and(~confined[:-1], held.dtype.type(every_digit), out=confined[:-1])
        found: Masks = confined[self.by[0]]
        for by in self.by[1:]:
            found |= confined[by]
        return found


def _filled(rows: Sequence[Sequence[int]], nobody: int) -> Numbers:
    """Rows of unlike lengths as an array, filled up."""
    import numpy

    most = max(map(len, rows), default=0)
    filled = [[*row, *[nobody] * (most - len(row))] for row in rows]
    return numpy.array(filled, int).reshape(len(rows), most)


def _seats(notes: Notes) -> list[list[int]]:
    """The numbers of the full houses of each cell; each has a place for one at least."""
    seats: list[list[int]] = [[] for _ in notes.pencil]
    for number, house in enumerate(notes.full):
        for cell in house.cells:
            seats[cell].append(number)
    return seats if any(seats) else [[0] for _ in seats]


def _others(notes: Notes) -> list[list[int]]:
    """The cells that each cell sees, but not in a full house."""
    others = [peers & ~(1 << cell) for cell, peers in enumerate(notes.peers)]
    for house, within in notes.full_sets:
        for cell in house.cells:
            others[cell] &= ~within
    return [list(digits_of(each)) for each in others]
