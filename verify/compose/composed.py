"""From what a search has found to a manifest: written, read back, proved and walked."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final

from verify.board import Cell
from verify.budget import USUAL, Budget, Deadline
from verify.compose.composing import MOST_ANSWERS, Composing, Heard
from verify.compose.measure import Candidate, Shortfall
from verify.compose.sketch import Sketch
from verify.disguise.canonical import canonical
from verify.manifest.read import puzzle_from_text
from verify.manifest.rewriting import rewritten
from verify.named_parts import NamedPart, named_parts
from verify.proof.conflict import conflict_of
from verify.proof.parts import GivenPart
from verify.proof.verdict import prove
from verify.puzzle import Puzzle
from verify.reading.fewer import with_field
from verify.reading.node import Fields, Place, Text
from verify.reading.problems import Problem, Problems
from verify.reasons import WhyNone
from verify.walk.report.grade import Grade, grade
from verify.walk.walk import walk

MOST_CELLS_NAMED: Final = 12


@dataclass(frozen=True, slots=True)
class Commission:
    """A puzzle to be composed: from what, from which seed, in how many seconds.

    `title` and `id` take the place of the sketch's own where they are not empty.
    """

    sketch: Sketch
    seed: str
    seconds: float
    title: str = ""
    id: str = ""
    most_answers: int = MOST_ANSWERS

    @property
    def place(self) -> Place:
        """Where the sketch begins."""
        return self.sketch.root.place

    def compose(self, again: int = 0) -> "Composed":
        """Searches, and makes a manifest of what was found; from another seed each time `again`."""
        seeded = replace(self, seed=f"{self.seed}/{again}") if again else self
        search = search_for(seeded)
        search.run()
        return composed(seeded, search)


@dataclass(frozen=True, slots=True)
class Setting:
    """A puzzle that was proved to have one answer: its manifest's text and its grade.

    `canonical` is the same for all its disguises, see `verify.disguise.canonical`.
    """

    puzzle: Puzzle
    text: str
    grade: Grade
    canonical: str

    @property
    def givens(self) -> int:
        """How many givens it has."""
        return sum(map(bool, self.puzzle.givens))


@dataclass(frozen=True, slots=True)
class Composed:
    """What came of a search in a sketch, by its file: a puzzle, or the nearest to it, or none.

    `shortfall` is what the puzzle lacks, and `lacking` says at their lines what stands in the way;
    nothing where the puzzle is as it was wanted. `why_none` where the sketch has no answer. `spent`
    where the time was over first.
    """

    file: str
    seed: str
    setting: Setting | None
    tries: int
    lacking: tuple[Problem, ...] = ()
    shortfall: Shortfall | None = None
    why_none: WhyNone | None = None
    spent: bool = False

    @property
    def as_wanted(self) -> bool:
        """Whether there is a puzzle that is as it was wanted."""
        return self.setting is not None and not self.lacking


def search_for(commission: Commission, heard: Heard = lambda best, tries: None) -> Composing:
    """The search, which is still to be run."""
    deadline = Deadline.after(commission.seconds)
    return Composing(commission.sketch, commission.seed, deadline, heard, commission.most_answers)


def composed(commission: Commission, search: Composing) -> Composed:
    """What a search has come to, whether or not it has ended.

    The proof and the walk are those of every other puzzle, and have time of their own.
    """
    sketch, budget = commission.sketch, Budget(seconds=commission.seconds)
    file, seed = sketch.puzzle.file, commission.seed
    if search.impossible:
        why = _why_none(sketch, budget)
        return Composed(file, seed, None, search.tries, (_no_answer(sketch),), why_none=why)
    setting = None if search.best is None else _set(commission, search.best.puzzle, budget)
    lacking = tuple(_lacking(sketch, search, setting))
    short = None if setting is None or search.best is None else search.best.shortfall
    return Composed(file, seed, setting, search.tries, lacking, short, spent=search.spent)


def _set(commission: Commission, puzzle: Puzzle, budget: Budget) -> Setting | None:
    """The puzzle as its manifest tells it; None where its proof takes too long."""
    sketch, deadline = commission.sketch, budget.deadline()
    named = with_field(sketch.root, "want", None)
    for name, text in (("title", commission.title), ("id", commission.id)):
        named = _named(named, name, text) if text else named
    text = rewritten(sketch.text, sketch.root, named, puzzle)
    read = puzzle_from_text(text, puzzle.file)
    verdict = prove(read, budget, deadline)
    path = walk(read, reasons=False, deadline=deadline)
    if verdict.word != "one" or path.cut_short:
        return None
    return Setting(read, text, grade(path), canonical(read, verdict.answers[0]))


def _named(root: Fields, name: str, text: str) -> Fields:
    """The manifest with another title or id; first of all, where it had none."""
    value = Text(root.place, text, ())
    if root.get(name) is not None:
        return with_field(root, name, value)
    return replace(root, entries=((Text(root.place, name, ()), value), *root.entries))


def _why_none(sketch: Sketch, budget: Budget) -> WhyNone | None:
    """What can't stand together; what cells are wanted to read counts as given."""
    givens = list(sketch.puzzle.givens)
    for cell, digit in sketch.reads:
        givens[cell] = digit
    puzzle = replace(sketch.puzzle, givens=tuple(givens), answer=None)
    conflict = conflict_of(puzzle, budget.deadline(), USUAL.conflicts)
    if conflict is None:
        return None
    named = named_parts(puzzle, conflict.parts, sketch.path)
    wanted = {cell for cell, _ in sketch.reads if cell not in sketch.fixed}
    parts = (
        _read_part(sketch, part.cell, name)
        if isinstance(part, GivenPart) and part.cell in wanted
        else name
        for part, name in zip(conflict.parts, named, strict=True)
    )
    return WhyNone(tuple(parts), conflict.smallest)


def _read_part(sketch: Sketch, cell: Cell, name: NamedPart) -> NamedPart:
    """A digit that is wanted, by its own line."""
    return replace(name, line=sketch.place_of_read(sketch.puzzle.board.name(cell)).line)


def _no_answer(sketch: Sketch) -> Problem:
    place = sketch.puzzle.place_of("rules" if sketch.root.get("rules") else "kind")
    return Problem(place, "found no answer to this sketch, whatever the givens")


def _lacking(sketch: Sketch, search: Composing, setting: Setting | None) -> Iterator[Problem]:
    """What stands in the way, at the wants that are not met."""
    problems = Problems()
    if search.best is None or setting is None:
        if search.best is not None or not search.apart:
            problems.add(sketch.place_of_want("grade"), "found no puzzle in this time")
        else:
            _note_apart(sketch, search.apart, problems)
    elif not search.found:
        _note_shortfall(sketch, search.best, setting, problems)
    yield from problems.found


def _note_apart(sketch: Sketch, apart: frozenset[Cell], problems: Problems) -> None:
    board = sketch.puzzle.board
    names = [board.name(cell) for cell in sorted(apart)]
    more = len(names) - MOST_CELLS_NAMED
    cells = " ".join(names[:MOST_CELLS_NAMED]) + (f" and {more} more" if more > 0 else "")
    found = f"several answers with a given wherever one may stand: they differ in {cells}"
    problems.expected(sketch.puzzle.place_of("givens"), found, "one")


def _note_shortfall(sketch: Sketch, best: Candidate, setting: Setting, problems: Problems) -> None:
    """Notes each want that the nearest puzzle does not meet."""
    want, short = sketch.want, best.shortfall
    if short.bands:
        found = f"{setting.grade.band.value} at the nearest"
        expected = want.grade or "a walk that finishes"
        problems.expected(sketch.place_of_want("grade"), found, expected)
    if short.avoided:
        found = f"no such puzzle without {_quoted(want.avoids)}"
        problems.expected(sketch.place_of_want("avoids"), found, "one")
    if short.missing:
        found = f"no such puzzle with {_quoted(want.uses)}"
        problems.expected(sketch.place_of_want("uses"), found, "one")
    if short.givens:
        found = f"{setting.givens} givens at the fewest"
        problems.expected(sketch.place_of_want("givens"), found, f"at most {want.givens}")


def _quoted(names: tuple[str, ...]) -> str:
    return ", ".join(f'"{name}"' for name in names)
