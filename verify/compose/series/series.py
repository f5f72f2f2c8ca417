"""The puzzles of a series: each tries layouts of its motif until there is a puzzle in one."""

from collections.abc import Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from random import Random
from typing import Final

from verify.budget import BudgetSpent, Deadline
from verify.compose.answers import Answers
from verify.compose.composed import Commission, Composed
from verify.compose.composing import MOST_ANSWERS
from verify.compose.motifs.strokes import Stroke
from verify.compose.series.kinds import KINDS, rule_lines
from verify.compose.series.plan import Line, PlacedLine
from verify.compose.sketch import sketch_from_text
from verify.manifest.rewriting import scalar
from verify.reading.node import Place
from verify.reading.problems import Problem, Unreadable

MOST_LAYOUTS: Final = 24
"""Layouts that are tried for one puzzle."""

ANSWERS_OF_ONE: Final = 12
"""Answers that are tried in each of them."""


@dataclass(frozen=True, slots=True)
class SeriesPiece:
    """One puzzle of a series: the `number`th of a line of a plan, counted from 1.

    `seed` is that of the line. `name` is what its file is called, without suffix. Every
    `stride`th puzzle of the line has the same motif.
    """

    line: Line
    place: Place
    motif: str
    number: int
    stride: int
    name: str
    seed: str
    seconds: float

    def compose(self, again: int = 0) -> Composed:
        """A puzzle as the line wants it, or the nearest to it. Problems are told at the line."""
        deadline, best = Deadline.after(self.seconds), None
        for strokes in self._layouts(again):
            found = self._in_layout(strokes, again, deadline)
            if found is not None and (best is None or _is_nearer(found, best)):
                best = found
            if deadline.left <= 0 or (best is not None and best.as_wanted):
                break
        if best is None:
            problem = Problem(self.place, f"found no layout that holds a {self.line.kind} puzzle")
            return Composed(self.place.file, self.seed, None, 0, (problem,))
        told = (Problem(self.place, each.message) for each in best.lacking)
        return replace(best, file=self.place.file, lacking=tuple(told))

    def _layouts(self, again: int) -> Iterator[Sequence[Stroke]]:
        """Its own layouts: other puzzles of the line begin with others."""
        kind = KINDS[self.line.kind]
        if not kind.is_drawn:
            yield ()
            return
        every = list(kind.layouts(self.motif, self.line.size, f"{self.seed}/{self.motif}"))
        own, alike = (self.number - 1) // self.stride, -(-self.line.count // self.stride)
        for turn in range(min(MOST_LAYOUTS, len(every))):
            yield every[(own + (turn + again) * alike) % len(every)]

    def _in_layout(
        self, strokes: Sequence[Stroke], again: int, deadline: Deadline
    ) -> Composed | None:
        """What comes of one layout; None where the rule refuses it, or it has no answer."""
        seed = f"{self.seed}/{self.number}" + (f"/{again}" if again else "")
        with suppress(Unreadable, BudgetSpent):
            text = self._text(strokes, seed, deadline)
            if text is not None:
                sketch = sketch_from_text(text, f"{self.name}.yaml")
                most = ANSWERS_OF_ONE if strokes else MOST_ANSWERS
                seconds = max(deadline.left, 0.0)
                return Commission(sketch, seed, seconds, most_answers=most).compose()
        return None

    def _text(self, strokes: Sequence[Stroke], seed: str, deadline: Deadline) -> str | None:
        """The sketch; sums of cages are those of an answer. None where there is none."""
        kind = KINDS[self.line.kind]
        text = self._sketch("\n".join(rule_lines(kind, strokes)))
        sketch = sketch_from_text(text, f"{self.name}.yaml")
        answers = Answers(sketch, deadline)
        if answers.some() is None:
            return None
        if not kind.is_cage:
            return text
        answer = answers.random(Random(seed))  # noqa: S311 - the same puzzle each time
        board = sketch.puzzle.board
        sums = [sum(answer[board.cell(*spot)] for spot in stroke) for stroke in strokes]
        return self._sketch("\n".join(rule_lines(kind, strokes, sums)))

    def _sketch(self, rules: str) -> str:
        line = self.line
        wants = {"grade": line.grade, "givens": line.givens, "symmetry": line.symmetry}
        want = ", ".join(f"{key}: {value}" for key, value in wants.items() if value is not None)
        theme = f"theme: {self.motif}\n" if self.motif else ""
        head = f"title: {scalar(self._title())}\n{theme}kind: sudoku\nsize: {line.size}\n"
        return f"{head}{rules}\nwant: {{{want}}}\n"

    def _title(self) -> str:
        named = self.line.title or (self.motif or self.line.grade or self.line.kind).capitalize()
        return f"{named} {self.number}"


def _is_nearer(found: Composed, best: Composed) -> bool:
    """Whether one is nearer to what is wanted; what has no puzzle is never nearer."""
    if found.shortfall is None:
        return False
    return best.shortfall is None or found.shortfall < best.shortfall


def series_pieces(seed: int, lines: Sequence[PlacedLine], seconds: float) -> Iterator[SeriesPiece]:
    """All puzzles of a plan, line by line. Lines of the same kind, size and grade go on counting."""
    counted: dict[str, int] = {}
    for index, placed in enumerate(lines, start=1):
        line, motifs = placed.line, placed.motifs or ("",)
        stem = "-".join(filter(None, (line.kind, str(line.size), line.grade or "")))
        for number in range(1, line.count + 1):
            counted[stem] = counted.get(stem, 0) + 1
            motif = motifs[(number - 1) % len(motifs)]
            name = f"{stem}-{counted[stem]:03}"
            own_seed, stride = f"{seed}/{index}", len(motifs)
            yield SeriesPiece(line, placed.place, motif, number, stride, name, own_seed, seconds)
