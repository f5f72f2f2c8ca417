"""Walks puzzles that are named on its input, and tells how long each walk takes.

    PYTHONPATH=CHECKOUT python tests/benchmarks/walker.py

It is run on older states of the house, too: it names only what they have. Each line of its input
is a list in JSON: `["rule", NAME, SIZE, SEED, GIVENS]`, `["file", PATH]` or `["line", 81 DIGITS]`.
For each it writes a line: the processor's seconds, whether the walk finished, and marks and givens
as text, so that one can see whether two states walked the same puzzle. A walk that takes more than
a minute ends there. Null stands for a puzzle that is not known.
"""

import json
import signal
import sys
import time
from dataclasses import replace
from pathlib import Path
from typing import Any, Final

from tests.support.boards import classic
from tests.support.sowing import sown
from verify.manifest.read import read_puzzle
from verify.puzzle import Puzzle
from verify.walk.walk import walk

MOST_SECONDS: Final = 60
LEAST_SECONDS: Final = 0.05
"""A puzzle is walked again and again for as long, as the processor's clock may be coarse."""


def asked(what: list[Any]) -> Puzzle:
    """The puzzle that is meant."""
    kind, name, *more = what
    if kind == "file":
        return read_puzzle(Path(name))
    if kind == "line":
        return classic(name)
    size, seed, givens = more
    return replace(sown(name, size, seed)[0], givens=tuple(givens))


def text_of(puzzle: Puzzle) -> str:
    """Each rule with the cells of its marks, then the givens."""
    marks = [(use.rule.name, sorted(mark.cells)) for use in puzzle.uses for mark in use.constraints]
    return f"{sorted(marks)} {puzzle.givens}"


def told(what: list[Any]) -> list[Any] | None:
    """Seconds of a walk, whether it finished, and the puzzle."""
    try:
        puzzle = asked(what)
    except Exception:
        return None
    walks, finished, start = 0, False, time.process_time()
    signal.setitimer(signal.ITIMER_VIRTUAL, MOST_SECONDS)
    try:
        while time.process_time() - start < LEAST_SECONDS:
            finished = walk(puzzle, reasons=False).finished
            walks += 1
    except TimeoutError:
        pass
    finally:
        signal.setitimer(signal.ITIMER_VIRTUAL, 0)
    return [(time.process_time() - start) / max(1, walks), finished, text_of(puzzle)]


def _over(number: int, frame: object) -> None:
    raise TimeoutError


def main() -> None:
    """Answers line by line."""
    signal.signal(signal.SIGVTALRM, _over)
    for line in sys.stdin:
        print(json.dumps(told(json.loads(line))), flush=True)


if __name__ == "__main__":
    main()
