"""What a manifest says with one thing less: which marks go, and which come for them."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

from verify.budget import Deadline
from verify.pencil import Grid
from verify.proof.parts import marks_of
from verify.proof.spare import Exchange
from verify.puzzle import Puzzle
from verify.reading.fewer import Fewer, with_field
from verify.reading.node import Fields, Node, Place
from verify.reading.problems import Problems
from verify.reading.reader import Reader
from verify.rule import Use
from verify.rules import GROUND


@dataclass(frozen=True, slots=True)
class Lesser:
    """A rule of a manifest with one thing less; `use` and `node` are None where it is gone.

    `lacks` is what one of its marks is without, as in `verify.reading.fewer.Fewer`, and nothing
    where marks are gone as a whole.
    """

    rule: str
    lacks: str
    place: Place
    use: Use[Any] | None
    node: Node | None
    exchange: Exchange


Tried = set[tuple[Place, str]]
"""What was looked at before: its place, and what it would be without."""


def lessers(
    puzzle: Puzzle, rules: Fields, answer: Grid, tried: Tried, deadline: Deadline
) -> Iterator[Lesser]:
    """Each way to say less in one of the rules, in the order of the manifest.

    Only where the answer keeps what is left. Ways that were tried are passed over. Raises
    BudgetSpent after the deadline.
    """
    reader = Reader(puzzle.board, Problems())
    for use in puzzle.uses:
        node = rules.get(use.rule.name)
        if node is None or use.rule.name in GROUND:
            continue
        for fewer in use.rule.grammar.fewer(node, reader):
            deadline.check()
            if (fewer.place, fewer.lacks) not in tried:
                found = _lesser(puzzle, use, fewer, answer)
                if found is not None:
                    yield found
        whole = Exchange(tuple(marks_of(use, puzzle.board)))
        yield Lesser(use.rule.name, "", node.place, None, None, whole)


def _lesser(puzzle: Puzzle, use: Use[Any], fewer: Fewer, answer: Grid) -> Lesser | None:
    """What is gone and what has come; None where it does not read, or says something else."""
    problems = Problems()
    read = use.rule.read(fewer.node, Reader(puzzle.board, problems))
    if problems.found or not read:
        return None
    changed = Use(use.rule, read)
    old, new = (dict.fromkeys(marks_of(each, puzzle.board)) for each in (use, changed))
    gone = tuple(part for part in old if part not in new)
    left = tuple(part for part in new if part not in old)
    if not gone or not all(each.holds(answer) for part in left for each in part.constraints):
        return None
    if left and not fewer.lacks:
        return None  # another word in its place may say more
    lacks = fewer.lacks if left else ""
    return Lesser(use.rule.name, lacks, fewer.place, changed, fewer.node, Exchange(gone, left))


def without(puzzle: Puzzle, rules: Fields, lesser: Lesser) -> tuple[Puzzle, Fields]:
    """The puzzle and its rules with that less."""
    uses = [lesser.use if use.rule.name == lesser.rule else use for use in puzzle.uses]
    left = replace(puzzle, uses=tuple(use for use in uses if use is not None))
    return left, with_field(rules, lesser.rule, lesser.node)
