"""How long marks of every rule take to strike once: the time between two looks at the clock.

    python -m tests.benchmarks.strikes [--size 25]

Each mark of each puzzle of `tests.benchmarks.hostile` is asked once, on a sheet without a digit and
on one with every third candidate struck. A row tells the slowest mark, in milliseconds, and is
marked `over` past a tenth of a second.
"""

import argparse
import random
import time

from tests.benchmarks.hostile import BOXES, hostile
from verify.manifest.read import puzzle_from_text
from verify.pencil import Pencil
from verify.proof.propagate import penciled
from verify.puzzle import Puzzle
from verify.rule import Constraint

MOST = 0.1


def main() -> None:
    """Prints a row for each puzzle, and how many are over."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--size", type=int, choices=BOXES, default=25)
    options = parser.parse_args()
    over = 0
    print(f"{'puzzle':24} {'marks':>6} {'open':>8} {'holed':>8}")
    for each in hostile(options.size):
        if each.name == "everything":
            continue
        puzzle = puzzle_from_text(each.manifest(), "flood.yaml")
        marks = list(puzzle.constraints())
        first, then = slowest(marks, penciled(puzzle)), slowest(marks, holed(puzzle))
        bad = max(first, then) > MOST
        over += bad
        row = f"{each.name:24} {len(marks):6} {1000 * first:8.1f} {1000 * then:8.1f}"
        print(f"{row} {'over' if bad else ''}", flush=True)
    print(f"{over} over")


def slowest(marks: list[Constraint], pencil: Pencil) -> float:
    """Seconds of the processor that the slowest mark takes."""
    return max(seconds(mark, pencil) for mark in marks)


def seconds(mark: Constraint, pencil: Pencil) -> float:
    """Seconds of the processor for all that a mark strikes."""
    began = time.process_time()
    for _ in mark.strikes(pencil):
        pass
    return time.process_time() - began


def holed(puzzle: Puzzle) -> Pencil:
    """A sheet on which a third of all candidates is struck, always the same ones."""
    dice = random.Random(1)
    return [
        mask & ~sum(1 << digit for digit in range(1, 26) if dice.random() < 1 / 3) or mask
        for mask in penciled(puzzle)
    ]


if __name__ == "__main__":
    main()
