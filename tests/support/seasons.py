"""Small columns for the tests: banks of 4x4 puzzles, of which no two are disguises."""

from functools import cache
from itertools import permutations
from pathlib import Path

from tests.support.boards import plain
from tests.support.checkout import BOOKS
from tests.support.maker import answers, with_givens

BANK = BOOKS / "daily" / "bank" / "creeks.txt"
"""The bank of the demo."""

ANSWER = (1, 2, 3, 4, 3, 4, 1, 2, 2, 3, 4, 1, 4, 1, 2, 3)
"""Reads otherwise however it is turned or reflected."""

JOB = """\
job: column
title: Small Water
width: 60mm
puzzles: [bank/*.txt]
schedule:
  from: 2027-02-26
  issues: 4
  days: mon-sat
output:
  folder: build
  formats: [svg]
"""
"""Four days from a Friday on, one file each."""


@cache
def small_bank(count: int) -> tuple[str, ...]:
    """Lines of as many 4x4 puzzles, each with another number of givens and another answer.

    The first has `ANSWER`.
    """
    board = plain(4, (2, 2))
    lines = []
    for digits, givens in zip(permutations((1, 2, 3, 4)), range(16, 16 - count, -1), strict=False):
        order = [(7 * cell + 3) % 16 for cell in range(16)]
        kept = [digits[ANSWER[cell] - 1] if order[cell] < givens else 0 for cell in range(16)]
        assert len(answers(with_givens(board, kept))) == 1
        lines.append("".join(map(str, kept)))
    return tuple(lines)


def write_column(folder: Path, job: str = JOB, count: int = 6) -> Path:
    """A job with its bank in a folder; gives the path of the job."""
    (folder / "bank").mkdir(parents=True, exist_ok=True)
    (folder / "bank" / "eel.txt").write_text("\n".join(small_bank(count)) + "\n")
    path = folder / "daily.yaml"
    path.write_text(job, encoding="utf-8")
    return path
