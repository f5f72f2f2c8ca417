"""All that speaks on a sheet at one moment: the marks of rules, and the lists made so far."""

from collections.abc import Mapping, Sequence
from typing import Final

from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Link
from verify.walk.ways.listed import Listed, Ways, listings
from verify.walk.ways.speaker import Speaker
from verify.walk.ways.tables import Tables, tables_of
from verify.walk.ways.voices import Voice, voices_of_lists, voices_of_marks

MOST_REMEMBERED: Final = 4_000_000
"""Masks of cells that all marks together remember having been asked about."""


def _speakers(voices: Mapping[Link, Voice]) -> dict[Link, Speaker]:
    """Speakers that share the room there is to remember."""
    cells = sum(len(voice.cells) for voice in voices.values())
    return {link: Speaker(voice, MOST_REMEMBERED // cells) for link, voice in voices.items()}


class Choir:
    """The voices of a sheet; lists are made, and shortened, as candidates go.

    `every` has all voices. `tables` and `speakers` say the same, for arrays: what a list of all
    ways of a mark strikes, the mark itself need not be asked about.
    """

    def __init__(self, notes: Notes) -> None:
        self._deadline = notes.deadline
        self._marks = voices_of_marks(notes)
        self._speakers = _speakers(self._marks)
        self._listings = tuple(listings(notes))
        self._heard: list[Ways | None] | None = None
        self.every: tuple[Voice, ...] = ()
        self.speakers: tuple[Speaker, ...] = ()
        self.tables: tuple[Tables, ...] = ()
        self.whole: dict[Link, Listed] = {}

    def listen(self) -> None:
        """Looks at the lists anew, by the sheet as it stands."""
        for each in self._listings:
            self._deadline.check()
            each.look()
        heard = [each.ways for each in self._listings]
        if heard != self._heard:
            self._heard = heard
            self._gather([each for each in self._listings if each.ways is not None])

    def _gather(self, made: Sequence[Listed]) -> None:
        self.whole = {each.link: each for each in made if each.is_whole and each.link}
        self.every = (*self._marks.values(), *voices_of_lists(made))
        self.speakers = tuple(
            speaker for link, speaker in self._speakers.items() if link not in self.whole
        )
        asked = [each for each in made if each.is_whole or each.link not in self.whole]
        self.tables = tuple(tables_of(asked))


def choir_of(notes: Notes) -> Choir:
    """The one choir of a sheet; it must be told to listen before it is asked."""
    return notes.once(Choir)
