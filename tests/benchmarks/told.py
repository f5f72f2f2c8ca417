"""How walks of random minimal puzzles are told: how many finish, how long they are, how soon.

    python -m tests.benchmarks.told [--puzzles 10] [--from 0] [--size 9] [--seconds 60] [RULE ...]

For each rule, puzzles with marks of that rule alone; see `tests.support.sowing`. A line tells how
many told paths finish, then the median and the 95th of a hundred of their sentences that strike,
of their suppositions, and of the processor's seconds. A path that takes more seconds than it may
does not finish.
"""

import argparse
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from tests.support.sowing import random_minimal
from verify.budget import Deadline
from verify.puzzle import Puzzle
from verify.rules import BY_NAME
from verify.walk.told.event import SUPPOSED
from verify.walk.told.path import told_path


@dataclass(frozen=True, slots=True)
class Measured:
    """One path: whether it finishes, its sentences that strike, its suppositions, its seconds."""

    finished: bool
    sentences: int
    supposed: int
    seconds: float


def main() -> None:
    """Makes the puzzles, rule by rule, and prints the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("rules", nargs="*", metavar="RULE")
    parser.add_argument("--puzzles", type=int, default=10)
    parser.add_argument("--from", type=int, default=0, dest="first")
    parser.add_argument("--size", type=int, default=9)
    parser.add_argument("--seconds", type=float, default=60.0)
    options = parser.parse_args()
    print(f"{'rule':<20}{'finished':>10}", end="")
    print("".join(f"{each:>11}{'95 %':>7}" for each in ("sentences", "ifs", "seconds")))
    seeds = range(options.first, options.first + options.puzzles)
    for name in options.rules or BY_NAME:
        puzzles = (random_minimal(name, options.size, seed) for seed in seeds)
        print(line(name, [measured(puzzle, options.seconds) for puzzle in puzzles]), flush=True)


def measured(puzzle: Puzzle, seconds: float) -> Measured:
    """How one puzzle is told."""
    start = time.process_time()
    path = told_path(puzzle, Deadline.after(seconds))
    spent = time.process_time() - start
    strikes = [kept.step for kept in path.steps if kept.step.removes]
    supposed = sum(step.technique in SUPPOSED for step in strikes)
    return Measured(path.finished, len(strikes), supposed, spent)


def line(name: str, paths: Sequence[Measured]) -> str:
    """A line of the table."""
    share = f"{sum(each.finished for each in paths)}/{len(paths)}"
    return f"{name:<20}{share:>10}" + "".join(_columns(paths))


def _columns(paths: Sequence[Measured]) -> Iterator[str]:
    """The middle and the late one of each figure, of all paths that finish; seconds of all."""
    told = [each for each in paths if each.finished]
    yield from _pair([each.sentences for each in told], "d")
    yield from _pair([each.supposed for each in told], "d")
    yield from _pair([each.seconds for each in paths], ".2f")


def _pair(figures: Sequence[float], form: str) -> Iterator[str]:
    order = sorted(figures)
    if not order:
        yield f"{'-':>11}{'-':>7}"
        return
    middle, late = order[len(order) // 2], order[min(len(order) - 1, len(order) * 95 // 100)]
    yield f"{middle:>11{form}}{late:>7{form}}"


if __name__ == "__main__":
    main()
