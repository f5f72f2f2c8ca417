"""Puzzles that are as hard on Reglet as a manifest can make them: every rule, at 16x16 and 25x25.

Marks lie on every line, or on as many cells as fit; hardly any puzzle has an answer, and nobody
could find it. Rules that no such board may have are tried on the largest that may.
"""

import json
import random
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Final

BOXES: Final = {16: 4, 25: 5}
"""Rows and columns of a box, by the size of the board."""


@dataclass(frozen=True, slots=True)
class Hostile:
    """A puzzle by a name of its own: the marks of a rule, or of several, and its givens."""

    name: str
    size: int
    rules: dict[str, object] = field(default_factory=dict)
    givens: str = ""
    kind: str = "sudoku"

    def manifest(self) -> str:
        """Its text: JSON, which YAML reads."""
        head = {"title": "Spring Flood", "kind": self.kind, "size": self.size, "rules": self.rules}
        return json.dumps(head | ({"givens": self.givens} if self.givens else {}))


def hostile(size: int) -> Iterator[Hostile]:
    """Puzzles of one size: an open board, every rule alone, all at once, givens without a rule."""
    yield Hostile("rows, columns, boxes", size)
    yield Hostile("regions", size, {"regions": _regions(size)}, kind="latin")
    by_rule = list(_of_each_rule(size))
    for name, rule, marks in by_rule:
        yield Hostile(name, size, {rule: marks})
    yield from _of_other_sizes(size - size % 3)
    together: dict[str, object] = {}
    for _, rule, marks in by_rule:
        if rule not in ("equal-cages", "calculation"):  # cages that would lie on others
            together.setdefault(rule, marks)
    yield Hostile("everything", size, together)
    dice = random.Random(1)
    for share in (0.3, 0.5, 0.7):
        yield Hostile(f"givens {share}", size, givens=_givens(size, share, dice))


def _of_each_rule(size: int) -> Iterator[tuple[str, str, object]]:
    """Name, rule and marks of each puzzle."""
    yield from _whole_boards(size)
    yield from _cages(size)
    yield from _lines(size)
    yield from _cells(size)
    yield from _outside(size)


def _of_other_sizes(thirds: int) -> Iterator[Hostile]:
    """What asks for digits in three thirds, or for the 9x9 board."""
    lines = _snakes(thirds, thirds)
    yield Hostile("entropic-line", thirds, {"entropic-line": lines}, kind="latin")
    yield Hostile("windows", 9, {"windows": True})


def _whole_boards(size: int) -> Iterator[tuple[str, str, object]]:
    for rule in ("disjoint-groups", "anti-king", "anti-knight", "non-consecutive"):
        yield rule, rule, True
    yield "diagonals", "diagonals", "both"
    yield "toroidal", "toroidal", "both"
    yield "anti-queen", "anti-queen", list(range(1, size + 1))
    yield "anti-queen of 3", "anti-queen", [7, 8, 9]


def _cages(size: int) -> Iterator[tuple[str, str, object]]:
    box = BOXES[size]
    yield "cages of 12", "cage", _caged(size, 12, sum=12 * (size + 1) // 2)
    yield "cages of a row", "cage", _caged(size, size)
    yield "cages of 6", "cage", _caged(size, 6, sum=3 * (size + 1))
    yield "equal cages", "equal-cages", [_snakes(size, box * 2)]
    yield "equal small cages", "equal-cages", [_snakes(size, 2)]
    yield "extra regions", "extra-region", _snakes(size, size - 1)
    for sign, result, count in (
        ("+", 200, 20),
        ("-", 1, size // 2),
        ("x", 720720, 20),
        ("/", 1, 20),
    ):
        yield f"calculation {sign}", "calculation", _caged(size, count, op=sign, result=result)
    yield "calculation ?", "calculation", _caged(size, size // 2, result=12)
    rows = [_named(_row(size, at)) for at in range(size // 2 * 2)]
    yield "clones", "clone", [list(pair) for pair in zip(rows[::2], rows[1::2], strict=True)]


def _lines(size: int) -> Iterator[tuple[str, str, object]]:
    rows = [_named(_row(size, at)) for at in range(size)]
    yield "equal sums of a row", "equal-sum", rows
    yield "equal sums", "equal-sum", _snakes(size, size * 2)
    yield "renban of a row", "renban", _snakes(size, size)
    yield "renban", "renban", _snakes(size, size // 2)
    yield "whisper of a row", "whisper", {"gap": size // 3, "lines": _snakes(size, size)}
    yield "thermometer", "thermometer", _snakes(size, size * 4 // 5)
    yield "slow thermometer", "slow-thermometer", _snakes(size, size * 2)
    yield "arrow", "arrow", _snakes(size, 8)
    yield "product arrow", "product-arrow", _snakes(size, 6)
    yield "double arrow", "double-arrow", _snakes(size, 20)
    yield "zipper", "zipper", _snakes(size, 15)
    for rule in ("between", "beyond"):
        yield rule, rule, _snakes(size, size - 3)
    for rule in ("palindrome", "parity-line", "modular-line", "same-difference"):
        yield rule, rule, _snakes(size, size)


def _cells(size: int) -> Iterator[tuple[str, str, object]]:
    every = [_cell(row, column) for row in range(size) for column in range(size)]
    beside = [
        f"{_cell(row, column)} {_cell(row, column + 1)}"
        for row in range(size)
        for column in range(size - 1)
    ]
    corners = [_cell(row, column) for row in range(size - 1) for column in range(size - 1)]
    chequered = [_cell(row, column) for row in range(0, size, 2) for column in range(0, size, 2)]
    yield "even", "even", _named(every[::2])
    yield "odd", "odd", _named(every[1::2])
    yield "count-circles", "count-circles", _named(every[: size * (size + 1) // 2])
    for rule in ("local-minimum", "local-maximum"):
        yield rule, rule, _named(chequered)
    yield "greater", "greater", [each.replace(" ", " > ") for each in beside]
    yield "dots", "dots", {"consecutive": beside[::2], "ratio": beside[1::2], "all-shown": True}
    yield "difference", "difference", [{"pair": each, "by": size // 2} for each in beside]
    sums = [{"pair": each, "sum": size} for each in beside]
    yield "sum-mark", "sum-mark", {"marks": sums, "all-shown": True}
    yield "quad", "quad", [{"at": at, "digits": [1, 2]} for at in corners]
    yield "sum-quad", "sum-quad", [{"at": at, "sum": size * 2 + 2} for at in corners]


def _outside(size: int) -> Iterator[tuple[str, str, object]]:
    middle = size * (size + 1) // 4
    yield "sandwich", "sandwich", _all_round(size, middle)
    yield "x-sum", "x-sum", _all_round(size, middle)
    yield "skyscraper", "skyscraper", _all_round(size, size // 3)
    count = size // 2
    sums = _all_round(size, count * (size + 1) // 2)
    yield "edge-sum", "edge-sum", {"cells": count, "sums": sums}
    whole = _all_round(size, size * (size + 1) // 2 - size // 2)
    yield "edge-sum, all but one", "edge-sum", {"cells": size - 1, "sums": whole}
    for rule in ("numbered-room", "first-seen"):
        yield rule, rule, _all_round(size, size // 2)
    yield "outside-arrow", "outside-arrow", _all_round(size, "rise")
    slanted = {"left": "se", "right": "nw", "top": "sw", "bottom": "ne"}
    sums = {
        f"{place} {slanted[place.split()[0]]}": length * (size + 1) // 2
        for place, length in _slanted(size)
    }
    yield "diagonal-sum", "diagonal-sum", sums


def _slanted(size: int) -> Iterator[tuple[str, int]]:
    """Places beside the board, each with the length of the diagonal that it looks along."""
    for at in range(1, size):
        yield f"left r{at}", size - at
        yield f"right r{at + 1}", at
        yield f"top c{at + 1}", at
        yield f"bottom c{at}", size - at


def _cell(row: int, column: int) -> str:
    return f"r{row + 1}c{column + 1}"


def _row(size: int, row: int) -> list[str]:
    return [_cell(row, column) for column in range(size)]


def _named(cells: Sequence[str]) -> str:
    """Cells as one word of a manifest: of these it may have some thousands."""
    return " ".join(cells)


def _snakes(size: int, length: int) -> list[str]:
    """The board cut into paths of so many cells, to and fro along its rows."""
    order = [cell for at in range(size) for cell in _row(size, at)[:: 1 - at % 2 * 2]]
    starts = range(0, len(order) - length + 1, length)
    return [_named(order[at : at + length]) for at in starts]


def _caged(size: int, cells: int, **more: object) -> list[dict[str, object]]:
    return [{"cells": part, **more} for part in _snakes(size, cells)]


def _all_round(size: int, clue: object) -> dict[str, object]:
    """The same clue at every place outside."""
    sides = {"left": "r", "right": "r", "top": "c", "bottom": "c"}
    return {f"{side} {line}{at + 1}": clue for side, line in sides.items() for at in range(size)}


def _regions(size: int) -> str:
    """Regions down pairs of columns, each of as many cells as there are digits, by letters."""
    line = range(size)
    order = sorted(((row, column) for row in line for column in line), key=_down_pairs)
    letters = {cell: chr(ord("A") + at // size) for at, cell in enumerate(order)}
    return "\n".join(" ".join(letters[row, column] for column in line) for row in line)


def _down_pairs(cell: tuple[int, int]) -> tuple[int, int, int]:
    row, column = cell
    return column // 2, row, column


def _givens(size: int, share: float, dice: random.Random) -> str:
    """A cyclic answer with a share of its cells given."""
    box = BOXES[size]
    symbols = "123456789ABCDEFGHIJKLMNOP"[:size]
    rows = []
    for row in range(size):
        shift = box * (row % box) + row // box
        line = [symbols[(column + shift) % size] for column in range(size)]
        rows.append(" ".join(each if dice.random() < share else "." for each in line))
    return "\n".join(rows)
