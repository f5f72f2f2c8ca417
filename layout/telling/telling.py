"""A walk as a person tells it: what it is about, then turn by turn, each step with its reason."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from layout.language.words import Words, fill
from layout.telling.ends import tell_end
from layout.telling.flow import Flow
from layout.telling.level import Level
from layout.telling.names import NONE_CALLED, Names, capital
from layout.telling.placings import Placed, Placings
from layout.telling.pushes import PUSHING, Pushes
from layout.telling.sentences import Teller
from verify.board import Cell
from verify.pencil import Mask
from verify.puzzle import Puzzle
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Kind, Step, Technique, kind_of
from verify.walk.told.head import Head, head_of
from verify.walk.told.needed import Kept
from verify.walk.told.path import ToldPath

Removes = Sequence[tuple[Cell, Mask]]

MOST_STRIKES: Final = 4
"""Sentences of a paragraph that strike."""

MOST_PLACED: Final = 8
"""Digits of a paragraph, past which a new one begins where something new is struck."""

GOING_ON: Final = frozenset({Technique.MARK, Technique.HOUSE_SUM})
"""What goes on in a paragraph from the digits that were placed in it."""

FIRST_OF_REST: Final = 2
"""Digits of the run at the end that are named."""


EARLIEST_REST: Final = 0.6
"""The share of all steps after which marks that say a last thing belong to the end."""

MOST_IN_REST: Final = 3
"""How many of those there may be."""

FEW_NEEDS: Final = 2
"""Cells that push in them."""


@dataclass(frozen=True, slots=True)
class Told:
    """A step in words of its own; `removes` is what it strikes, `left` what then stays there.

    `number` counts the steps of the path from 1, `paragraph` is where it is told; `kept` is the
    step with what it rests on. `said` is its sentence in the paragraph, where what was just said
    is not said again; it is empty where a step is told together with the one before (`joined`).
    """

    number: int
    paragraph: int
    kept: Kept
    removes: Removes
    left: Removes
    words: str
    said: str
    joined: bool = False

    @property
    def step(self) -> Step:
        """The step."""
        return self.kept.step

    @property
    def kind(self) -> Kind:
        """What it is to a listener."""
        return kind_of(self.step.technique)


@dataclass(frozen=True, slots=True)
class Paragraph:
    """Steps that are told together, counted from 1."""

    number: int
    steps: tuple[Step, ...]
    words: str


@dataclass(frozen=True, slots=True)
class Telling:
    """A whole walk: what it is about, its steps in turns and one by one, and how it ends.

    `summary` is empty where there are no steps, `end` where the walk finishes. `verdict` is what
    must be known first, where that is told (`layout.telling.verdicts`).
    """

    summary: str
    paragraphs: tuple[Paragraph, ...]
    steps: tuple[Told, ...]
    end: str
    finished: bool
    verdict: str = ""


def tell_walk(
    puzzle: Puzzle,
    path: ToldPath,
    words: Words,
    level: Level = Level.WHOLE,
    called: Mapping[Cell, str] = NONE_CALLED,
) -> Telling:
    """Tells a path, in the order of its steps; some cells may be `called` by their own names."""
    names = Names(puzzle, words, in_words=level is Level.FIRST_TIMER, called=called)
    notes = Notes(puzzle)
    head = head_of(path.steps)
    told, turns = _Turns(names, notes, path, level).go()
    number_of = {step: each.number for each in turns for step in each.numbers}
    shown = _moments(turns, head) if level is Level.MOMENTS else turns
    paragraphs = tuple(Paragraph(each.number, each.steps, each.words) for each in shown)
    end = "" if path.finished else tell_end(path, names, notes)
    return Telling(_summary(path, head, number_of, names), paragraphs, told, end, path.finished)


@dataclass(frozen=True, slots=True)
class _Turn:
    """Steps told in one paragraph, with their numbers in the path, the first one 0."""

    number: int
    numbers: tuple[int, ...]
    steps: tuple[Step, ...]
    words: str


class _Turns:
    """Goes along a path and gathers its sentences into turns."""

    def __init__(self, names: Names, notes: Notes, path: ToldPath, level: Level) -> None:
        self._names = names
        self._level = level
        self._explained: set[Technique] = set()
        self._notes = notes
        self._path = path
        self._pushes = Pushes(names, notes)
        self._flow = Flow(names, self._pushes, in_full=level is Level.FIRST_TIMER)
        self._left: dict[Cell, Mask] = {}
        self._placings = Placings(names, notes)
        self._teller = Teller(names, notes)
        self._told: list[Told] = []
        self._turns: list[_Turn] = []
        self._clear()

    def go(self) -> tuple[tuple[Told, ...], tuple[_Turn, ...]]:
        """All steps in words, and the turns."""
        steps = self._path.steps
        every = self._level is Level.EVERY
        rest = len(steps) if every else self._rest()
        for number, kept in enumerate(steps[:rest]):
            if self._turns_here(kept) or (every and self._numbers):
                self._flush()
            self._take(number, kept)
        self._flush()
        self._tell_rest(rest)
        return tuple(self._told), tuple(self._turns)

    def _rest(self) -> int:
        """Where the plain singles begin with which all is over; a long walk of nothing but these
        is told up to where the grid fills of itself.
        """
        steps = self._path.steps
        if not self._path.finished:
            return len(steps)
        start, strikes = len(steps), 0
        earliest = round(len(steps) * EARLIEST_REST)
        while start:
            each = steps[start - 1]
            if not each.step.places:
                strikes += 1
                if strikes > MOST_IN_REST or not _is_small(each) or start < earliest:
                    break
            start -= 1
        return start if start else earliest

    def _turns_here(self, kept: Kept) -> bool:
        """Whether a step begins a new turn."""
        if kept.step.places:
            return len(self._placed_here) >= MOST_PLACED * 2
        if not self._numbers or self._joins(kept):
            return False
        if self._strikes >= MOST_STRIKES or len(self._placed_here) >= MOST_PLACED:
            return True
        return bool(self._placed_here) and kept.step.technique not in GOING_ON

    def _joins(self, kept: Kept) -> bool:
        """Whether a strike is told in one sentence with the one before."""
        return kept.step.technique in PUSHING and self._flow.joins(kept.based)

    def _clear(self) -> None:
        self._numbers: list[int] = []
        self._steps: list[Step] = []
        self._sentences: list[str] = []
        self._sentence_of: dict[int, int] = {}
        self._run: list[Placed] = []
        self._placed_here: list[Cell] = []
        self._strikes = 0
        self._flow.begin()

    def _take(self, number: int, kept: Kept) -> None:
        """Tells one step, and does it on the sheet."""
        removes = self._notes.fresh(kept.step.removes)
        left = tuple((cell, self._notes.pencil[cell] & ~mask) for cell, mask in removes)
        joined = self._joins(kept)
        words = self._place(kept) if kept.step.places else self._strike(kept, joined)
        self._numbers.append(number)
        self._steps.append(kept.step)
        paragraph, said = len(self._turns) + 1, "" if joined else words
        told = Told(number + 1, paragraph, kept, removes, left, words, said, joined)
        if not (kept.step.places or joined):
            self._sentence_of[len(self._told)] = len(self._sentences) - 1
        self._told.append(told)
        self._notes.apply([kept.step])

    def _place(self, kept: Kept) -> str:
        """A placement as one tells it by itself; the run has it as well."""
        placed = self._placings.placed(kept.based, self._left)
        self._run.append(placed)
        self._placed_here.append(placed.cell)
        self._flow.placed(placed.cell, placed.digit, spoken=bool(placed.words or placed.house))
        return self._placings.alone(placed)

    def _explain(self, technique: Technique) -> None:
        """Tells a first-timer, once, what a technique is."""
        if self._level is Level.FIRST_TIMER and technique not in self._explained:
            self._explained.add(technique)
            words = self._names.technique_words(technique)
            symbols = self._names.symbol_words
            self._sentences.append(fill(words.explains, digit=symbols.one, digits=symbols.many))

    def _strike(self, kept: Kept, joined: bool) -> str:
        """A strike as one tells it by itself; the paragraph has it in a sentence of its own, or
        `joined` to the one before.
        """
        self._end_run()
        if kept.step.technique not in PUSHING:
            self._left = {}
            words = self._teller.strike(kept.step)
            self._add(kept, words)
            return words
        self._left = self._pushes.left(kept.based)
        if joined:
            self._sentences[-1] = self._flow.join(kept.based, self._left)
        else:
            self._add(kept, self._flow.tell(kept.based, self._left))
        return self._pushes.tell(kept.based)

    def _add(self, kept: Kept, words: str) -> None:
        self._explain(kept.step.technique)
        self._sentences.append(words)
        self._strikes += 1

    def _end_run(self) -> None:
        sentence = self._placings.sentence(self._run)
        if sentence:
            self._sentences.append(sentence)
        self._run = []

    def _flush(self) -> None:
        self._end_run()
        if self._numbers:
            self._settle()
            alone = [each.words for each in self._told[self._numbers[0] :]]
            words = " ".join(self._sentences or alone)
            number = len(self._turns) + 1
            self._turns.append(_Turn(number, tuple(self._numbers), tuple(self._steps), words))
        self._clear()

    def _settle(self) -> None:
        """Gives each strike its sentence, now that none is told together with it any more."""
        for at, sentence in self._sentence_of.items():
            self._told[at] = replace(self._told[at], said=self._sentences[sentence])
        self._sentence_of.clear()

    def _tell_rest(self, first: int) -> None:
        """The plain singles at the end, in one sentence."""
        rest = self._path.steps[first:]
        for number, kept in enumerate(rest, first):
            self._take(number, kept)
            if kept.step.places:
                # The run is not spelt out, so no push can go on from its digits.
                self._run = []
                self._flow.forget()
        if rest:
            self._settle()
            placing = [each.based for each in rest if each.step.places]
            self._sentences = [self._placings.rest(placing, FIRST_OF_REST, self._sentences)]
            self._flush()


def _is_small(kept: Kept) -> bool:
    """Whether a strike takes no more than a look at one mark and a cell or two."""
    return kept.step.technique is Technique.MARK and len(kept.based.needs) <= FEW_NEEDS


def _moments(turns: Sequence[_Turn], head: Head) -> tuple[_Turn, ...]:
    """The turns with what matters most; the last one where nothing does."""
    wanted = {each for each in (head.break_in, head.crux, head.last) if each is not None}
    found = tuple(each for each in turns if not wanted.isdisjoint(each.numbers))
    return found or tuple(turns[-1:])


def _summary(path: ToldPath, head: Head, number_of: dict[int, int], names: Names) -> str:
    if not path.steps:
        return ""
    return " ".join(_head_sentences(path, head, number_of, names))


def _head_sentences(
    path: ToldPath, head: Head, number_of: dict[int, int], names: Names
) -> Iterator[str]:
    """The idea, where it breaks open, and the hardest step."""
    words = names.words.walk.head
    if head.crux is None or head.break_in is None:
        symbols = names.symbol_words
        yield fill(words.singles, digit=symbols.one, digits=symbols.many)
        return
    if head.mark is not None:
        sentence = words.mark if head.everything_hangs_on_it else words.first
        yield capital(fill(sentence, mark=names.mark(head.mark)))
    elif head.house is not None:
        yield fill(words.house, **{"in": names.house(head.house)})
    hardest = path.steps[head.crux].step.technique
    technique = names.technique(hardest)
    begin, crux = number_of[head.break_in], number_of[head.crux]
    sentence = words.both_at_once if begin == crux else words.begin_and_crux
    if hardest is Technique.MARK:
        sentence = words.begin
    yield fill(sentence, begin=begin, crux=crux, technique=technique)
