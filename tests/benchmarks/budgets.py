"""Hostile puzzles of every rule against a budget: wall time and peak memory of `check` and `walk`.

    python -m tests.benchmarks.budgets [--seconds N] [--size 25] [RULE ...]

Each puzzle is as large as the rule allows: marks on every line, or as many random ones as fit. A
row is marked `over` where a run takes more than 1.5 times its budget, or more than 1 GiB.
"""

import argparse
import os
import random
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

RATIO = 1.5
MOST_MIB = 1024
STARTING = 0.5
"""Seconds for Python itself, which no budget covers."""


def cell(row: int, column: int) -> str:
    return f"r{row + 1}c{column + 1}"


def snakes(size: int, length: int, odd: bool = False) -> list[list[str]]:
    """The board cut into paths of so many cells."""
    order = [
        cell(row, column if row % 2 == 0 else size - 1 - column)
        for row in range(size)
        for column in range(size)
    ]
    return [order[at : at + length] for at in range(0, size * size - length + 1, length)]


def outside(size: int, value: int) -> dict[str, int]:
    sides = {"left": "r", "right": "r", "top": "c", "bottom": "c"}
    return {f"{side} {line}{at + 1}": value for side, line in sides.items() for at in range(size)}


def cages(size: int, cells: int, **more: object) -> list[dict[str, object]]:
    return [{"cells": part, **more} for part in snakes(size, cells)]


def hostile(size: int) -> Iterator[tuple[str, str, object]]:
    """Name, rule and marks of each puzzle."""
    middle = size * (size + 1) // 4
    yield "sandwich", "sandwich", outside(size, middle)
    yield "x-sum", "x-sum", outside(size, middle)
    yield "skyscraper", "skyscraper", outside(size, size // 3)
    sums = outside(size, size * (size + 1) // 2 - size // 2)
    yield "edge-sum", "edge-sum", {"cells": size - 1, "sums": sums}
    yield "cages of 12", "cage", cages(size, 12, sum=12 * (size + 1) // 2)
    yield "cages of a row", "cage", cages(size, size)
    yield "cages of 6", "cage", cages(size, 6, sum=3 * (size + 1))
    box = {25: 5, 16: 4}[size]
    rows = [[cell(row, column) for column in range(size)] for row in range(size)]
    yield "equal sums", "equal-sum", rows
    yield "equal cages", "equal-cages", [snakes(size, box * 2)]
    yield "equal small cages", "equal-cages", [snakes(size, 2)]
    yield "renban", "renban", snakes(size, size)
    yield "whisper", "whisper", {"gap": size // 3, "lines": snakes(size, size)}
    for sign in ("+", "-", "x", "/"):
        result = {"+": 200, "-": 1, "x": 720720, "/": 1}[sign]
        count = {"+": 20, "-": size // 2, "x": 20, "/": 20}[sign]
        yield f"calculation {sign}", "calculation", cages(size, count, op=sign, result=result)
    yield "calculation ?", "calculation", cages(size, size // 2, result=12)
    yield "thermometer", "slow-thermometer", snakes(size, size * 2)
    yield "arrow", "arrow", snakes(size, 8)
    yield "product-arrow", "product-arrow", snakes(size, 6)
    yield "double-arrow", "double-arrow", snakes(size, 20)
    yield "zipper", "zipper", snakes(size, 15)
    yield "between", "between", snakes(size, size - 3)
    yield "palindrome", "palindrome", snakes(size, size)
    yield "parity-line", "parity-line", snakes(size, size)
    yield "modular-line", "modular-line", snakes(size, size)
    yield "same-difference", "same-difference", snakes(size, size)
    half = [cell(row, column) for row in range(size) for column in range(size) if row % 2]
    yield "count-circles", "count-circles", half[: size * (size + 1) // 2]
    for rule in ("anti-king", "anti-knight", "non-consecutive", "diagonals", "toroidal"):
        value = {"diagonals": "both", "toroidal": "both"}.get(rule, True)
        yield rule, rule, value
    yield "anti-queen", "anti-queen", list(range(1, size + 1))
    yield "numbered-room", "numbered-room", outside(size, size // 2)
    yield "first-seen", "first-seen", outside(size, size // 2)
    yield "disjoint-groups", "disjoint-groups", True


def manifest(size: int, rules: dict[str, object], givens: str = "") -> str:
    import json

    head = {"title": "Spring Flood", "kind": "sudoku", "size": size, "rules": rules}
    if givens:
        head["givens"] = givens
    return json.dumps(head)


def givens_of(size: int, share: float, dice: random.Random) -> str:
    """A cyclic answer with some cells open."""
    box = {25: 5, 16: 4}[size]
    symbols = "123456789ABCDEFGHIJKLMNOP"[:size]
    rows = []
    for row in range(size):
        shift = box * (row % box) + row // box
        line = [symbols[(column + shift) % size] for column in range(size)]
        rows.append(" ".join(each if dice.random() < share else "." for each in line))
    return "\n".join(rows)


def measured(command: list[str]) -> tuple[float, float, str]:
    """Seconds, MiB and the last line of a run of Reglet."""
    began = time.monotonic()
    code = f"import sys; from layout.command import main; sys.exit(main({command!r}))"
    with tempfile.TemporaryFile("w+") as out:
        child = subprocess.Popen([sys.executable, "-c", code], stdout=out, stderr=out)
        _, _, usage = os.wait4(child.pid, 0)
        child.returncode = 0
        took = time.monotonic() - began
        out.seek(0)
        lines = out.read().strip().splitlines() or ["(nothing)"]
    return took, usage.ru_maxrss / 1024, lines[0]


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("rules", nargs="*")
    parser.add_argument("--seconds", type=float, default=2)
    parser.add_argument("--size", type=int, choices=(16, 25), default=25)
    options = parser.parse_args()
    puzzles = [
        (name, {rule: marks})
        for name, rule, marks in hostile(options.size)
        if not options.rules or rule in options.rules
    ]
    dice, over = random.Random(1), 0
    bare = [(f"givens {share}", givens_of(options.size, share, dice)) for share in (0.3, 0.5, 0.7)]
    texts = [(name, manifest(options.size, rules)) for name, rules in puzzles]
    if not options.rules:
        texts += [(name, manifest(options.size, {}, givens)) for name, givens in bare]
        texts += [("all lines", manifest(options.size, _together(puzzles)))]
    print(f"{'puzzle':20} {'command':8} {'ratio':>6} {'MiB':>6}")
    with tempfile.TemporaryDirectory() as folder:
        for name, text in texts:
            path = Path(folder) / "flood.yaml"
            path.write_text(text)
            for command in (["check"], ["walk"], ["walk", "--report"]):
                told = [command[0], str(path), *command[1:], "--seconds", f"{options.seconds:g}"]
                took, room, line = measured(told)
                bad = took > RATIO * options.seconds + STARTING or room > MOST_MIB
                over += bad
                mark = "over" if bad else ""
                ratio, line = took / options.seconds, line.removeprefix(str(path))[:50]
                what = " ".join(command)[:8]
                print(f"{name:20} {what:8} {ratio:6.2f} {room:6.0f} {mark:5}{line}", flush=True)
    print(f"{over} over")


def _together(puzzles: list[tuple[str, dict[str, object]]]) -> dict[str, object]:
    """The first puzzle of each rule, but cages that would lie on others."""
    rules: dict[str, object] = {}
    for _, each in puzzles:
        for rule, marks in each.items():
            if rule not in ("equal-cages", "calculation"):
                rules.setdefault(rule, marks)
    return rules


if __name__ == "__main__":
    main()
