"""How far a mark reaches by what is told of its cells, whatever else stands on the sheet."""

from verify.board import Cell
from verify.pencil import Mask, every_digit
from verify.walk.told.event import Based


def reach(based: Based, digits: int) -> dict[Cell, Mask]:
    """What a mark leaves for each of its cells where only what a step needs is missing."""
    (link,) = based.step.because.links[:1]
    cells = link.constraint.cells
    sheet = [every_digit(digits)] * (1 + max(cells))
    for cell, mask in based.needs:
        sheet[cell] &= ~mask
    again = True
    while again:
        again = False
        for strike in link.constraint.strikes(sheet):
            for cell, mask in strike.removes:
                if sheet[cell] & mask:
                    sheet[cell] &= ~mask
                    again = True
    return {cell: sheet[cell] for cell in cells}
