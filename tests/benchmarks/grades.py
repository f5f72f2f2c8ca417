"""Grades of published lists of classic puzzles, by list, and how well scores rank as lists do.

    REGLET_CASES=FOLDER python -m tests.benchmarks.grades [--puzzles 300] [--sample 40]

The table holds up to `--puzzles` of each list, evenly spread. The correlations (Spearman's, ties
sharing the mean of their ranks) are those of an even sample of each list whose place in an order
is known; an ungraded puzzle counts for more than any score.
"""

import argparse
import sys
from collections import Counter
from collections.abc import Sequence
from statistics import mean

from tests.support.boards import classic
from tests.support.published import CASES, RISING, lines, listed, spread
from tests.support.spearman import spearman
from verify.walk.report.grade import Band, Grade, grade
from verify.walk.walk import walk
from verify.work import in_order

OTHERS = ("clue17", "classic17", "hardest11")
"""Lists that have no place in that order."""


def graded(line: str) -> Grade:
    """The grade of one puzzle."""
    return grade(walk(classic(line), reasons=False))


def score(found: Grade) -> float:
    """The score; an ungraded puzzle counts for more than any."""
    return 11.0 if found.score is None else found.score


def row(name: str, found: Sequence[Grade]) -> str:
    """A line of the table, as DEVELOPERS.md has it."""
    counts = Counter(each.band for each in found)
    cells = [str(counts[band] or "") for band in Band]
    average = f"{mean(map(score, found)):.1f}"
    return " | ".join(["| `" + name + "`", str(len(found)), average, *cells]) + " |"


def ranked(lists: Sequence[Sequence[Grade]]) -> float:
    """The rank correlation between the place of a list and the scores in it."""
    places = [place for place, found in enumerate(lists) for _ in found]
    return spearman(places, [score(each) for found in lists for each in found])


def main() -> int:
    """Grades the lists and prints the table and the correlations."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--puzzles", type=int, default=300)
    parser.add_argument("--sample", type=int, default=40)
    parser.add_argument("--jobs", type=int, default=None)
    options = parser.parse_args()
    if CASES is None:
        print("REGLET_CASES names no folder of cases", file=sys.stderr)
        return 1
    print("| list | puzzles | mean score | " + " | ".join(band.value for band in Band) + " |")
    for name in (*RISING, *OTHERS):
        puzzles = lines("classic17.txt") if name == "classic17" else listed(name)
        found = list(in_order(graded, spread(puzzles, options.puzzles), options.jobs))
        print(row(name, found), flush=True)
    sampled = [
        list(in_order(graded, spread(listed(name), options.sample), options.jobs))
        for name in RISING
    ]
    print(f"Spearman, {options.sample} of each list: {ranked(sampled):.2f}")
    print(f"without {RISING[-1]}: {ranked(sampled[:-1]):.2f}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
