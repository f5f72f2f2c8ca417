"""Verdicts a second for every rule of the catalogue, beside CP-SAT with one worker.

    python -m tests.benchmarks.catalogue [--puzzles 20] [--size 9] [RULE ...]

For each rule, random minimal puzzles with marks of that rule alone; see `tests.support.sowing`.
"""

import argparse
import statistics
from typing import Final

from tests.benchmarks.verdicts.measuring import measure
from tests.support.sowing import random_minimal
from verify.rules import BY_NAME

EACH: Final = 60.0
"""Seconds for a puzzle."""

MOST: Final = 600.0
"""Seconds for all puzzles of a rule."""


def main() -> None:
    """Makes the puzzles, rule by rule, and prints the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("rules", nargs="*", metavar="RULE")
    parser.add_argument("--puzzles", type=int, default=20)
    parser.add_argument("--size", type=int, default=9)
    options = parser.parse_args()
    print(f"{'rule':<18} {'ours/s':>10} {'CP-SAT/s':>10} {'ratio':>8}")
    ratios = {}
    for name in options.rules or BY_NAME:
        puzzles = [random_minimal(name, options.size, seed) for seed in range(options.puzzles)]
        ours, theirs = (measure(who, puzzles, EACH, MOST) for who in ("ours", "CP-SAT"))
        assert ours.words == theirs.words
        ratios[name] = ours.rate / theirs.rate
        print(
            f"{name:<18} {ours.rate:>10.0f} {theirs.rate:>10.0f} {ratios[name]:>8.1f}", flush=True
        )
    slowest = min(ratios, key=lambda name: ratios[name])
    print(f"median ratio {statistics.median(ratios.values()):.1f}, least with {slowest}")


if __name__ == "__main__":
    main()
