"""Sums on corners: the four cells around a number sum to it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from verify.board import Board, Cell
from verify.disguise import Disguise, Move
from verify.marks import Badge, Mark
from verify.pencil import Grid, Pencil, Strike
from verify.proof.formula import Formula
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.reading.schema import CELL
from verify.rules.corners import corner_cells
from verify.rules.rule import Rule, Saying
from verify.rules.sums import sum_survivors


@dataclass(frozen=True, slots=True)
class SumQuad:
    """The digits of the four cells sum to `total`; they may repeat."""

    cells: tuple[Cell, ...]
    total: int
    digits: int

    def clauses(self, formula: Formula) -> None:
        """A plain sum."""
        formula.total(dict.fromkeys(self.cells, 1), self.total)

    def holds(self, grid: Grid) -> bool:
        """Sum them."""
        return sum(grid[cell] for cell in self.cells) == self.total

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Digits that stand in no choice with that sum."""
        terms = [(cell, 1) for cell in self.cells]
        for cell, kept in sum_survivors(terms, pencil, 1 << self.total):
            if pencil[cell] & ~kept:
                yield Strike(((cell, pencil[cell] & ~kept),), self.cells)

    def moved(self, move: Move) -> "SumQuad":
        """The cells moved, and the sum of what each digit becomes."""
        total = len(self.cells) * (self.digits + 1) - self.total if move.reverses else self.total
        return SumQuad(tuple(sorted(move.all(self.cells))), total, self.digits)


def read(node: Node, reader: Reader) -> tuple[SumQuad, ...]:
    """A list of `{at: CELL, sum: N}`, the cell at the upper left of its corner."""
    quads: list[SumQuad] = []
    digits = reader.board.digits
    for item in reader.each(node, "a list of marks such as {at: r1c1, sum: 20}"):
        fields = reader.fields(item, ["at", "sum"])
        at, sum_node = (fields.get("at"), fields.get("sum")) if fields else (None, None)
        if at is None or sum_node is None:
            continue
        cells = corner_cells(at, [quad.cells for quad in quads], reader)
        total = reader.whole(sum_node, 4, 4 * digits, "the sum of four digits")
        if cells is not None and total is not None:
            quads.append(SumQuad(cells, total, digits))
    return tuple(quads)


def draw(board: Board, quads: Sequence[SumQuad]) -> tuple[Mark, ...]:
    """A badge on each corner."""
    return tuple(Badge("sum-quad", quad.cells, str(quad.total)) for quad in quads)


def says(quads: Sequence[SumQuad]) -> tuple[Saying, ...]:
    """One sentence."""
    return (Saying("sum-quad", len(quads)),)


RULE = Rule(
    name="sum-quad",
    meaning="The four cells around a number on a corner sum to it.",
    marks="a list of `{at: r1c1, sum: 20}`, the cell at the upper left of the corner",
    schema={
        "type": "array",
        "minItems": 1,
        "items": {
            "type": "object",
            "required": ["at", "sum"],
            "properties": {"at": CELL, "sum": {"type": "integer", "minimum": 4}},
            "additionalProperties": False,
        },
    },
    read=read,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN, Disguise.REVERSE}),
    example="""\
EXAMPLE
""",
)
