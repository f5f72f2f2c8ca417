"""The worksheets of a job: rungs and forms, each proved and walked like any puzzle."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import Final

from layout.jobs.common.job import Job
from layout.jobs.common.making import Making
from layout.jobs.common.proving import prove_all
from layout.jobs.common.reading import Listed
from layout.jobs.common.twins import tell_twins
from layout.jobs.common.walking import walk_all
from layout.jobs.worksheet.worksheet_job import WorksheetJob
from layout.jobs.worksheet.worksheet_values import Ladder
from layout.pages.worksheet.handout import Exercise, Worksheet
from layout.picture.shape_symbols import SHAPES, first_shapes
from verify.budget import Budget, BudgetSpent
from verify.disguise.forms import TooFewForms, forms
from verify.ladder import NoSuchRung, TooFewOpen, ladder, ladder_by_givens
from verify.move import Disguise
from verify.pencil import Grid
from verify.puzzle import Puzzle
from verify.reading.problems import Problem, Unreadable
from verify.walk.report.grade import GRADED
from verify.walk.report.kept import GradeKeeper
from verify.work import in_order

LETTERS: Final = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
"""The names of forms."""


@dataclass(frozen=True, slots=True)
class _Variant:
    """A puzzle as one worksheet has it: `rung` and `form` say which, from 0."""

    rung: int
    form: int
    puzzle: Puzzle


def with_symbols(job: Job[WorksheetJob], listed: Sequence[Listed]) -> list[Listed]:
    """The puzzles with drawn shapes for symbols, if the job wants them.

    Raises Unreadable where a rule needs to know which symbol is the larger, or what it counts.
    """
    if job.values.symbols == "as-written":
        return list(listed)
    place = job.place(("symbols",))
    problems = [Problem(place, why) for each in listed if (why := _not_drawn(each.puzzle))]
    if problems:
        raise Unreadable(problems)
    return [
        Listed(each.file, replace(each.puzzle, symbols=first_shapes(len(each.puzzle.symbols))))
        for each in listed
    ]


def _not_drawn(puzzle: Puzzle) -> str:
    """Why shapes can't stand for its digits, or nothing."""
    if len(puzzle.symbols) > len(SHAPES):
        count = len(puzzle.symbols)
        return f"{puzzle.source} has {count} symbols, expected at most {len(SHAPES)} for shapes"
    for use in puzzle.uses:
        if Disguise.RELABEL not in use.rule.survives:
            rule = use.rule.name
            return f'{puzzle.source} has the rule "{rule}", which needs digits rather than shapes'
    return ""


def all_worksheets(
    job: Job[WorksheetJob],
    listed: Sequence[Listed],
    making: Making,
    keeper: GradeKeeper | None = None,
) -> tuple[Worksheet, ...]:
    """All worksheets, rung by rung and form by form; `keeper` may know grades already.

    Raises MayNotBePrinted where a puzzle has not exactly one answer, and Unreadable where it has
    too few forms or can't be as stiff as wanted.
    """
    puzzles = [each.puzzle for each in listed]
    with making.progress("proving", len(puzzles)) as done:
        answers = [each.answers[0] for each in prove_all(puzzles, making, done)]
    tell_twins(listed, answers, making)
    rungs = _rungs(job, puzzles, answers, making)
    variants = _variants(job, rungs, answers, making)
    every = [each.puzzle for each in variants]
    with making.progress("proving forms", len(every)) as done:
        verdicts = prove_all(every, making, done)
    with making.progress("walking", len(every)) as done:
        walks = walk_all(every, making, done, keeper=keeper)
    exercises = [
        Exercise(0, puzzle, verdict.answers[0], walked.grade)
        for puzzle, verdict, walked in zip(every, verdicts, walks, strict=True)
    ]
    _check_grades(job, variants, exercises)
    return _numbered_worksheets(job.values, variants, exercises)


def _rungs(
    job: Job[WorksheetJob], puzzles: Sequence[Puzzle], answers: Sequence[Grid], making: Making
) -> list[tuple[Puzzle, ...]]:
    """The puzzles of each rung, the calmest first."""
    wanted = job.values.ladder
    if wanted.rungs == 1:
        return [tuple(puzzles)]
    solved = list(zip(puzzles, answers, strict=True))
    with making.progress("grading", len(solved)) as done:
        climbed = list(
            in_order(
                partial(_climb, wanted, making.budget),
                solved,
                making.workers,
                done,
                lost=_unclimbed,
            )
        )
    problems = [Problem(job.place(("ladder",)), each) for each in climbed if isinstance(each, str)]
    if problems:
        raise Unreadable(problems)
    return list(zip(*(each for each in climbed if isinstance(each, tuple)), strict=True))


def _climb(wanted: Ladder, budget: Budget, solved: tuple[Puzzle, Grid]) -> tuple[Puzzle, ...] | str:
    """A puzzle's rungs, or why it has not all of them."""
    puzzle, answer = solved
    step = wanted.step or max(1, len(puzzle.board.cells) // 10)
    try:
        if wanted.by == "givens":
            return ladder_by_givens(puzzle, answer, wanted.rungs, step, budget.deadline())
        bands = GRADED[: wanted.rungs]
        return tuple(rung.puzzle for rung in ladder(puzzle, answer, bands, budget.deadline()))
    except BudgetSpent:
        return f"{puzzle.source}: its ladder was not found in time; --seconds gives more"
    except TooFewOpen as few:
        return (
            f"{puzzle.source} has {few.there_are} open cells, expected more than "
            f"{step * (wanted.rungs - 1)} for {wanted.rungs} rungs with {step} givens between them"
        )
    except NoSuchRung as fault:
        near = " or ".join(band.value for band in fault.near)
        return (
            f"{puzzle.source} can't be made {fault.wanted.value} by giving more digits or fewer; "
            f"it can be {near}"
        )


def _unclimbed(solved: tuple[Puzzle, Grid]) -> str:
    """What is told of a puzzle whose rungs no process lived to find."""
    return f"{solved[0].source}: its ladder could not be made in the memory there is"


def _variants(
    job: Job[WorksheetJob],
    rungs: Sequence[Sequence[Puzzle]],
    answers: Sequence[Grid],
    making: Making,
) -> list[_Variant]:
    """Every puzzle of every worksheet, in the order of the worksheets.

    Rungs are in disguise, too, so that a neighbour's answers are of no use; where a puzzle has
    too few forms for that, rungs share some, which is told.
    """
    found: list[_Variant] = []
    problems: dict[str, Problem] = {}
    wanted = job.values.forms
    for at, answer in enumerate(answers):
        for rung, puzzles in enumerate(rungs):
            puzzle = puzzles[at]
            there_are = _most_forms(puzzle, answer, wanted * len(rungs))
            if there_are < wanted:
                message = f"{puzzle.source} has {there_are} forms by what its rules allow"
                where = job.place(("forms",))
                problems[puzzle.source] = Problem(where, f"{message}, expected {wanted}")
                continue
            if there_are < wanted * len(rungs) and not rung:
                making.tell(
                    f"{puzzle.source}: its rungs share answers, as it has {there_are} forms"
                )
            every = forms(puzzle, answer, there_are)
            found += (
                _Variant(rung, form, every[(rung * wanted + form) % there_are])
                for form in range(wanted)
            )
    if problems:
        raise Unreadable(list(problems.values()))
    return sorted(found, key=lambda each: (each.rung, each.form))


def _most_forms(puzzle: Puzzle, answer: Grid, wanted: int) -> int:
    """How many forms a puzzle has, up to a number that is wanted."""
    try:
        return len(forms(puzzle, answer, wanted))
    except TooFewForms as few:
        return few.there_are


def _check_grades(
    job: Job[WorksheetJob], variants: Sequence[_Variant], exercises: Sequence[Exercise]
) -> None:
    """Raises Unreadable where a form is not as hard as the puzzle that it is made of."""
    first = {
        (each.rung, each.puzzle.id): exercise.grade
        for each, exercise in zip(variants, exercises, strict=True)
        if each.form == 0
    }
    problems = [
        Problem(
            job.place(("forms",)),
            f"form {LETTERS[each.form]} of {each.puzzle.source} is not as hard as form A",
        )
        for each, exercise in zip(variants, exercises, strict=True)
        if exercise.grade != first[each.rung, each.puzzle.id]
    ]
    if problems:
        raise Unreadable(problems)


def _numbered_worksheets(
    values: WorksheetJob, variants: Sequence[_Variant], exercises: Sequence[Exercise]
) -> tuple[Worksheet, ...]:
    """The exercises numbered on their worksheets."""
    found: dict[tuple[int, int], list[Exercise]] = {}
    for each, exercise in zip(variants, exercises, strict=True):
        worksheet = found.setdefault((each.rung, each.form), [])
        worksheet.append(replace(exercise, number=len(worksheet) + 1))
    climbs = values.ladder.rungs > 1
    graded = climbs and values.ladder.by == "grade"
    return tuple(
        Worksheet(
            rung + 1 if climbs else 0,
            GRADED[rung].value if graded else "",
            LETTERS[form] if values.forms > 1 else "",
            tuple(every),
        )
        for (rung, form), every in found.items()
    )
