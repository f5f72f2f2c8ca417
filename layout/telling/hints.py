"""Hints: first where to look, then what to look for, and last what follows."""

from collections.abc import Iterator
from typing import Final

from layout.language.words import Words, fill
from layout.telling.names import Names, capital, technique_key
from layout.telling.telling import Telling, tell_walk
from verify.puzzle import Puzzle
from verify.walk.facts.step import Step, Technique
from verify.walk.told.event import Based
from verify.walk.told.head import head_of
from verify.walk.told.path import ToldPath

MOST_PUSHING: Final = 3
"""Cells that push a mark and are named in a hint."""

TIERS: Final = 3
"""Hints to one step."""


def hints(
    puzzle: Puzzle, path: ToldPath, words: Words, most: int, turn: int = 0
) -> tuple[str, ...]:
    """Up to so many hints, rising: to where a puzzle breaks open, then to its hardest step.

    Where a thing is said in several ways they are taken in turn, beginning with `turn`.
    """
    telling = tell_walk(puzzle, path, words)
    teller = _Hints(Names(puzzle, words), telling)
    told = (hint for number in _worth_a_hint(path) for hint in teller.rising(number, turn))
    return tuple(dict.fromkeys(told))[:most]


def rising_hints(puzzle: Puzzle, path: ToldPath, words: Words) -> tuple[str, ...]:
    """The hints of all tiers to a path's first step, the last one with all that the path holds,
    a line for each paragraph.

    There are none where it has no step.
    """
    if not path.steps:
        return ()
    telling = tell_walk(puzzle, path, words)
    where, what, _ = _Hints(Names(puzzle, words), telling).rising(0, 0)
    return where, what, "\n".join(each.words for each in telling.paragraphs)


def _worth_a_hint(path: ToldPath) -> Iterator[int]:
    """The numbers of the steps that are hinted at: of plain singles, the first."""
    head = head_of(path.steps)
    if head.break_in is None or head.crux is None:
        yield from (0,) if path.steps else ()
        return
    yield head.break_in
    if head.crux != head.break_in:
        yield head.crux


class _Hints:
    """Hints at the steps of one telling."""

    def __init__(self, names: Names, telling: Telling) -> None:
        self._names = names
        self._telling = telling

    def rising(self, number: int, turn: int) -> Iterator[str]:
        """Where to look, what to look for, and what follows."""
        told = self._telling.steps[number]
        yield self._where_to_look(told.step, number)
        yield _hint(told.kept.based, self._names, turn)
        yield told.words

    def _where_to_look(self, step: Step, number: int) -> str:
        """The mark or the house; and when, where plain singles come first."""
        words, where = self._names.words.hints, _where(step, self._names)
        if "mark" in where:
            place = fill(words.at_mark, mark=where["mark"])
        elif "in" in where:
            place = fill(words.at_house, **{"in": where["in"]})
        else:
            place = fill(words.at_cell, cell=where["cell"])
        steps = self._telling.steps[:number]
        if steps and all(each.step.places for each in steps):
            return fill(words.after_singles, place=place)
        if steps:
            return fill(words.later, place=place)
        return capital(fill(words.at_once, place=place))


def _hint(based: Based, names: Names, turn: int) -> str:
    """The sentence of one step: its technique's, with the places that it speaks of."""
    ways = _ways(based, names.words)
    symbols = names.symbol_words
    values = {**_where(based.step, names), "digit": symbols.one, "digits": symbols.many}
    values["cells"] = names.cells(cell for cell, _ in based.needs)
    told = fill(ways[turn % len(ways)], **values)
    return capital(told)


def _ways(based: Based, words: Words) -> tuple[str, ...]:
    """The ways to hint at a step: by what pushes a mark, or else by the rule's own first."""
    step = based.step
    ways = words.hints.says[_key(step)]
    if step.technique is Technique.MARK and 0 < len(based.needs) <= MOST_PUSHING:
        return words.hints.says["mark-pushed"]
    own = words.rules[step.rule].hint if step.technique is Technique.MARK else ""
    return (own, *ways) if own else ways


def _key(step: Step) -> str:
    """By what name the words know the sentence."""
    if step.technique is Technique.ARRANGEMENTS and step.because.digits:
        return "arrangements-in-a-house"
    return technique_key(step.technique)


def _where(step: Step, names: Names) -> dict[str, str]:
    """The house, the lines, the mark and the cell where the step begins, as far as it has them."""
    because = step.because
    where: dict[str, str] = {}
    if because.houses:
        lines = because.houses[: max(len(because.houses) // 2, 1)]
        where |= {"in": names.house(because.houses[0]), "lines": names.houses(lines)}
    if because.links:
        where["mark"] = names.mark(because.links[0])
    if step.chain:
        where["cell"] = names.cell(step.chain[0].cell)
    elif step.ways:
        where["cell"] = names.cell(step.ways[0][0].cell)
    elif because.cells:
        where["cell"] = names.cell(because.cells[0])
    return where
