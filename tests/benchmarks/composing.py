"""Time and grades of composed puzzles, by kind and band; CP-SAT holds each to one answer.

    python -m tests.benchmarks.composing [--count 20] [--only TEXT] [--grades calm steady stiff]

Seconds are those of this process alone, of one core.
"""

import argparse
import time
from collections import Counter
from collections.abc import Sequence
from statistics import median, quantiles

from tests.support.models import puzzle_answers
from verify.compose.composed import Commission, Composed
from verify.compose.sketch import sketch_from_text

HERON = """\
kind: sudoku
size: 9
rules:
  thermometer: [r2c3 2w, r2c3 ne e, r2c3 se sw s se e, r6c9 2nw 3w, r9c5 2n, r9c5 w, r9c7 2n]
"""

GATES = """\
kind: sudoku
size: 9
rules:
  cage:
    - {cells: [r1c1, r1c2, r2c1]}
    - {cells: [r1c9, r1c8, r2c9]}
    - {cells: [r9c1, r8c1, r9c2]}
    - {cells: [r9c9, r9c8, r8c9]}
    - {cells: [r4c5, r5c4, r5c5, r5c6, r6c5], sum: 25}
"""

REEDS = """\
kind: sudoku
size: 9
rules:
  arrow: [r2c2 2e, r2c8 2s, r8c8 2w, r8c2 2n, r5c5 2e, r5c5 2w]
"""

KINDS = {
    "classic 4x4": "kind: sudoku\nsize: 4\n",
    "classic 6x6": "kind: sudoku\nsize: 6\n",
    "classic 9x9": "kind: sudoku\nsize: 9\n",
    "classic 16x16": "kind: sudoku\nsize: 16\n",
    "thermometers 9x9": HERON,
    "cages 9x9": GATES,
    "arrows 9x9": REEDS,
}

GRADES = ("calm", "steady", "stiff", "steep", "severe")


def row(kind: str, grade: str, count: int, seconds: float) -> str:
    """One line of the table."""
    want = f"want: {{grade: {grade}, symmetry: half-turn}}\n"
    sketch = sketch_from_text(KINDS[kind] + want, "sketch.yaml")
    times: list[float] = []
    found: list[Composed] = []
    for number in range(1, count + 1):
        started = time.process_time()
        found.append(Commission(sketch, str(number), seconds).compose())
        times.append(time.process_time() - started)
    got = Counter(each.setting.grade.band.value for each in found if each.setting)
    ones = sum(len(puzzle_answers(each.setting.puzzle)) == 1 for each in found[:5] if each.setting)
    told = ", ".join(f"{number} {band}" for band, number in got.most_common())
    middle, most = median(times), quantiles(times, n=20)[-1]
    return f"{kind:18} {grade:8} {middle:7.2f} {most:7.2f}   {told}; {ones} of 5 proved by CP-SAT"


def main(arguments: Sequence[str] | None = None) -> None:
    """Prints the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=20)
    parser.add_argument("--seconds", type=float, default=60.0)
    parser.add_argument("--only", default="")
    parser.add_argument("--grades", nargs="+", choices=GRADES, default=GRADES)
    options = parser.parse_args(arguments)
    print(f"{'kind':18} {'asked':8} {'median':>7} {'95 %':>7}   got")
    for kind in KINDS:
        for grade in options.grades:
            if options.only in kind:
                print(row(kind, grade, options.count, options.seconds), flush=True)


if __name__ == "__main__":
    main()
