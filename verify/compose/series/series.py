"""The puzzles of a series: each tries layouts of its motif until there is a puzzle in one."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
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

MOST_LAYOUTS: Final = 48
"""Layouts with an answer that are tried for one puzzle."""

ANSWERS_OF_ONE: Final = 12
"""Answers that are tried in each of them."""


@dataclass(frozen=True, slots=True)
class _Layout:
    """Strokes, and the motif that they come from; neither where nothing is drawn.

    Where it is `bare`, no given may stand on a stroke.
    """

    motif: str = ""
    strokes: tuple[Stroke, ...] = ()
    bare: bool = False

    def givens(self, size: int) -> Iterator[str]:
        """The lines of a sketch that say where givens may stand; none where all cells may."""
        if self.bare:
            drawn = {spot for stroke in self.strokes for spot in stroke}
            yield "givens: |"
            for row in range(size):
                cells = ("." if (row, column) in drawn else "?" for column in range(size))
                yield f"  {' '.join(cells)}"


@dataclass(frozen=True, slots=True)
class SeriesPiece:
    """One puzzle of a series: the `number`th of a line of a plan, counted from 1.

    `motifs` are those that it may have, its own first. `seed` is that of the line, `name` what its
    file is called, without suffix.
    """

    line: Line
    place: Place
    motifs: tuple[str, ...]
    number: int
    name: str
    seed: str
    seconds: float

    def compose(self, again: int = 0) -> Composed:
        """A puzzle as the line wants it, or the nearest to it. Problems are told at the line."""
        best, deadline, tried = self._without(()), Deadline.after(self.seconds), 0
        for layout in self._layouts(again):
            found = self._in_layout(layout, again, deadline)
            tried += found is not None
            if found is not None and (not best.lacking or _is_nearer(found, best)):
                told = (Problem(self.place, each.message) for each in found.lacking)
                best = replace(found, file=self.place.file, lacking=tuple(told))
            if best.as_wanted or tried >= MOST_LAYOUTS or deadline.left <= 0:
                break
        if best.setting is not None or best.lacking:
            return best
        reason = "in this time" if deadline.left <= 0 else f"in any layout for {self.line.kind}"
        message = f"found no puzzle {reason}"
        return self._without((Problem(self.place, message),))

    def _without(self, lacking: tuple[Problem, ...]) -> Composed:
        """No puzzle, and why."""
        return Composed(self.place.file, self.seed, None, 0, lacking)

    def _layouts(self, again: int) -> Iterator[_Layout]:
        """Layouts of its own motif, then of the others; other puzzles begin with other ones."""
        kind, stride = KINDS[self.line.kind], len(self.motifs)
        if not kind.is_drawn:
            yield _Layout()
        for motif in self.motifs:
            every = list(kind.layouts(motif, self.line.size, f"{self.seed}/{motif}"))
            own, alike = (self.number - 1) // stride, -(-self.line.count // stride)
            for turn in range(len(every)):
                strokes = every[(own + (turn + again) * alike) % len(every)]
                yield _Layout(motif, strokes, bare=True)
                yield _Layout(motif, strokes)

    def _in_layout(self, layout: _Layout, again: int, deadline: Deadline) -> Composed | None:
        """What comes of one layout; None where it has no answer, or none in time."""
        seed = f"{self.seed}/{self.number}" + (f"/{again}" if again else "")
        try:
            text = self._text(layout, seed, deadline)
            if text is None:
                return None
            sketch = sketch_from_text(text, f"{self.name}.yaml")
        except Unreadable as unreadable:  # the rule refuses it, or its wants exclude each other
            return self._without(unreadable.problems)
        except BudgetSpent:
            return None
        most = ANSWERS_OF_ONE if layout.strokes else MOST_ANSWERS
        seconds = max(deadline.left, 0.0)
        return Commission(sketch, seed, seconds, most_answers=most).compose()

    def _text(self, layout: _Layout, seed: str, deadline: Deadline) -> str | None:
        """The sketch; sums of cages are those of an answer. None where there is none."""
        kind, strokes = KINDS[self.line.kind], layout.strokes
        text = self._sketch(layout, rule_lines(kind, strokes))
        sketch = sketch_from_text(text, f"{self.name}.yaml")
        answers = Answers(sketch, deadline)
        if answers.some() is None:
            return None
        if not kind.is_cage:
            return text
        answer = answers.random(Random(seed))  # noqa: S311 - the same puzzle each time
        board = sketch.puzzle.board
        sums = [sum(answer[board.cell(*spot)] for spot in stroke) for stroke in strokes]
        return self._sketch(layout, rule_lines(kind, strokes, sums))

    def _sketch(self, layout: _Layout, rules: Iterable[str]) -> str:
        line, motif = self.line, layout.motif
        named = line.title or (motif or line.grade or line.kind).capitalize()
        wants = {"grade": line.grade, "givens": line.givens, "symmetry": line.symmetry}
        want = ", ".join(f"{key}: {value}" for key, value in wants.items() if value is not None)
        title, theme = scalar(f"{named} {self.number}"), [f"theme: {motif}"] if motif else []
        head = (f"title: {title}", *theme, "kind: sudoku", f"size: {line.size}")
        return "\n".join([*head, *rules, f"want: {{{want}}}", *layout.givens(line.size), ""])


def _is_nearer(found: Composed, best: Composed) -> bool:
    """Whether one is nearer to what is wanted; what has no puzzle is never nearer."""
    if found.shortfall is None:
        return False
    return best.shortfall is None or found.shortfall < best.shortfall


def series_pieces(
    seed: int,
    lines: Sequence[PlacedLine],
    seconds: float,
    counted: Counter[str] | None = None,
) -> Iterator[SeriesPiece]:
    """All puzzles of a plan. Files of the same kind, size and grade are counted through.

    `counted` says how many there are already of each.
    """
    counted = Counter() if counted is None else counted
    for index, placed in enumerate(lines, start=1):
        line, motifs = placed.line, placed.motifs
        stem = "-".join(filter(None, (line.kind, str(line.size), line.grade or "")))
        for number in range(1, line.count + 1):
            counted[stem] += 1
            own = (number - 1) % max(1, len(motifs))
            turned, name = motifs[own:] + motifs[:own], f"{stem}-{counted[stem]:03}"
            own_seed = f"{seed}/{index}"
            yield SeriesPiece(line, placed.place, turned, number, name, own_seed, seconds)
