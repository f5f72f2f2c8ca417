"""How many walks of random minimal puzzles finish, and how long they take, beside the verdicts.

    python -m tests.benchmarks.walks [--puzzles 20] [--size 9] [RULE ...]

For each rule, puzzles with marks of that rule alone; see `tests.support.sowing`. Times are those of
the processor, in milliseconds: the median walk in rounds, and the 95th of a hundred; the same of
the told path; and the median verdict.
"""

import argparse
import sys
import time
from collections.abc import Callable, Sequence
from functools import partial

from tests.support.sowing import random_minimal
from verify.proof.verdict import prove
from verify.puzzle import Puzzle
from verify.rules import BY_NAME
from verify.walk.told.path import told_path
from verify.walk.walk import walk

HEADING = (
    f"{'rule':<20}{'finished':>10}{'rounds':>10}{'95 %':>10}{'told':>10}{'95 %':>10}{'verdict':>10}"
)


def main() -> None:
    """Makes the puzzles, rule by rule, and prints the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("rules", nargs="*", metavar="RULE")
    parser.add_argument("--puzzles", type=int, default=20)
    parser.add_argument("--size", type=int, default=9)
    options = parser.parse_args()
    print(HEADING)
    for name in options.rules or BY_NAME:
        puzzles = [random_minimal(name, options.size, seed) for seed in range(options.puzzles)]
        print(line(name, puzzles))
        sys.stdout.flush()


def line(name: str, puzzles: Sequence[Puzzle]) -> str:
    """A line of the table."""
    verdicts = sorted(spent(partial(prove, puzzle)) for puzzle in puzzles)
    finished = sum(walk(puzzle, reasons=False).finished for puzzle in puzzles)
    walks = sorted(spent(partial(walk, puzzle, reasons=False)) for puzzle in puzzles)
    paths = sorted(spent(partial(told_path, puzzle)) for puzzle in puzzles)
    middle, late = len(walks) // 2, min(len(walks) - 1, len(walks) * 95 // 100)
    times = walks[middle], walks[late], paths[middle], paths[late], verdicts[middle]
    share = f"{finished}/{len(puzzles)}"
    return f"{name:<20}{share:>10}" + "".join(f"{1000 * each:>10.1f}" for each in times)


def spent(work: Callable[[], object]) -> float:
    """Seconds of the processor that some work takes."""
    start = time.process_time()
    work()
    return time.process_time() - start


if __name__ == "__main__":
    main()
