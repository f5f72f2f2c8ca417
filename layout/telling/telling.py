"""A walk as a reader is told it: numbered paragraphs with a summary at their head."""

from collections.abc import Hashable, Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Final

from layout.language.words import Words, fill
from layout.telling.names import Names
from layout.telling.sentences import Removes, Teller
from verify.puzzle import Puzzle
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import PLAIN_SINGLES, Step, Technique
from verify.walk.report.needed import needed_steps
from verify.walk.walk import Walk

TOLD_QUICKLY: Final = 24
"""Placements at the very end that need no reasons: by then a solver sees them at once."""

MOST_REASONED: Final = 9
"""Placements in a row of which each is told with its reason."""

FIRST_REASONED: Final = 4
"""How many are, where there are more: what follows is seen as the cells around it fill."""

MOST_IN_SUMMARY: Final = 3

ALONE: Final = frozenset(
    {Technique.SHORT_IF, Technique.LONG_IF, Technique.EITHER_WAY, Technique.DEEP_IF}
)
"""What takes a paragraph for every single step."""

_HARDNESS: Final = {technique: rank for rank, technique in enumerate(Technique)}


@dataclass(frozen=True, slots=True)
class Told:
    """A step in words of its own.

    `removes` is what none of the steps before has struck, `left` what then stays in these cells.
    Neighbours of one `key` share a sentence; it is None where a step has its own.
    """

    step: Step
    removes: Removes
    left: Removes
    words: str
    key: Hashable


@dataclass(frozen=True, slots=True)
class Paragraph:
    """Steps that are told together, counted from 1."""

    number: int
    steps: tuple[Step, ...]
    words: str


@dataclass(frozen=True, slots=True)
class Telling:
    """A whole walk: what matters most, its steps together and one by one, and how it ends.

    `end` is empty where the walk finishes.
    """

    summary: str
    paragraphs: tuple[Paragraph, ...]
    steps: tuple[Told, ...]
    end: str


def tell_walk(puzzle: Puzzle, walk: Walk, words: Words) -> Telling:
    """Tells all steps that matter, in the order in which they were taken."""
    names = Names(puzzle, words)
    notes = Notes(puzzle)
    teller = Teller(names, notes)
    steps = needed_steps(walk)
    told = tuple(_one_by_one(steps, notes, teller))
    paragraphs = tuple(_paragraphs(told, teller, walk.finished))
    end = "" if walk.finished else _unfinished(notes, names)
    return Telling(_summary(paragraphs, names), paragraphs, told, end)


def _one_by_one(steps: Sequence[Step], notes: Notes, teller: Teller) -> Iterator[Told]:
    """Each step by itself; the pencil marks are taken along from the givens."""
    for step in steps:
        removes = notes.fresh(step.removes)
        left = teller.left(removes)
        if step.places:
            yield Told(step, removes, left, teller.placements([step]), None)
        elif removes:
            yield Told(step, removes, left, teller.strike(step), teller.key(step))
        notes.apply([step])


def _paragraphs(told: Sequence[Told], teller: Teller, finished: bool) -> Iterator[Paragraph]:
    """Neighbours of one technique together, and the end in a single sentence."""
    quick = _quick_end(told) if finished else len(told)
    number = 0
    for number, group in enumerate(_together(told[:quick]), 1):
        yield Paragraph(number, tuple(each.step for each in group), _words_of(group, teller))
    if quick < len(told):
        steps = tuple(each.step for each in told[quick:])
        placed = [place for step in steps for place in step.places]
        yield Paragraph(number + 1, steps, teller.rest(placed))


def _quick_end(told: Sequence[Told]) -> int:
    """The index of the first of the placements that end the walk and need no reasons."""
    start = len(told)
    while start and told[start - 1].step.places and len(told) - start < TOLD_QUICKLY:
        start -= 1
    return start


def _together(told: Sequence[Told]) -> Iterator[list[Told]]:
    """Neighbours that are told in one paragraph."""
    for key, group in groupby(told, key=lambda each: _kind(each.step)):
        if key in ALONE:
            yield from ([each] for each in group)
        else:
            yield list(group)


def _kind(step: Step) -> Technique:
    """What steps must share to be told together: all placements count as one technique."""
    return Technique.LAST_CELL if step.technique in PLAIN_SINGLES else step.technique


def _words_of(group: Sequence[Told], teller: Teller) -> str:
    """The sentences of a paragraph: placements of one technique share one."""
    sentences: list[str] = []
    plain: list[Told] = []
    if group[0].step.technique in PLAIN_SINGLES and len(group) > MOST_REASONED:
        group, plain = group[:FIRST_REASONED], list(group[FIRST_REASONED:])
    for technique, run in groupby(group, key=lambda each: each.step.technique):
        each_told = list(run)
        if technique in PLAIN_SINGLES:
            sentences.append(teller.placements([each.step for each in each_told]))
        else:
            sentences.extend(_strikes(each_told, teller))
    if plain:
        sentences.append(teller.follow([place for each in plain for place in each.step.places]))
    return " ".join(sentences)


def _strikes(told: Sequence[Told], teller: Teller) -> Iterator[str]:
    """A sentence for each step, but one for neighbours that say the same of the same mark."""
    for key, run in groupby(told, key=lambda each: each.key):
        group = list(run)
        if key is None or len(group) == 1:
            yield from (each.words for each in group)
        else:
            steps = [each.step for each in group]
            removes = [strike for each in group for strike in each.removes]
            left = [strike for each in group for strike in each.left]
            yield teller.together(steps, removes, left)


def _summary(paragraphs: Sequence[Paragraph], names: Names) -> str:
    """The latest steps of the hardest techniques, in the order of the walk."""
    words = names.words.walk
    strikes = [each for each in paragraphs if not each.steps[0].places]
    if not strikes:
        symbols = names.symbol_words
        return fill(words.no_summary, digit=symbols.one, digits=symbols.many)
    latest = {each.steps[0].technique: each for each in strikes}
    hardest = sorted(latest, key=lambda technique: _HARDNESS[technique])[-MOST_IN_SUMMARY:]
    chosen = sorted((latest[each] for each in hardest), key=lambda each: each.number)
    items = [
        fill(
            words.summary_step,
            number=each.number,
            technique=names.technique(each.steps[0].technique),
        )
        for each in chosen
    ]
    return fill(words.summary.of(len(items)), steps=names.words.lists.join(items))


def _unfinished(notes: Notes, names: Names) -> str:
    """Why a walk ends before the last cell: a contradiction, or nothing more is known."""
    words = names.words.walk
    if 0 in notes.pencil:
        cell = names.cell(notes.pencil.index(0))
        symbols = names.symbol_words
        return fill(words.broken, cell=cell, digit=symbols.one, digits=symbols.many)
    if notes.broken or not notes.open:
        return words.contradiction
    count = notes.open.bit_count()
    return fill(words.stuck.of(count), count=count)
