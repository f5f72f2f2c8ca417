"""Chains by colour: cells of one digit that are true and false by turns."""

from collections.abc import Iterator

from verify.board import Cell
from verify.pencil import bit
from verify.walk.facts.cells import Cells, cells_of
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Because, House, Step, Technique


def colour_chains(notes: Notes) -> Iterator[Step]:
    """Two cells of one colour that see each other; a cell that sees both colours."""
    for digit in range(1, notes.digits + 1):
        yield from notes.if_changed(("colours", digit), notes.where[digit], _of_digit(notes, digit))


def _of_digit(notes: Notes, digit: int) -> Iterator[Step]:
    strong = _strong_links(notes, digit)
    left = set(strong)
    while left:
        colours, houses = _colour(min(left), strong)
        left -= set(cells_of(colours[0] | colours[1]))
        yield from _steps(notes, digit, colours, houses)


def _strong_links(notes: Notes, digit: int) -> dict[Cell, dict[Cell, House]]:
    """For each cell, the cells that hold the digit where it does not, each with the house."""
    links: dict[Cell, dict[Cell, House]] = {}
    where = notes.where[digit]
    for house, cells in notes.full_sets:
        spots = where & cells
        if spots.bit_count() == 2:
            one, other = cells_of(spots)
            links.setdefault(one, {}).setdefault(other, house)
            links.setdefault(other, {}).setdefault(one, house)
    return links


def _colour(
    start: Cell, strong: dict[Cell, dict[Cell, House]]
) -> tuple[tuple[Cells, Cells], tuple[House, ...]]:
    """The two colours of all that hangs together with a cell, and the houses on the way."""
    colour = {start: 0}
    houses: dict[House, None] = {}
    waiting = [start]
    while waiting:
        cell = waiting.pop(0)
        for other, house in strong[cell].items():
            houses[house] = None
            if other not in colour:
                colour[other] = 1 - colour[cell]
                waiting.append(other)
    sets = [0, 0]
    for cell, which in colour.items():
        sets[which] |= 1 << cell
    return (sets[0], sets[1]), tuple(houses)


def _steps(
    notes: Notes, digit: int, colours: tuple[Cells, Cells], houses: tuple[House, ...]
) -> Iterator[Step]:
    chain = colours[0] | colours[1]
    struck = 0
    for cell in cells_of(notes.where[digit] & ~chain):
        if notes.peers[cell] & colours[0] and notes.peers[cell] & colours[1]:
            struck |= 1 << cell
    for colour in colours:
        if any(notes.peers[cell] & colour for cell in cells_of(colour)):
            struck |= colour
    if not struck or chain.bit_count() < 4:
        return
    sight_houses, links = notes.sights(cells_of(struck), cells_of(chain))
    every = tuple(dict.fromkeys((*houses, *sight_houses)))
    cells = sorted({cell for house in houses for cell in house.cells})
    because = Because(tuple(cells), bit(digit), every, links)
    removes = tuple((cell, bit(digit)) for cell in cells_of(struck))
    yield Step(Technique.COLOUR_CHAIN, because, removes=removes)
