"""The texts of a new rule's files; `$words` in them are filled in by `new_rule`."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True, slots=True)
class Room:
    """How the rules of one folder of `verify/rules` are written, read and drawn.

    All are parts of the texts below, by the same names. `wrong` are marks that can't be read: as
    they are written, how many characters further on a problem is told, and what it says.
    """

    imports: str
    fields: str
    moved: str
    make: str
    made: str
    marks: str
    grammar: str
    draw: str
    says: str
    written: str
    wrong: tuple[str, int, str]
    known: str
    test_imports: str
    drawn: str
    sower: str
    sown: str


_LINES: Final = Room(
    imports="""\
from verify.board import Cell
from verify.facets import NOTHING, Facets
from verify.formula.formula import Formula
from verify.move import Disguise, Move
from verify.pencil import Grid, Pencil, Strike
from verify.reading.grammar import PATHS, Cells, Several
from verify.reading.reader import Reader
from verify.rule import Rule
from verify.rules.workings.lines import fitting_cells, trails
from verify.rules.workings.parts import one_sentence
""",
    fields="",
    moved="",
    make='''\
def make(paths: Several[Cells], reader: Reader) -> tuple[$kind, ...]:
    """Paths of two cells or more."""
    return tuple(map($kind, fitting_cells(paths, reader)))
''',
    made="make",
    marks="a list of paths",
    grammar="PATHS",
    draw='partial(trails, "$name")',
    says='partial(one_sentence, "$name")',
    written="[r1c1 e e]",
    wrong=("[r1c1]", 1, "two cells or more"),
    known="$kind",
    test_imports="from tests.support.paths import sown_paths, walk",
    drawn="    return $kind(walk(draw, board, 6))\n",
    sower="sow(board, answer, dice)",
    sown="""\
    def keeps(path):
        return $kind(path).holds(answer)

    return tuple(map($kind, sown_paths(board, dice, keeps, (3, 6), 8)))
""",
)

_CELLS: Final = Room(
    imports="""\
from verify.board import Cell
from verify.facets import NOTHING, Facets
from verify.formula.formula import Formula
from verify.move import Disguise, Move
from verify.pencil import Grid, Pencil, Strike
from verify.reading.grammar import GROUP, Cells, Placed
from verify.reading.reader import Reader
from verify.rule import Rule
from verify.rules.workings.parts import one_sentence, tinted
""",
    fields="",
    moved="",
    make='''\
def make(group: Placed[Cells], reader: Reader) -> tuple[$kind, ...]:
    """A mark for each cell of the group."""
    return tuple($kind((cell,)) for cell in group.value)
''',
    made="make",
    marks="a group of cells",
    grammar="GROUP",
    draw='partial(tinted, "$name", "disc")',
    says='partial(one_sentence, "$name")',
    written="[r1c1, r2c3]",
    wrong=("[r9c9]", 1, "a cell from r1c1 to r4c4"),
    known="$kind",
    test_imports="from hypothesis import strategies as st\n",
    drawn="    return $kind((draw(st.sampled_from(board.cells)),))\n",
    sower="sow(board, answer, dice)",
    sown="""\
    marks = ($kind((cell,)) for cell in board.cells)
    fitting = [each for each in marks if each.holds(answer)]
    return tuple(dice.sample(fitting, len(fitting) // 2))
""",
)

_OUTSIDE: Final = Room(
    imports="""\
from verify.board import Cell, Outside
from verify.facets import NOTHING, Facets
from verify.formula.formula import Formula
from verify.move import Disguise, Move
from verify.pencil import Grid, Pencil, Strike
from verify.reading.reader import Reader
from verify.rule import Rule
from verify.rules.workings.outside_clues import NUMBERS, Numbers, bounded, totals_outside
from verify.rules.workings.parts import one_sentence
""",
    fields="    outside: Outside\n    total: int\n",
    moved=", move.outside(self.outside), self.total",
    make='''\
def make(clues: Numbers, reader: Reader) -> tuple[$kind, ...]:
    """Numbers that a line can have."""

    def bounds(cells: int) -> tuple[int, int]:
        return 1, cells * reader.board.digits

    numbers = bounded(clues, reader, bounds, "the number outside")
    return tuple($kind(line.cells, line.outside, total) for line, total in numbers)
''',
    made="make",
    marks="a mapping from places outside to numbers",
    grammar="NUMBERS",
    draw='partial(totals_outside, "outside")',
    says='partial(one_sentence, "$name")',
    written="{top c1: 5}",
    wrong=("{top c1: 0}", 9, "a whole number from 1 to 16"),
    known="$kind",
    test_imports="""\
from hypothesis import strategies as st

from tests.support.places import straight_line, straight_lines""",
    drawn="""\
    line = straight_line(draw, board)
    return $kind(line.cells, line.outside, draw(st.integers(1, board.digits)))
""",
    sower="sow(board, answer, dice)",
    sown="""\
    totals = range(1, board.digits**2 + 1)
    lines = ((line.cells, line.outside) for line in straight_lines(board))
    marks = ($kind(*line, total) for line in lines for total in totals)
    return tuple(each for each in marks if each.holds(answer))
""",
)

_HOUSES: Final = Room(
    imports="""\
from verify.board import Board, Cell
from verify.facets import NOTHING, Facets
from verify.formula.formula import Formula
from verify.move import Disguise, Move
from verify.pencil import Grid, Pencil, Strike
from verify.reading.grammar import FLAG
from verify.rule import Rule
from verify.rules.workings.parts import everywhere_said, nothing_drawn, over_board
""",
    fields="",
    moved="",
    make='''\
def of_board(board: Board) -> tuple[$kind, ...]:
    """All of them on a board."""
    return tuple(map($kind, board.row_lines()))
''',
    made="partial(over_board, of_board)",
    marks="`true`",
    grammar="FLAG",
    draw="nothing_drawn",
    says='partial(everywhere_said, "$name")',
    written="true",
    wrong=("false", 0, "leave the rule out"),
    known="$kind, of_board",
    test_imports="from hypothesis import strategies as st\n",
    drawn="    return draw(st.sampled_from(of_board(board)))\n",
    sower="before(board, dice)",
    sown="    return of_board(board)\n",
)

ROOMS: Final[Mapping[str, Room]] = {
    "houses": _HOUSES,
    "lines": _LINES,
    "cells": _CELLS,
    "outside": _OUTSIDE,
}
"""By the folder of `verify/rules`: rules over the whole board, and by what their marks are."""

RULE: Final = '''\
"""$title: what the rule asks, in one line."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

$imports

@dataclass(frozen=True, slots=True)
class $kind:
    """What one mark asks of the digits in its cells."""

    cells: tuple[Cell, ...]
$fields
    def clauses(self, formula: Formula) -> None:
        """What the solver is told: all of it, compactly."""
        raise NotImplementedError

    def holds(self, grid: Grid) -> bool:
        """The plainest check of a full grid; it shares nothing with the other two."""
        raise NotImplementedError

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """What follows from this mark and the candidates alone."""
        raise NotImplementedError

    def moved(self, move: Move) -> "$kind":
        """The cells moved; what else the mark says, as each disguise in `survives` turns it."""
        return $kind(move.all(self.cells)$moved)

    def facets(self, digits: int) -> Facets:
        """For walks: which cells differ, a sum, an order; nothing where it says none of these."""
        return NOTHING


$make

RULE = Rule(
    name="$name",
    meaning="What it asks, in one sentence.",
    marks="$marks",
    grammar=$grammar,
    make=$made,
    draw=$draw,
    says=$says,
    survives=frozenset({Disguise.TURN}),
    example="""\\
title: $title
kind: sudoku
size: 6
rules:
  $name: $written
givens: |
$grid
""",
)
'''

SUPPORT: Final = '''\
"""$title, for the tests."""

$test_imports
from verify.rules.$room.$module import $known


def mark(draw, board):
$drawn

def _model(model, at, rule):
    """What the rule means in the solver's own constraints, written from its sentence."""
    raise NotImplementedError


MODELS = {$kind: _model}


def $sower:
$sown'''

TEST: Final = '''\
"""$title: what the contract test does not see."""

import pytest

from verify.manifest.read import puzzle_from_text
from verify.reading.problems import Unreadable

MANIFEST = "kind: sudoku\\nsize: 4\\nrules:\\n  $name: {marks}\\n"


@pytest.mark.parametrize(
    ("marks", "column", "message"),
    [
        ("$wrong", $column, "$told"),
    ],
)
def test_what_can_not_be_read_is_told_in_its_place(marks, column, message):
    with pytest.raises(Unreadable) as refused:
        puzzle_from_text(MANIFEST.format(marks=marks))
    (problem,) = refused.value.problems
    assert (problem.place.line, problem.place.column) == (4, column)
    assert message in problem.message
'''

SKETCH: Final = """\
title: $title
kind: sudoku
size: 9
rules:
  $name: $written
"""

WORDS: Final = """\
  $name:
    title: $title
    called: the mark from {cell}
    push: "{mark} asks for this, as the reason for what follows from it"
    hint: "What to ask of {mark}; leave it out where there is no more to ask than of any mark."
    teach: |
      How to solve it, for readers who have never seen one.
    says:
      $name:
        one: The sentence for one mark; {digits} for digits, letters and symbols.
        many: The sentence for several marks.
"""

LISTED: Final = """\
from verify.rules.$room import $module

    $module.RULE,
"""

LOOK: Final = """\
      $name:
        ink: 50%
"""
