"""Why a verdict is what it is, in the names of the manifest: what helps whoever changes it."""

from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from verify.budget import Budget, BudgetSpent, Deadline
from verify.lesser import Lesser, lessers
from verify.manifest.yaml_text import read_tree
from verify.minimal import First
from verify.named_parts import NamedPart, named_lesser, named_parts
from verify.pencil import Grid
from verify.proof.conflict import conflict_of
from verify.proof.several import USUAL_COUNT, several
from verify.proof.spare import spare_exchanges, spare_parts
from verify.proof.verdict import Verdict
from verify.puzzle import Puzzle, Rows
from verify.reading.node import Fields
from verify.reading.problems import Problems


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is wanted beside a verdict: how many answers are counted at most, and what is spare.

    `minimal` asks for a minimal puzzle, and says what is left out first.
    """

    count: int = USUAL_COUNT
    spare: bool = False
    minimal: First | None = None


@dataclass(frozen=True, slots=True)
class WhyNone:
    """Parts that can't stand together; `smallest` where none of them can be left out."""

    parts: tuple[NamedPart, ...]
    smallest: bool


@dataclass(frozen=True, slots=True)
class WhyMany:
    """What is known of many answers: see `verify.proof.several.Several`.

    `closest` are rows of symbols, `pattern` names of cells. `settling` are givens, None where
    that is undecided.
    """

    count: int
    more: bool | None
    closest: tuple[Rows, Rows]
    pattern: tuple[str, ...]
    smallest: bool
    settling: tuple[NamedPart, ...] | None


@dataclass(frozen=True, slots=True)
class Spared:
    """Parts that could each be left out, and those of which that is undecided."""

    parts: tuple[NamedPart, ...]
    undecided: tuple[NamedPart, ...]


def why_none(
    puzzle: Puzzle, path: Path | None, budget: Budget, deadline: Deadline
) -> WhyNone | None:
    """What can't stand together; None where no reason was found within the budget.

    `path` is the manifest's file, None for a puzzle of a bank.
    """
    conflict = conflict_of(puzzle, deadline, budget.conflicts)
    if conflict is None:
        return None
    return WhyNone(named_parts(puzzle, conflict.parts, path), conflict.smallest)


def why_many(
    puzzle: Puzzle, verdict: Verdict, most: int, budget: Budget, deadline: Deadline
) -> WhyMany:
    """What is known of the answers, at most so many of them counted."""
    found = several(puzzle, verdict, most, deadline, budget.conflicts)
    one, other = map(puzzle.rows_of, found.closest)
    settling = None
    if found.settling is not None:
        # They are no parts of the manifest yet, so they have no line.
        settling = tuple(
            NamedPart(puzzle.board.name(cell), puzzle.symbol(digit))
            for cell, digit in found.settling
        )
    pattern = tuple(map(puzzle.board.name, found.pattern))
    return WhyMany(found.count, found.more, (one, other), pattern, found.smallest, settling)


def spared(puzzle: Puzzle, verdict: Verdict, path: Path | None, deadline: Deadline) -> Spared:
    """What could be left out of a puzzle that has one answer; `path` as for `why_none`.

    Of marks that can't be left out, also what they could do without.
    """
    answer = verdict.answers[0]
    spare = spare_parts(puzzle, answer, deadline)
    parts = named_parts(puzzle, spare.parts, path)
    undecided = named_parts(puzzle, spare.undecided, path)
    with suppress(BudgetSpent):
        whole = {*spare.parts, *spare.undecided}
        ways = [
            lesser
            for lesser in _ways_to_say_less(puzzle, answer, path, deadline)
            if lesser.exchange.left and whole.isdisjoint(lesser.exchange.gone)
        ]
        exchanges = tuple(lesser.exchange for lesser in ways)
        less, open_ones = spare_exchanges(puzzle, answer, exchanges, deadline)
        parts += tuple(named_lesser(puzzle, each) for each in ways if each.exchange in less)
        undecided += tuple(
            named_lesser(puzzle, each) for each in ways if each.exchange in open_ones
        )
    return Spared(parts, undecided)


def _ways_to_say_less(
    puzzle: Puzzle, answer: Grid, path: Path | None, deadline: Deadline
) -> Iterator[Lesser]:
    """Every way; none for a puzzle of a bank."""
    if path is not None:
        root = read_tree(path, puzzle.file, Problems())
        rules = root.get("rules") if isinstance(root, Fields) else None
        if isinstance(rules, Fields):
            yield from lessers(puzzle, rules, answer, set(), deadline)
