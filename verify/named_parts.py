"""Givens and marks as their manifest names them, each with its line where that is known."""

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from verify.manifest.part_lines import lines_of
from verify.proof.parts import GivenPart, Part
from verify.puzzle import Puzzle
from verify.walk.report.report import place_of
from verify.walk.report.unused import Written


@dataclass(frozen=True, slots=True)
class NamedPart:
    """A given by its cell and symbol, or a mark by its rule and where it starts.

    What does not apply is empty; `at` also where a rule has no marks drawn. `line` counts from 1.
    """

    cell: str = ""
    digit: str = ""
    rule: str = ""
    at: str = ""
    line: int | None = None

    def __str__(self) -> str:
        named = f"{self.digit} in {self.cell}" if self.cell else f"{self.rule} {self.at}".rstrip()
        return named if self.line is None else f"{named} (line {self.line})"


def named_parts(
    puzzle: Puzzle, parts: Iterable[Part], path: Path | None = None
) -> tuple[NamedPart, ...]:
    """The parts with their names; `path` is the manifest's file, None for a puzzle of a bank."""
    board, lines = puzzle.board, lines_of(puzzle, path)
    named = []
    for part in parts:
        if isinstance(part, GivenPart):
            line = lines.of_given(board.place(part.cell)[0])
            named.append(NamedPart(board.name(part.cell), puzzle.symbol(part.digit), line=line))
        else:
            at = place_of(board, Written(part.rule, part.drawn))
            named.append(NamedPart(rule=part.rule, at=at, line=lines.of_mark(part.rule, at)))
    return tuple(named)
