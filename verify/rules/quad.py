"""Quads: digits on a corner stand among the four cells around it."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

from verify.board import Board, Cell
from verify.disguise import Disguise, Move
from verify.marks import Badge, Mark
from verify.pencil import Grid, Pencil, Strike, bit
from verify.proof.formula import Formula
from verify.reading.node import Items, Node
from verify.reading.reader import Reader
from verify.reading.schema import CELL
from verify.rules.corners import corner_cells
from verify.rules.rule import Rule, Saying


@dataclass(frozen=True, slots=True)
class Quad:
    """Each of `wanted` stands in the four cells, as often as it is listed."""

    cells: tuple[Cell, ...]
    wanted: tuple[int, ...]

    def clauses(self, formula: Formula) -> None:
        """For a digit that stands k times, any 5 - k of the cells hold it once."""
        for digit, times in Counter(self.wanted).items():
            for some in combinations(self.cells, len(self.cells) + 1 - times):
                formula.some(formula.literal(cell, digit) for cell in some)

    def holds(self, grid: Grid) -> bool:
        """Count them."""
        inside = [grid[cell] for cell in self.cells]
        return all(inside.count(d) >= self.wanted.count(d) for d in self.wanted)

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """All else where a digit has no more cells than it needs, or where all four are told."""
        every = 0
        for digit, times in Counter(self.wanted).items():
            every |= bit(digit)
            able = [cell for cell in self.cells if pencil[cell] >> digit & 1]
            if len(able) <= times:
                kept = bit(digit) if len(able) == times else 0
                removes = tuple((c, pencil[c] & ~kept) for c in able if pencil[c] & ~kept)
                if removes:
                    yield Strike(removes, self.cells)
        if len(self.wanted) == len(self.cells):
            removes = tuple((c, pencil[c] & ~every) for c in self.cells if pencil[c] & ~every)
            if removes:
                yield Strike(removes, self.cells)

    def moved(self, move: Move) -> "Quad":
        """The cells moved, and what the digits become."""
        wanted = tuple(sorted(move.digits[digit] for digit in self.wanted))
        return Quad(tuple(sorted(move.all(self.cells))), wanted)


def read(node: Node, reader: Reader) -> tuple[Quad, ...]:
    """A list of `{at: CELL, digits: [...]}`, the cell at the upper left of its corner."""
    quads: list[Quad] = []
    for item in reader.each(node, "a list of marks such as {at: r1c1, digits: [1, 2]}"):
        fields = reader.fields(item, ["at", "digits"])
        at, listed = (fields.get("at"), fields.get("digits")) if fields else (None, None)
        if at is None or listed is None:
            continue
        cells = corner_cells(at, [quad.cells for quad in quads], reader)
        wanted = _digits(listed, reader)
        if cells is not None and wanted:
            quads.append(Quad(cells, wanted))
    return tuple(quads)


def _digits(listed: Node, reader: Reader) -> tuple[int, ...]:
    """One to four digits, rising."""
    items = listed.items if isinstance(listed, Items) and listed.items else (listed,)
    if len(items) > 4:
        reader.problems.expected(listed.place, f"{len(items)} digits", "at most 4")
        return ()
    digits = [reader.whole(each, 1, reader.board.digits, "a digit by its number") for each in items]
    known = [digit for digit in digits if digit is not None]
    return tuple(sorted(known)) if len(known) == len(digits) else ()


def draw(board: Board, quads: Sequence[Quad]) -> tuple[Mark, ...]:
    """A badge on each corner."""
    return tuple(Badge("quad", quad.cells, digits=quad.wanted) for quad in quads)


def says(quads: Sequence[Quad]) -> tuple[Saying, ...]:
    """One sentence; one more where a digit is listed twice."""
    twice = any(len(set(quad.wanted)) < len(quad.wanted) for quad in quads)
    return (Saying("quad", len(quads)), *([Saying("quad-twice")] if twice else []))


RULE = Rule(
    name="quad",
    meaning="The digits on a corner stand among the four cells around it.",
    marks="a list of `{at: r1c1, digits: [1, 2]}`, the cell at the upper left of the corner",
    schema={
        "type": "array",
        "minItems": 1,
        "items": {
            "type": "object",
            "required": ["at", "digits"],
            "properties": {
                "at": CELL,
                "digits": {
                    "type": "array",
                    "items": {"type": "integer", "minimum": 1},
                    "minItems": 1,
                    "maxItems": 4,
                },
            },
            "additionalProperties": False,
        },
    },
    read=read,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN, Disguise.RELABEL}),
    example="""\
EXAMPLE
""",
)
