"""All that strikes candidates on a sheet at one moment: marks of rules, and lists made so far."""

from collections.abc import Mapping, Sequence
from typing import Final

from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Link
from verify.walk.ways.listed import Listed, Ways, listings
from verify.walk.ways.remembered import RememberedStriker
from verify.walk.ways.striker import Striker, strikers_of_lists, strikers_of_marks
from verify.walk.ways.tables import Tables, tables_of

MOST_REMEMBERED: Final = 4_000_000
"""Masks of cells that all marks together remember having been asked about."""


def _remembered(strikers: Mapping[Link, Striker]) -> dict[Link, RememberedStriker]:
    """Marks that share the room there is to remember."""
    cells = sum(len(striker.cells) for striker in strikers.values())
    return {
        link: RememberedStriker(striker, MOST_REMEMBERED // cells)
        for link, striker in strikers.items()
    }


class Strikers:
    """The strikers of a sheet; lists are made, and shortened, as candidates go.

    `every` has all of them. `tables` and `remembered` say the same, for arrays: what a list of all
    ways of a mark strikes, the mark itself need not be asked about.
    """

    def __init__(self, notes: Notes) -> None:
        self._deadline = notes.deadline
        self._marks = strikers_of_marks(notes)
        self._remembered = _remembered(self._marks)
        self._listings = tuple(listings(notes))
        self._known_ways: list[Ways | None] | None = None
        self.every: tuple[Striker, ...] = ()
        self.remembered: tuple[RememberedStriker, ...] = ()
        self.tables: tuple[Tables, ...] = ()
        self.whole: dict[Link, Listed] = {}

    def refresh(self) -> None:
        """Looks at the lists anew, by the sheet as it stands."""
        for each in self._listings:
            self._deadline.check()
            each.look()
        known_ways = [each.ways for each in self._listings]
        if known_ways != self._known_ways:
            self._known_ways = known_ways
            self._gather([each for each in self._listings if each.ways is not None])

    def _gather(self, made: Sequence[Listed]) -> None:
        self.whole = {each.link: each for each in made if each.is_whole and each.link}
        self.every = (*self._marks.values(), *strikers_of_lists(made))
        self.remembered = tuple(
            striker for link, striker in self._remembered.items() if link not in self.whole
        )
        asked = [each for each in made if each.is_whole or each.link not in self.whole]
        self.tables = tuple(tables_of(asked))


def strikers_of(notes: Notes) -> Strikers:
    """The one `Strikers` of a sheet; `refresh` must be called before it is asked."""
    return notes.once(Strikers)
