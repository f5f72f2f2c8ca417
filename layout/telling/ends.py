"""Why a walk ends before the last cell: a contradiction, time, or nothing more is known."""

from layout.language.words import fill
from layout.telling.knowledge import Knowledge
from layout.telling.names import Names, capital
from verify.board import Cell
from verify.pencil import bit, every_digit, highest
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import DeadEnd, Link
from verify.walk.told.path import ToldPath


def tell_end(path: ToldPath, names: Names, notes: Notes) -> str:
    """The last sentence of a path that does not finish; `notes` are the sheet at its end."""
    words = names.words.walk.ends
    if path.cut_short:
        return words.time_over
    if path.dead_end is not None:
        return f"{capital(_contradiction(path, path.dead_end, names, notes))}."
    if notes.open and not notes.broken:
        count = notes.open.bit_count()
        return fill(words.stuck.of(count), count=count)
    broken = None if notes.open else _broken_mark(notes)
    if broken is None:
        return words.contradiction
    return f"{capital(fill(words.broken_mark, mark=names.mark(broken)))}."


def _contradiction(path: ToldPath, end: DeadEnd, names: Names, notes: Notes) -> str:
    """What can't be: a digit without a place, one in its cell, or a cell without a digit."""
    words, symbols = names.words.walk.ends, names.symbol_words
    if end.cell is None:
        assert end.house is not None, "a dead end is a cell's or a house's"  # noqa: S101
        where = names.house(end.house)
        return fill(words.homeless, chosen=names.the(end.digit), **{"in": where})
    cell, digit = names.cell(end.cell), _written(path, end.cell, notes)
    if digit:
        told = fill(words.clash, chosen=names.the(digit), cell=cell)
    else:
        told = fill(words.empty, cell=cell, digit=symbols.one, digits=symbols.many)
    gone = bit(digit) if digit else every_digit(notes.digits)
    seen = Knowledge(names, notes).seen(end.cell, gone)
    return fill(names.words.walk.known.seen, known=told, seen=seen) if seen else told


def _written(path: ToldPath, cell: Cell, notes: Notes) -> int:
    """The digit that is given or was placed in a cell; 0 where none is."""
    placed = dict(place for each in path.steps for place in each.step.places)
    return placed.get(cell, notes.puzzle.givens[cell])


def _broken_mark(notes: Notes) -> Link | None:
    """The first mark that a full grid does not keep."""
    grid = [highest(mask) for mask in notes.pencil]
    return next((link for link in notes.facets if not link.constraint.holds(grid)), None)
