"""What one mark of a rule strikes by itself: the range of a thermometer, the ways of a cage."""

from collections.abc import Iterator

from verify.board import Cell
from verify.pencil import Mask
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Because, Link, Step, Technique


def marks(notes: Notes) -> Iterator[Step]:
    """All that each mark strikes, again and again until it strikes no more."""
    for index, link in enumerate(notes.links):
        before = notes.marks(link.constraint.cells)
        yield from notes.if_changed(("mark", index), before, _of_mark(notes, link))


def _of_mark(notes: Notes, link: Link) -> Iterator[Step]:
    removes = _struck(notes, link)
    if removes:
        because = Because(tuple(sorted(link.constraint.cells)), 0, (), (link,))
        yield Step(Technique.MARK, because, removes=removes, rule=link.rule)


def _struck(notes: Notes, link: Link) -> tuple[tuple[Cell, Mask], ...]:
    """The strikes of one mark, cell by cell."""
    pencil = list(notes.pencil)
    struck: dict[Cell, Mask] = {}
    again = True
    while again:
        again = False
        notes.deadline.check()
        for strike in link.constraint.strikes(pencil):
            for cell, mask in strike.removes:
                if pencil[cell] & mask:
                    struck[cell] = struck.get(cell, 0) | pencil[cell] & mask
                    pencil[cell] &= ~mask
                    again = True
    return tuple(sorted(struck.items()))
