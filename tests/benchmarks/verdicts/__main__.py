"""Verdicts a second, beside other programs on the same puzzles in the same run.

    python -m tests.benchmarks.verdicts [--puzzles 100] [--lines 2048] [--cases FOLDER]
        [--only ROW ...]

Each program has two worker processes. They are: ours; OR-tools CP-SAT, one worker each; z3; and
python-sat with a textbook encoding, rebuilt each time (`pip install 'reglet[bench]'`). Beside the
rates stand how many times theirs ours is, and the most memory that a worker held. Rows of
published puzzles need the folder of them, by `--cases` or REGLET_CASES. Rows of puzzles that a bank
holds in lines are as long as a stretch of a bank that two workers settle; where there are fewer
such puzzles, their disguises follow. A rate counts what is decided; where a program did not decide
all within its time, that is said below.
"""

import argparse
import os
from collections.abc import Mapping
from multiprocessing import Pool
from pathlib import Path

from tests.benchmarks.verdicts.measuring import WORKERS, Measured, measure
from tests.benchmarks.verdicts.provers import PROVERS, present
from tests.benchmarks.verdicts.rows import IN_LINES, ORDER, puzzles_of
from verify.check import TOGETHER


def main() -> None:
    """Reads the command line, measures row by row and prints the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--puzzles", type=int, default=100, help="at most, in a row")
    parser.add_argument("--lines", type=int, default=2 * TOGETHER, help="in a row of lines")
    parser.add_argument("--cases", type=Path, default=os.environ.get("REGLET_CASES"))
    parser.add_argument("--only", nargs="+", choices=ORDER, default=ORDER, metavar="ROW")
    parser.add_argument("--each", type=float, default=20, help="seconds for a puzzle")
    parser.add_argument("--most", type=float, default=60, help="seconds of a program for a row")
    options = parser.parse_args()
    names = present()
    print(heading(names))
    for row in options.only:
        with Pool(WORKERS) as pool:
            folder = options.cases and Path(options.cases)
            count = options.lines if row in IN_LINES else options.puzzles
            puzzles = puzzles_of(row, count, folder, pool)
        if not puzzles:
            print(f"{row:<12} needs published puzzles: see --cases")
            continue
        found = {name: measure(name, puzzles, options.each, options.most) for name in names}
        print(line(row, len(puzzles), found), flush=True)
        for remark in remarks(found):
            print(f"    {remark}", flush=True)


def heading(names: list[str]) -> str:
    """The names of the columns."""
    rates = "".join(f"{name + '/s':>12}" for name in names)
    ratios = "".join(f"{'/ ' + name:>12}" for name in names[1:])
    memory = "".join(f"{name + ' MiB':>13}" for name in names)
    return f"{'puzzles':<12} {'':>5}{rates}{ratios}{memory}"


def line(row: str, count: int, found: Mapping[str, Measured]) -> str:
    """One line of the table."""
    rates = "".join(f"{each.rate:>12.4g}" for each in found.values())
    ours, *others = found.values()
    times = (ours.rate / each.rate if each.rate else float("inf") for each in others)
    ratios = "".join(f"{ratio:>12.3g}" for ratio in times)
    memory = "".join(f"{each.memory:>13.0f}" for each in found.values())
    return f"{row:<12} {count:>5}{rates}{ratios}{memory}"


def remarks(found: Mapping[str, Measured]) -> list[str]:
    """What was left undecided or not come to, and where two say different words."""
    said = []
    for name, measured in found.items():
        undecided, left = measured.words.count("undecided"), measured.words.count("")
        if undecided or left:
            said.append(f"{name}: {undecided} undecided, {left} not come to")
    decided = zip(*(measured.words for measured in found.values()), strict=True)
    apart = sum(len({*words} - {"undecided", ""}) > 1 for words in decided)
    if apart:
        said.append(f"{apart} WITH DIFFERENT VERDICTS of {', '.join(PROVERS)}")
    return said


if __name__ == "__main__":
    main()
