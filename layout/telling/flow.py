"""Pushes as they follow one another in a paragraph: what was just said is not said again."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial, reduce
from operator import or_
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


@dataclass(frozen=True, slots=True)
class _Sentence:
    """What was just told: the pushes, what they leave, and the sentence about what follows."""

    pushes: tuple[Based, ...]
    left: Mapping[Cell, Mask]
    frame: Callable[[str], str]
    in_passing: bool


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
        self._sentence: _Sentence | None = None

    def placed(self, cell: Cell, digit: int, *, spoken: bool) -> None:
        """A digit was written, and said so or just read off what a push has said."""
        if spoken:
            self._run[cell] = bit(digit)
        else:
            self._just[cell] = bit(digit)
        self._sentence = None

    def forget(self) -> None:
        """Nothing of what was said before counts as just said."""
        self._just, self._run = {}, {}
        self._sentence = None

    def joins(self, based: Based) -> bool:
        """Whether a push is told in one sentence with the one before."""
        sentence = self._sentence
        if sentence is None or len(sentence.pushes) >= MOST_TOGETHER:
            return False
        first = sentence.pushes[0]
        if takes_digits(based):
            return takes_digits(first) and _asks_alike(based) == _asks_alike(first)
        alike = self._can_join(based) and self._can_join(first)
        return alike and sentence.in_passing and self._key(based) == self._key(first)

    def join(self, based: Based, left: Mapping[Cell, Mask]) -> str:
        """The sentence before, with this push as well, of which this is `left` in each cell."""
        before = self._sentence
        assert before is not None, "it joins one"  # noqa: S101
        pushes, joint = (*before.pushes, based), dict(before.left)
        for cell, mask in left.items():
            joint[cell] = joint.get(cell, mask) & mask
        joint = dict(sorted(joint.items()))
        frame = before.frame if takes_digits(based) else self._frame_of_many(pushes)
        self._sentence = _Sentence(pushes, joint, frame, before.in_passing)
        self._just = joint
        follows = self._pushes.follows(_taken(pushes), joint, in_passing=before.in_passing)
        return capital(frame(follows))

    def tell(self, based: Based, left: Mapping[Cell, Mask]) -> str:
        """The sentence of one push, of which this is `left` in each cell."""
        known = self._known(based)
        passing = self._in_passing(based, known)
        frame = passing or self._in_full_words(based, known)
        self._premises.update(based.needs)
        self._just, self._run = dict(left), {}
        self._last = based.step.because.links[0]
        self._sentence = _Sentence((based,), left, frame, passing is not None)
        follows = self._pushes.follows(based, left, in_passing=passing is not None)
        return capital(frame(follows))

    def _known(self, based: Based) -> str:
        """What must be known and is not just said."""
        run = dict(list(self._run.items())[-MOST_IN_MIND:])
        just = run or (self._just if len(self._just) <= MOST_REMEMBERED else {})
        every = self._pushes.every
        if all(just.get(cell) == every & ~mask for cell, mask in based.needs):
            return ""
        return self._pushes.known(based, self._premises)

    def _in_full_words(self, based: Based, known: str) -> Callable[[str], str]:
        """The sentence of a push whose rule is told for the first time."""
        self._heard.add(self._key(based))
        why, before = self._pushes.why(based), self._last_why
        self._last_why = why
        if not (self._is_again(based) or why == before):
            return partial(self._pushes.say, known, why)
        words = self._words.pushed_again
        if not known:
            words = self._words.next_again if based.needs else self._words.alone_again
        return lambda follows: fill(words, known=known, follows=follows)

    def _is_again(self, based: Based) -> bool:
        """Whether a mark by itself goes on where it was told about just before."""
        step = based.step
        return step.technique is Technique.MARK and step.because.links[0] == self._last

    def _in_passing(self, based: Based, known: str) -> Callable[[str], str] | None:
        """The sentence of a push whose rule was told before; None where it is told in full."""
        if self._is_again(based) or not self._may_pass(based):
            return None
        by, words = self._pushes.by(based), self._words
        if not by:
            return None
        self._last_why = ""
        alone = words.next_by if based.needs else words.all_by
        sentence = words.by_the_way if known else alone
        return lambda follows: fill(sentence, known=known, by=by, follows=follows)

    def _frame_of_many(self, pushes: Sequence[Based]) -> Callable[[str], str]:
        """The sentence of several marks of a rule."""
        by = self._pushes.by(pushes[-1], len(pushes))
        return lambda follows: fill(self._words.all_by, by=by, follows=follows)

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


def _asks_alike(based: Based) -> tuple[object, ...]:
    """What must be the same for a mark to need one more digit in one sentence."""
    because = based.step.because
    return because.links, because.houses, based.needs


def _taken(pushes: Sequence[Based]) -> Based:
    """The last of some pushes, with the digits that all of them need."""
    last = pushes[-1]
    digits = reduce(or_, (each.step.because.digits for each in pushes))
    because = replace(last.step.because, digits=digits)
    return replace(last, step=replace(last.step, because=because))
