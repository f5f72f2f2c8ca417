"""Verdicts a second for every rule of the catalogue, beside CP-SAT with one worker.

    python -m tests.benchmarks.catalogue [--puzzles 20] [--rounds 3] [--size 9] [RULE ...]

For each rule, random minimal puzzles with marks of that rule alone; see `tests.support.sowing`.
"""

import argparse
import statistics
import sys

from tests.benchmarks.verdicts import HEADING, compare
from tests.support.sowing import random_minimal
from verify.rules import BY_NAME


def main() -> None:
    """Makes the puzzles, rule by rule, and prints the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("rules", nargs="*", metavar="RULE")
    parser.add_argument("--puzzles", type=int, default=20)
    parser.add_argument("--rounds", type=int, default=3)
    parser.add_argument("--size", type=int, default=9)
    options = parser.parse_args()
    print(HEADING)
    ratios = {}
    for name in options.rules or BY_NAME:
        puzzles = [random_minimal(name, options.size, seed) for seed in range(options.puzzles)]
        ratios[name] = compare(name, puzzles, options.rounds)
        sys.stdout.flush()
    slowest = min(ratios, key=lambda name: ratios[name])
    print(f"median ratio {statistics.median(ratios.values()):.1f}, least with {slowest}")


if __name__ == "__main__":
    main()
