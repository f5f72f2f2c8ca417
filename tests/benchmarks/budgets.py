"""Hostile puzzles of every rule against a budget: wall time and peak memory of Reglet's commands.

    python -m tests.benchmarks.budgets [--seconds 2] [--size 25] [--command check ...] [PUZZLE ...]

PUZZLE is part of a name, such as `cages`; without one, all of `tests.benchmarks.hostile`. The time
that Python itself needs, told by `reglet --version`, does not count. A row is marked `over` where
a run takes more than 1.5 times its budget, or more than 1 GiB; beside it stands the processor's
time by the budget, which tells what a busy machine adds.
"""

import argparse
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from tests.benchmarks.hostile import BOXES, hostile

RATIO: Final = 1.5
MOST_MIB: Final = 1024

COMMANDS: Final = {
    "check": ["check", "--grade", "--no-cache"],
    "walk": ["walk"],
    "report": ["walk", "--report"],
}
"""What is run on each puzzle, by the name of its row."""

PROGRAM: Final = "import sys; from layout.command import main; sys.exit(main(sys.argv[1:]))"


@dataclass(frozen=True, slots=True)
class Run:
    """Seconds, those of the processor and MiB that a run took, and the first line that it told."""

    seconds: float
    spent: float
    room: float
    told: str


def measured(*command: str) -> Run:
    """Runs Reglet in a process of its own."""
    began = time.monotonic()
    with tempfile.TemporaryFile("w+") as out:
        child = subprocess.Popen([sys.executable, "-c", PROGRAM, *command], stdout=out, stderr=out)
        _, status, usage = os.wait4(child.pid, 0)
        child.returncode = os.waitstatus_to_exitcode(status)
        took = time.monotonic() - began
        out.seek(0)
        lines = out.read().strip().splitlines() or ["(nothing)"]
    return Run(took, usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024, lines[0])


def main() -> None:
    """Runs every command on every puzzle that was asked for, and prints the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("puzzles", nargs="*", metavar="PUZZLE")
    parser.add_argument("--seconds", type=float, default=2)
    parser.add_argument("--size", type=int, choices=BOXES, default=25)
    parser.add_argument("--command", choices=COMMANDS, action="append")
    options = parser.parse_args()
    start = min(measured("--version").seconds for _ in range(3))
    over = 0
    print(f"{'puzzle':24} {'command':8} {'ratio':>6} {'spent':>6} {'MiB':>6}")
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "flood.yaml"
        for puzzle in hostile(options.size):
            if not _wanted(puzzle.name, options.puzzles):
                continue
            path.write_text(puzzle.manifest(), encoding="utf-8")
            for name in options.command or ("check", "walk"):
                what, *more = COMMANDS[name]
                run = measured(what, str(path), *more, "--seconds", f"{options.seconds:g}")
                ratio = (run.seconds - start) / options.seconds
                bad = ratio > RATIO or run.room > MOST_MIB
                over += bad
                told = run.told.removeprefix(str(path))[:50]
                spent = run.spent / options.seconds
                row = f"{puzzle.name:24} {name:8} {ratio:6.2f} {spent:6.2f} {run.room:6.0f}"
                print(f"{row} {'over' if bad else '':5}{told}", flush=True)
    print(f"{over} over; a start takes {start:.2f} s")


def _wanted(name: str, parts: Sequence[str]) -> bool:
    return not parts or any(part in name for part in parts)


if __name__ == "__main__":
    main()
