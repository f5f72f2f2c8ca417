"""The report on a walk in words: a few plain lines for an editor."""

from collections.abc import Iterable, Iterator, Sequence

from layout.language.words import Words, fill
from layout.telling.names import Names
from layout.telling.telling import Telling
from verify.board import Cell
from verify.disguise.symmetry import Symmetry
from verify.puzzle import Puzzle
from verify.walk.facts.step import Technique
from verify.walk.report.report import BreakIn, Report, Tightest, place_of
from verify.walk.report.unused import Unused


def tell_report(puzzle: Puzzle, report: Report, telling: Telling, words: Words) -> tuple[str, ...]:
    """The lines of a report; steps have the numbers of the paragraphs that tell them."""
    return tuple(_Reporter(puzzle, telling, words).lines(report))


class _Reporter:
    """Tells reports on one telling of a walk."""

    def __init__(self, puzzle: Puzzle, telling: Telling, words: Words) -> None:
        self._puzzle = puzzle
        self._telling = telling
        self._words = words.walk.report
        self._lists = words.lists
        self._names = Names(puzzle, words)

    def lines(self, report: Report) -> Iterator[str]:
        """All of it, what matters most first."""
        if report.stop:
            stop = fill(
                self._words.stop, placed=report.stop.placed, candidates=report.stop.candidates
            )
            yield f"{self._telling.end} {stop}"
        if report.counts:
            yield self._telling.summary
            yield from self._break_in(report.break_in)
            yield from self._hard(report.hard)
            yield from self._steps(report)
        if report.stop is None:
            yield from self._spare(report)
        if report.givens is not None:
            yield fill(self._words.symmetry_of_givens, turns=self._turns(report.givens))
        if report.marks is not None:
            yield fill(self._words.symmetry_of_marks, turns=self._turns(report.marks))

    def _break_in(self, break_in: BreakIn | None) -> Iterator[str]:
        """The first step beyond plain singles, and the first placement beyond them."""
        if break_in is None:
            yield self._words.no_break_in
            return
        number = self._number(break_in.step)
        sentence = self._words.break_in_at_once
        if break_in.singles:
            sentence = self._words.break_in.of(break_in.singles)
        head = fill(sentence, count=break_in.singles, number=number)
        yield f"{head} {self._told(break_in.step)}"
        if break_in.placement is None:
            yield self._words.no_placement
            return
        ((cell, _),) = self._telling.steps[break_in.placement].step.places
        number = self._number(break_in.placement)
        head = fill(self._words.placement, cell=self._names.cell(cell), number=number)
        yield f"{head} {self._told(break_in.placement)}"

    def _hard(self, numbers: Sequence[int]) -> Iterator[str]:
        """Where solvers will stick: the steps that cost most."""
        if numbers:
            steps = list(dict.fromkeys(str(self._number(number)) for number in numbers))
            yield fill(self._words.hard.of(len(steps)), steps=self._lists.join(steps))

    def _number(self, step: int) -> int:
        """The number of the paragraph that tells a step of the path."""
        return self._telling.steps[step].paragraph

    def _told(self, step: int) -> str:
        """A step in words."""
        return self._telling.steps[step].words

    def _tightest(self, tightest: Tightest) -> str:
        count = len(tightest.cells)
        return fill(
            self._words.tightest.of(count),
            count=count,
            cells=self._names.cells(tightest.cells),
            technique=self._names.technique(tightest.technique),
            filled=tightest.filled,
            all=len(self._puzzle.board.cells),
        )

    def _steps(self, report: Report) -> Iterator[str]:
        """The tightest point, how many steps of each technique, and of which just one."""
        if report.tightest:
            yield self._tightest(report.tightest)
        told = [self._counted(each, count) for each, count in report.counts.items()]
        count = sum(report.counts.values())
        yield fill(self._words.steps, count=count, techniques=self._lists.join(told))
        if report.once:
            names = list(map(self._names.technique, report.once))
            yield fill(self._words.once, techniques=self._lists.join(names))

    def _counted(self, technique: Technique, count: int) -> str:
        return fill(self._words.technique, technique=self._names.technique(technique), count=count)

    def _spare(self, report: Report) -> Iterator[str]:
        """What the walk does without; where it ends early nobody knows what else it would need."""
        spare = report.unused
        if report.givens is not None:
            yield self._spare_givens(spare.givens)
        if spare.marks:
            marks = self._lists.join(list(self._marks(spare)))
            yield fill(self._words.spare_marks.of(len(spare.marks)), marks=marks)
        elif report.marks is not None:
            yield self._words.every_mark

    def _spare_givens(self, givens: tuple[Cell, ...]) -> str:
        if not givens:
            return self._words.every_given
        cells = self._names.cells(givens)
        return fill(self._words.spare_givens.of(len(givens)), cells=cells)

    def _marks(self, spare: Unused) -> Iterator[str]:
        """Marks as a manifest writes them: the rule's name, and where they start."""
        for mark in spare.marks:
            yield f"{mark.rule} {place_of(self._puzzle.board, mark)}".rstrip()

    def _turns(self, symmetries: Iterable[Symmetry]) -> str:
        names = self._words.symmetries
        told = [names[symmetry.value.replace(" ", "-")] for symmetry in symmetries]
        return self._lists.join(told) if told else self._words.no_symmetry
