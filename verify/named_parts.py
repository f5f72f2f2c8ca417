"""Givens and marks as their manifest names them, each with its line where that is known."""

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from verify.lesser import Lesser
from verify.manifest.part_lines import lines_of
from verify.proof.parts import GivenPart, MarkPart, Part, parts_of
from verify.puzzle import Puzzle
from verify.walk.report.report import place_of
from verify.walk.report.unused import Written


@dataclass(frozen=True, slots=True)
class NamedPart:
    """A given by its cell and symbol, or a mark by its rule and where it starts.

    What does not apply is empty; `at` also where a rule has no marks drawn. `of_it` is a part of
    the mark, where that alone is meant: a cell, or a field such as `sum`. `line` counts from 1.
    """

    cell: str = ""
    digit: str = ""
    rule: str = ""
    at: str = ""
    line: int | None = None
    of_it: str = ""

    def __str__(self) -> str:
        named = f"{self.digit} in {self.cell}" if self.cell else f"{self.rule} {self.at}".rstrip()
        named = f"{self.of_it} of {named}" if self.of_it else named
        return named if self.line is None else f"{named} (line {self.line})"


def named_parts(
    puzzle: Puzzle, parts: Iterable[Part], path: Path | None = None
) -> tuple[NamedPart, ...]:
    """The parts with their names; `path` is the manifest's file, None for a puzzle of a bank."""
    namer = _Namer(puzzle, path)
    return tuple(map(namer.named, parts))


def named_lesser(puzzle: Puzzle, lesser: Lesser) -> NamedPart:
    """The mark that says less, or is gone, with the line of what it is without."""
    first = next((part for part in lesser.exchange.gone if isinstance(part, MarkPart)), None)
    drawn = None if first is None else first.drawn
    at = place_of(puzzle.board, Written(lesser.rule, drawn))
    return NamedPart(rule=lesser.rule, at=at, line=lesser.place.line, of_it=lesser.lacks)


class _Namer:
    """Names the parts of one puzzle."""

    def __init__(self, puzzle: Puzzle, path: Path | None) -> None:
        self._puzzle, self._lines = puzzle, lines_of(puzzle, path)
        marks = [part for part in parts_of(puzzle) if isinstance(part, MarkPart)]
        self._starts = {mark: self._start_of(mark) for mark in marks}

    def named(self, part: Part) -> NamedPart:
        """A part with its name and line."""
        board = self._puzzle.board
        if isinstance(part, GivenPart):
            line = self._lines.of_given(board.place(part.cell)[0])
            return NamedPart(board.name(part.cell), self._puzzle.symbol(part.digit), line=line)
        at = self._place_of(part)
        return NamedPart(rule=part.rule, at=at, line=self._line_of(part, at))

    def _place_of(self, mark: MarkPart) -> str:
        return place_of(self._puzzle.board, Written(mark.rule, mark.drawn))

    def _start_of(self, mark: MarkPart) -> tuple[str, str]:
        """What marks share that the manifest may begin in the same way."""
        at = self._place_of(mark)
        outside = getattr(mark.drawn, "outside", None)
        return mark.rule, at if outside is not None else at.partition(" ")[0]

    def _line_of(self, mark: MarkPart, at: str) -> int | None:
        """The line of a mark; that of its rule where it can't be told from others."""
        of_rule = self._lines.of_rule(mark.rule)
        if of_rule is None or not at:
            return of_rule
        board = self._puzzle.board
        lines = self._lines.of_marks(mark.rule, at, frozenset(map(board.name, mark.cells)))
        alike = [other for other, start in self._starts.items() if start == self._starts[mark]]
        return lines[alike.index(mark)] if len(lines) == len(alike) else of_rule
