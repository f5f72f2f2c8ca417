"""Hints: where to look in a puzzle and what to look for, never what stands there."""

from layout.language.words import Words, fill
from layout.telling.names import Names, technique_key
from verify.puzzle import Puzzle
from verify.walk.facts.step import Step, Technique
from verify.walk.report.hard_places import hard_places
from verify.walk.walk import Walk


def hints(puzzle: Puzzle, walk: Walk, words: Words, most: int, turn: int = 0) -> tuple[str, ...]:
    """A sentence for each of the first hard places of a walk.

    Where a thing is said in several ways they are taken in turn, beginning with `turn`.
    """
    names = Names(puzzle, words)
    steps = hard_places(walk, most)
    told = (_hint(step, names, turn + index) for index, step in enumerate(steps))
    return tuple(dict.fromkeys(told))


def _hint(step: Step, names: Names, turn: int) -> str:
    """The sentence of one step: its technique's, with the places that it speaks of."""
    ways = _ways(step, names.words)
    symbols = names.symbol_words
    values = {**_where(step, names), "digit": symbols.one, "digits": symbols.many}
    told = fill(ways[turn % len(ways)], **values)
    return told[:1].upper() + told[1:]


def _ways(step: Step, words: Words) -> tuple[str, ...]:
    """The ways to hint at a step; the rule's own comes first where there is one."""
    ways = words.hints.says[_key(step)]
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
