"""Walks in rounds, without reasons, now and as they were in an older commit, on the same puzzles.

    python -m tests.benchmarks.engine COMMIT [--puzzles 5] [--size 9] [--lines 100] [RULE ...]

For each rule, random minimal puzzles with marks of that rule alone; then the demo books' puzzles,
and the published lists (REGLET_CASES), up to `--lines` of each. The older state lies in a worktree
of its own while this runs. Two processes walk in turn, long walks once, others three times, of
which the least counts: seconds of the processor. `times` is how many times as fast the median
puzzle is now. What the older state doesn't know, or sows differently, is left out; a walk that
takes a minute ends there.
"""

import argparse
import json
import os
import statistics
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any, Final, NamedTuple

from tests.support.checkout import BOOKS, ROOT
from tests.support.published import CASES, RISING, listed, spread
from tests.support.sowing import random_minimal
from verify.rules import BY_NAME

RUNS: Final = 3
SHORTEST: Final = 1e-4
"""Seconds that a clock can tell."""

LONG: Final = 1.0
"""Seconds in the older state from which a walk is long."""

HEADING: Final = (
    f"{'puzzles':<20}{'same':>8}{'before':>10}{'now':>10}{'times':>8}{'slowest':>10}{'now':>10}"
)


class Walked(NamedTuple):
    """Seconds of one puzzle before and now, and whether both walks finished or neither."""

    before: float
    now: float
    alike: bool

    @property
    def times(self) -> float:
        """How many times as fast it is now."""
        return self.before / max(self.now, SHORTEST)


class Walker:
    """A process that walks puzzles with one state of the house."""

    def __init__(self, checkout: Path) -> None:
        script = Path(__file__).with_name("walker.py")
        self._process = subprocess.Popen(
            [sys.executable, str(script)],
            cwd=checkout,
            env={**os.environ, "PYTHONPATH": str(checkout)},
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
        )

    def walk(self, what: Sequence[Any]) -> list[Any] | None:
        """What `tests.benchmarks.walker` answers."""
        assert self._process.stdin is not None
        assert self._process.stdout is not None
        print(json.dumps(what), file=self._process.stdin, flush=True)
        answer: list[Any] | None = json.loads(self._process.stdout.readline())
        return answer

    def end(self) -> None:
        """Ends the process."""
        self._process.terminate()
        self._process.wait()


def compared(what: Sequence[Any], before: Walker, now: Walker) -> Walked | None:
    """One puzzle in both states; None where they don't have the same."""
    told: list[Walked] = []
    while len(told) < RUNS and not (told and told[0].before > LONG):
        then, here = before.walk(what), now.walk(what)
        if then is None or here is None or then[2] != here[2]:
            return None
        told.append(Walked(then[0], here[0], then[1] == here[1]))
    return Walked(min(w.before for w in told), min(w.now for w in told), told[0].alike)


def row(name: str, asked: Sequence[Sequence[Any]], before: Walker, now: Walker) -> list[Walked]:
    """Walks some puzzles and prints a line."""
    found = [each for what in asked if (each := compared(what, before, now)) is not None]
    if found:
        columns = zip(*((each.before, each.now, each.times) for each in found), strict=True)
        middle = [statistics.median(column) for column in columns]
        slowest = max(found)
        print(
            f"{name:<20}{f'{len(found)}/{len(asked)}':>8}{middle[0]:>10.4f}{middle[1]:>10.4f}"
            f"{middle[2]:>8.1f}{slowest.before:>10.3f}{slowest.now:>10.3f}",
            flush=True,
        )
    else:
        print(f"{name:<20}{f'0/{len(asked)}':>8}", flush=True)
    return found


@contextmanager
def worktree(commit: str) -> Iterator[Path]:
    """A commit's files in a folder of their own, for as long as they are needed."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "before"
        git = ["git", "-C", str(ROOT), "worktree"]
        subprocess.run([*git, "add", "--detach", "--quiet", str(path), commit], check=True)
        try:
            yield path
        finally:
            subprocess.run([*git, "remove", "--force", str(path)], check=True)


def summary(rules: Sequence[Sequence[Walked]]) -> None:
    """What the table comes to."""
    medians = [statistics.median(each.times for each in found) for found in rules if found]
    if medians:
        print(f"median rule: {statistics.median(medians):.1f} times as fast")
    every = [each for found in rules for each in found]
    slow = [each.times for each in every if each.before > LONG]
    if slow:
        middle = statistics.median(slow)
        print(f"{len(slow)} above {LONG} s: {middle:.1f} times as fast, {min(slow):.1f} at least")
    print(f"{sum(not each.alike for each in every)} of {len(every)} finish in one state alone")


def main() -> None:
    """Walks rule by rule, then books and lists, and prints the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("commit")
    parser.add_argument("rules", nargs="*", metavar="RULE")
    parser.add_argument("--puzzles", type=int, default=5)
    parser.add_argument("--size", type=int, default=9)
    parser.add_argument("--lines", type=int, default=100)
    options = parser.parse_intermixed_args()
    with worktree(options.commit) as checkout:
        before, now = Walker(checkout), Walker(ROOT)
        print(HEADING, flush=True)
        rules = []
        for name in options.rules or BY_NAME:
            asked: list[Sequence[Any]] = [
                ("rule", name, options.size, seed, random_minimal(name, options.size, seed).givens)
                for seed in range(options.puzzles)
            ]
            rules.append(row(name, asked, before, now))
        if not options.rules:
            for book in sorted(BOOKS.glob("*/puzzles")):
                files: list[Sequence[Any]] = [
                    ("file", str(path)) for path in sorted(book.rglob("*.yaml"))
                ]
                row(book.parent.name, files, before, now)
        if CASES is not None and not options.rules:
            for name in (*RISING, "clue17"):
                asked = [("line", line) for line in spread(listed(name), options.lines)]
                found = row(name, asked, before, now)
                print(
                    f"    {len(found) / sum(each.now for each in found):.0f} a second on one core"
                )
        summary(rules)
        before.end()
        now.end()


if __name__ == "__main__":
    main()
