"""All that strikes candidates on a sheet at one moment: marks of rules, and lists made so far."""

from collections.abc import Sequence
from typing import Final

from verify.board import Cell
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Link
from verify.walk.ways.answers import Answers
from verify.walk.ways.asked import Asked
from verify.walk.ways.listed import MOST_CELLS, Listed, Ways, listings
from verify.walk.ways.remembered import RememberedStrikers
from verify.walk.ways.striker import Striker, strikers_of_lists, strikers_of_marks
from verify.walk.ways.tables import Tables

LENGTHS: Final = (range(5), range(5, 1 + MOST_CELLS))
"""Lists of about as many cells are asked together, so that few have cells of nobody."""


class Strikers:
    """The strikers of a sheet; lists are made, and shortened, as candidates go.

    `asked` say for arrays what `every` one says: what a list of all ways of a mark strikes, the
    mark itself need not be asked about.
    """

    def __init__(self, notes: Notes) -> None:
        self._notes = notes
        self._marks = strikers_of_marks(notes)
        self._listings = tuple(listings(notes))
        self._remembered = RememberedStrikers(notes, self._marks)
        self._answers_of_marks = _answers(notes, [each.cells for each in self._marks.values()])
        self._answers_of_lists = [
            _answers(notes, [each.cells for each in self._listings if len(each.cells) in lengths])
            for lengths in LENGTHS
        ]
        self._known_ways: list[Ways | None] | None = None
        self._made: Sequence[Listed] = ()
        self._every: tuple[Striker, ...] | None = None
        self.asked: tuple[Asked, ...] = ()
        self.whole: dict[Link, Listed] = {}

    def refresh(self) -> None:
        """Looks at the lists anew, by the sheet as it stands."""
        for each in self._listings:
            self._notes.deadline.check()
            each.look()
        known_ways = [each.ways for each in self._listings]
        if known_ways != self._known_ways:
            self._known_ways = known_ways
            self._gather([each for each in self._listings if each.ways is not None])

    @property
    def every(self) -> tuple[Striker, ...]:
        """All of them."""
        if self._every is None:
            self._every = (*self._marks.values(), *strikers_of_lists(self._made))
        return self._every

    @property
    def count(self) -> int:
        """How many there are."""
        return len(self._marks) + len(self._made)

    def _gather(self, made: Sequence[Listed]) -> None:
        self._made, self._every = made, None
        self.whole = {each.link: each for each in made if each.is_whole and each.link}
        lists = map(self._lists, LENGTHS, self._answers_of_lists)
        self.asked = tuple(asked for asked in (*lists, self._other_marks()) if asked)

    def _lists(self, lengths: range, answers: Answers) -> Asked | None:
        """The lists of some lengths; of a mark with a list that is whole, that alone."""
        cells = {
            number: each.cells
            for number, each in enumerate(self._listings)
            if each.ways is not None
            and len(each.cells) in lengths
            and (each.is_whole or each.link not in self.whole)
        }
        if not cells:
            return None
        ways = [each.ways if at in cells else None for at, each in enumerate(self._listings)]
        tables = Tables(ways, answers.cells, self._notes.digits)
        return Asked(cells, len(self._notes.pencil), answers, tables.struck)

    def _other_marks(self) -> Asked | None:
        """The marks without such a list."""
        cells = {
            number: striker.cells
            for number, (link, striker) in enumerate(self._marks.items())
            if link not in self.whole
        }
        if not cells:
            return None
        answers, struck = self._answers_of_marks, self._remembered.struck
        return Asked(cells, len(self._notes.pencil), answers, struck)


def _answers(notes: Notes, cells: Sequence[Sequence[Cell]]) -> Answers:
    """Room for the answers of strikers with such cells."""
    return Answers(max(map(len, cells), default=0), notes.digits)


def strikers_of(notes: Notes) -> Strikers:
    """The one `Strikers` of a sheet; `refresh` must be called before it is asked."""
    return notes.once(Strikers)
