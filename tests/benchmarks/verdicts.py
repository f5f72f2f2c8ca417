"""Verdicts a second, beside OR-tools CP-SAT with one worker on the same puzzles in the same run.

    python -m tests.benchmarks.verdicts [--puzzles 100] [--rounds 5]

Each round proves every puzzle with the one, then with the other; the ratio is taken round by
round, so that it holds when the machine's speed drifts. Our solver keeps what it learns about
the houses, so it is made to forget before each round.
"""

import argparse
import statistics
import time
from collections.abc import Callable, Sequence

from tests.support import maker
from tests.support.boards import plain
from tests.support.models import puzzle_answers
from tests.support.sowing import random_minimal
from verify.proof.solver import forget
from verify.proof.verdict import prove
from verify.puzzle import Puzzle


def minimal_classics(count: int) -> list[Puzzle]:
    """Random classic puzzles of which no given can be spared."""
    return [maker.make(plain(9, (3, 3)), seed) for seed in range(count)]


def minimal_thermometers(count: int) -> list[Puzzle]:
    """The same with thermometers."""
    return [random_minimal("thermometer", 9, seed) for seed in range(count)]


def seconds(task: Callable[[Puzzle], object], puzzles: Sequence[Puzzle]) -> float:
    """The time for all puzzles, one after another."""
    forget()
    started = time.perf_counter()
    for puzzle in puzzles:
        task(puzzle)
    return time.perf_counter() - started


HEADING = f"{'puzzles':<18} {'ours/s':>10} {'CP-SAT/s':>10} {'ratio':>8}"


def compare(name: str, puzzles: Sequence[Puzzle], rounds: int) -> float:
    """Prints one line of the table: verdicts a second of both, and the ratio, which it returns."""
    for puzzle in puzzles:
        assert prove(puzzle).word == "one"
        assert len(puzzle_answers(puzzle)) == 1
    pairs = [(seconds(prove, puzzles), seconds(puzzle_answers, puzzles)) for _ in range(rounds)]
    ours, theirs = (statistics.median(side) for side in zip(*pairs, strict=True))
    ratio = statistics.median(their / our for our, their in pairs)
    count = len(puzzles)
    print(f"{name:<18} {count / ours:>10.0f} {count / theirs:>10.0f} {ratio:>8.1f}")
    return ratio


def main() -> None:
    """Makes the puzzles and prints the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--puzzles", type=int, default=100)
    parser.add_argument("--rounds", type=int, default=5)
    options = parser.parse_args()
    print(HEADING)
    compare("classic", minimal_classics(options.puzzles), options.rounds)
    compare("thermometer", minimal_thermometers(options.puzzles), options.rounds)


if __name__ == "__main__":
    main()
