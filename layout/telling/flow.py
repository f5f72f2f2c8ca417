"""Pushes as they follow one another in a paragraph: what was just said is not said again."""

from collections.abc import Mapping
from typing import Final

from layout.language.words import fill
from layout.telling.names import Names, capital
from layout.telling.pushes import Pushes, takes_digits
from verify.board import Cell
from verify.pencil import Mask, bit
from verify.walk.facts.step import Link, Technique
from verify.walk.told.event import Based

MOST_REMEMBERED: Final = 4
"""Cells of the sentence before that a listener still has in mind."""

MOST_IN_MIND: Final = 2
"""The last digits of a run that one still has in mind."""

MOST_TOGETHER: Final = 8
"""Marks that are told in one sentence."""


class Flow:
    """Tells pushes one after the other, each on the sheet as it stands before it.

    A mark is told in full where its rule speaks for the first time, and in passing from there on.
    Somebody who is new to all this (`in_full`) is told each in full.
    """

    def __init__(self, names: Names, pushes: Pushes, *, in_full: bool) -> None:
        self._words = names.words.walk.push
        self._pushes = pushes
        self._in_full = in_full
        self._heard: set[tuple[str, bool]] = set()
        self._premises: set[tuple[Cell, Mask]] = set()
        self.begin()

    def begin(self) -> None:
        """Begins a new paragraph: a mark is named again."""
        self._last: Link | None = None
        self._last_why = ""
        self._just: dict[Cell, Mask] = {}
        self._run: dict[Cell, Mask] = {}
        self._together: list[Based] = []
        self._joint: dict[Cell, Mask] = {}

    def placed(self, cell: Cell, digit: int, *, spoken: bool) -> None:
        """A digit was written, and said so or just read off what a push has said."""
        if spoken:
            self._run[cell] = bit(digit)
        else:
            self._just[cell] = bit(digit)
        self._together.clear()

    def forget(self) -> None:
        """Nothing of what was said before counts as just said."""
        self._just, self._run = {}, {}
        self._together.clear()

    def joins(self, based: Based) -> bool:
        """Whether a push is told in one sentence with the one before."""
        return (
            0 < len(self._together) < MOST_TOGETHER
            and self._can_join(based)
            and based.step.rule == self._together[0].step.rule
            and self._key(based) == self._key(self._together[0])
        )

    def join(self, based: Based) -> str:
        """The sentence before, with this push as well."""
        self._together.append(based)
        for cell, left in self._pushes.left(based).items():
            self._joint[cell] = self._joint.get(cell, left) & left
        self._joint = dict(sorted(self._joint.items()))
        self._just = self._joint
        by = self._pushes.by(based, len(self._together))
        return capital(fill(self._words.all_by, by=by, follows=self._pushes.facts(self._joint)))

    def tell(self, based: Based, left: Mapping[Cell, Mask]) -> str:
        """The sentence of one push, of which this is `left` in each cell."""
        known = self._known(based)
        told = self._in_passing(based, known, left) or self._told_in_full(based, known, left)
        self._premises.update(based.needs)
        self._just, self._run = dict(left), {}
        self._last = based.step.because.links[0]
        return told

    def _known(self, based: Based) -> str:
        """What must be known and is not just said."""
        run = dict(list(self._run.items())[-MOST_IN_MIND:])
        just = run or (self._just if len(self._just) <= MOST_REMEMBERED else {})
        every = self._pushes.every
        if all(just.get(cell) == every & ~mask for cell, mask in based.needs):
            return ""
        return self._pushes.known(based, self._premises)

    def _told_in_full(self, based: Based, known: str, left: Mapping[Cell, Mask]) -> str:
        why, follows = self._pushes.why(based), self._pushes.follows(based, left)
        again = self._is_again(based) or (
            not known and takes_digits(based) and why == self._last_why
        )
        self._heard.add(self._key(based))
        self._together, self._last_why = [], why
        if not again:
            return self._pushes.say(known, why, follows)
        words = self._words.pushed_again
        if not known:
            words = self._words.next_again if based.needs else self._words.alone_again
        return capital(fill(words, known=known, follows=follows))

    def _is_again(self, based: Based) -> bool:
        """Whether a mark by itself goes on where it was told about just before."""
        step = based.step
        return step.technique is Technique.MARK and step.because.links[0] == self._last

    def _in_passing(self, based: Based, known: str, left: Mapping[Cell, Mask]) -> str:
        """A push whose rule was told before; nothing where it must be told in full."""
        if self._is_again(based) or not self._may_pass(based):
            return ""
        by, words = self._pushes.by(based), self._words
        if not by:
            return ""
        alone = words.next_by if based.needs else words.all_by
        sentence = words.by_the_way if known else alone
        can_join = self._can_join(based)
        self._together, self._joint = ([based], dict(left)) if can_join else ([], {})
        self._last_why = ""
        follows = self._pushes.follows(based, left, in_passing=True)
        return capital(fill(sentence, known=known, by=by, follows=follows))

    def _may_pass(self, based: Based) -> bool:
        is_of_a_mark = based.step.technique in (Technique.MARK, Technique.ARRANGEMENTS)
        return is_of_a_mark and not self._in_full and self._key(based) in self._heard

    def _can_join(self, based: Based) -> bool:
        """Whether a push takes no more than one look at a mark of which many can be told."""
        if based.needs or based.step.technique is not Technique.MARK or not self._may_pass(based):
            return False
        passing = self._pushes.passing(based.step.because.links[0])
        return passing.one != passing.many and bool(self._pushes.by(based))

    def _key(self, based: Based) -> tuple[str, bool]:
        """What is told once: a rule, or what it says where nothing is drawn."""
        link = based.step.because.links[0]
        return link.rule, self._pushes.is_bare(link)
