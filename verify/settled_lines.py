"""Lines of a bank whose answers are found many at a time, and never one by one."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from verify.board import DEFAULT_BOXES
from verify.manifest.bank import LineCells, cells_of, puzzle_of_cells
from verify.manifest.bank_line import BankLine, Kept
from verify.proof.full_grids import keep_all
from verify.proof.side_by_side import Shape, sole_answers
from verify.proof.verdict import ProofFault
from verify.puzzle import Rows
from verify.reading.node import Place

FEW: Final = 16
"""Lines that are not worth the arrays."""


@dataclass(frozen=True, slots=True)
class SettledLine:
    """A line with just one answer, which keeps its rules; `kept` stands beside the puzzle."""

    line: BankLine
    rows: Rows
    kept: Kept


@dataclass(frozen=True, slots=True)
class _Cells:
    number: int
    line: BankLine
    cells: LineCells


def settled_lines(items: Iterable[object]) -> Mapping[int, SettledLine]:
    """Those of some items that are lines with one answer, as far as that is soon known.

    They come by their numbers among the items. Raises ProofFault where an answer does not pass the
    plain check: a defect of this program.
    """
    by_size: dict[int, list[_Cells]] = defaultdict(list)
    for number, item in enumerate(items):
        if isinstance(item, BankLine) and isinstance(cells := cells_of(item), LineCells):
            by_size[len(cells.givens)].append(_Cells(number, item, cells))
    settled: dict[int, SettledLine] = {}
    for lines in by_size.values():
        if len(lines) > FEW:
            settled |= _settled(lines)
    return settled


def _settled(lines: Sequence[_Cells]) -> dict[int, SettledLine]:
    """The same for lines of one size."""
    import numpy

    like = puzzle_of_cells("", Place("", 1, 1), lines[0].cells.givens)
    size = like.board.digits
    joined = b"".join(each.cells.givens for each in lines)
    givens = numpy.frombuffer(joined, numpy.uint8).reshape(len(lines), -1)
    answers, known = sole_answers(givens, Shape(size, *DEFAULT_BOXES[size]))
    if not keep_all(answers[known], givens[known], like.houses()).all():
        raise ProofFault("an answer found among many does not keep the puzzle's rules")
    symbols = bytes.maketrans(bytes(range(1, size + 1)), "".join(like.symbols).encode())
    settled = {}
    for each, answer, is_known in zip(lines, answers, known, strict=True):
        if is_known:
            text = answer.tobytes().translate(symbols).decode()
            rows = [text[start : start + size] for start in range(0, len(text), size)]
            settled[each.number] = SettledLine(each.line, rows, each.cells.kept)
    return settled
