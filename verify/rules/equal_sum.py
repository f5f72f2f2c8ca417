"""Equal sums: the digits of a line sum to the same in each box that it passes."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import reduce
from operator import and_

from verify.board import Board, Cell
from verify.disguise import Disguise, Move
from verify.marks import Mark, Trail
from verify.pencil import Grid, Pencil, Strike
from verify.proof.formula import Formula
from verify.proof.scan import Scan
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.reading.schema import PATHS
from verify.rules.rule import Rule, Saying
from verify.rules.sums import largest_sum, least_sum, sum_survivors, sums_of


@dataclass(frozen=True, slots=True)
class EqualSum:
    """All parts of the line have one sum; a part is all its cells within one box."""

    parts: tuple[tuple[Cell, ...], ...]
    path: tuple[Cell, ...]

    @property
    def cells(self) -> tuple[Cell, ...]:
        """The cells of the line, in order."""
        return self.path

    def clauses(self, formula: Formula) -> None:
        """A part has a sum exactly where the next one has it."""
        sums = [formula.outcomes(_sum_of(part)) for part in self.parts]
        for here, there in zip(sums, sums[1:] + sums[:1], strict=True):
            for total, literal in here.items():
                formula.implies(literal, [there[total]] if total in there else [])

    def holds(self, grid: Grid) -> bool:
        """One sum."""
        return len({sum(grid[cell] for cell in part) for part in self.parts}) == 1

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Digits of a part that stand in no choice with a sum that all parts can have."""
        terms = [[(cell, 1) for cell in part] for part in self.parts]
        equal = reduce(and_, (sums_of(part, pencil) for part in terms))
        for part in terms:
            for cell, kept in sum_survivors(part, pencil, equal):
                if pencil[cell] & ~kept:
                    yield Strike(((cell, pencil[cell] & ~kept),), self.cells)

    def moved(self, move: Move) -> "EqualSum":
        """The cells moved."""
        return EqualSum(tuple(map(move.all, self.parts)), move.all(self.path))


def _sum_of(cells: tuple[Cell, ...]) -> Scan[int]:
    """The scan whose state is the sum so far."""
    return Scan(cells, 0, lambda so_far, index, digit: so_far + digit, lambda so_far: True)


def read(node: Node, reader: Reader) -> tuple[EqualSum, ...]:
    """Paths that pass two boxes or more, in which sums can be equal."""
    if reader.board.boxes is None:
        reader.problems.expected(node.place, "a board without boxes", "boxes for lines to pass")
        return ()
    lines = []
    for item in reader.each(node, "a list of paths"):
        path = reader.path(item)
        if path is not None:
            parts = parts_of(path, reader.board)
            if _can_be(parts, item, reader):
                lines.append(EqualSum(parts, path))
    return tuple(lines)


def parts_of(path: Sequence[Cell], board: Board) -> tuple[tuple[Cell, ...], ...]:
    """The cells of the path in each box, box by box as it first comes to them."""
    box_of = {cell: index for index, box in enumerate(board.box_blocks()) for cell in box}
    parts: dict[int, list[Cell]] = {}
    for cell in path:
        parts.setdefault(box_of[cell], []).append(cell)
    return tuple(map(tuple, parts.values()))


def _can_be(parts: Sequence[Sequence[Cell]], item: Node, reader: Reader) -> bool:
    """Whether there are two parts or more, and the longest can sum to as little as the shortest."""
    if len(parts) < 2:
        reader.problems.expected(item.place, "a path within one box", "one that passes two or more")
        return False
    counts = sorted(map(len, parts))
    shortest, longest = counts[0], counts[-1]
    if least_sum(longest) > largest_sum(shortest, reader.board.digits):
        found = f"{longest} cells in one box against {shortest} in another"
        reader.problems.expected(item.place, found, "parts that can have one sum")
        return False
    return True


def draw(board: Board, lines: Sequence[EqualSum]) -> tuple[Mark, ...]:
    """A trail each."""
    return tuple(Trail("equal-sum", (line.path,)) for line in lines)


def says(lines: Sequence[EqualSum]) -> tuple[Saying, ...]:
    """One sentence."""
    return (Saying("equal-sum", len(lines)),)


RULE = Rule(
    name="equal-sum",
    meaning="The digits of the line sum to the same in each box that it passes.",
    marks="a list of paths",
    schema=PATHS,
    read=read,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN}),
    example="""\
title: Fair shares
kind: sudoku
size: 6
rules:
  equal-sum:
    - r2c1 e s e
    - r5c6 w n w
    - r1c5 s s
    - r6c2 n n
givens: |
  . . . | . . .
  . . . | . . .
  -------------
  . . . | . . .
  . . . | . . 4
  -------------
  . . . | . 5 .
  . . 2 | . . .
""",
)
