"""Whether walks of many random puzzles are true, rule by rule; prints the first untruths.

    python -m tests.benchmarks.truths [--puzzles 6] [--from 0] [--size 9] [--share 0.1] [RULE ...]

Each puzzle is walked twice: with a share of its cells given, however many answers that leaves,
and with just so many more givens that one answer is left. See `tests.support.truths`. The path
that is told of it is looked through as well, also for steps that it can spare: see
`tests.support.told`.
"""

import argparse
import random
import time

from tests.support.sowing import sown
from tests.support.told import faults, needless
from tests.support.truths import loosened, some_answers, tightened, untruths
from verify.puzzle import Puzzle
from verify.rules import BY_NAME
from verify.walk.told.path import told_path
from verify.walk.walk import walk

TOLD = 3
"""Untruths that are printed of each rule."""


def two_puzzles(rule: str, size: int, seed: int, share: float) -> tuple[Puzzle, Puzzle]:
    """One with few givens, and one with a single answer."""
    dice = random.Random(f"{rule} {seed}")
    puzzle, answer = sown(rule, size, seed)
    loose = loosened(puzzle, answer, share, dice)
    return loose, tightened(loose, answer, dice)


def main() -> None:
    """Walks the puzzles of each rule and prints a line for it."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("rules", nargs="*", metavar="RULE")
    parser.add_argument("--puzzles", type=int, default=6)
    parser.add_argument("--from", type=int, default=0, dest="first")
    parser.add_argument("--size", type=int, default=9)
    parser.add_argument("--share", type=float, default=0.1)
    options = parser.parse_args()
    for rule in options.rules or BY_NAME:
        found: list[str] = []
        steps, seconds = 0, 0.0
        for seed in range(options.first, options.first + options.puzzles):
            for puzzle in two_puzzles(rule, options.size, seed, options.share):
                known = some_answers(puzzle, 3, random.Random(seed))
                started = time.perf_counter()
                walked = walk(puzzle)
                seconds += time.perf_counter() - started
                steps += sum(1 for _ in walked.every_step)
                found += [f"seed {seed}: {each}" for each in untruths(puzzle, walked, known)]
                path = told_path(puzzle)
                spare = [f"needless: step {number}" for number in needless(puzzle, path)]
                found += [f"seed {seed}: {each}" for each in (*faults(puzzle, path, known), *spare)]
        print(f"{rule:<18} {steps:>6} steps {seconds:>7.1f} s {len(found):>4} untrue", flush=True)
        for each in found[:TOLD]:
            print(f"    {each}")


if __name__ == "__main__":
    main()
