"""Slides of a worksheet's puzzles for the wall of the classroom: each step of them by itself."""

from functools import partial

from layout.jobs.common.making import Making
from layout.jobs.common.proving import MayNotBePrinted
from layout.jobs.worksheet.worksheet_job import WorksheetJob
from layout.language.words import words_for
from layout.pages.common.book import WalkChoice
from layout.pages.walk.slides import slides_document, walk_slides
from layout.pages.walk.walk_pages import PrintedWalk
from layout.pages.worksheet.handout import Exercise, Handout
from layout.picture.document import Document
from layout.style.style import Style
from verify.budget import Budget
from verify.walk.told.path import ToldPath, told_path
from verify.work import in_order


def wall_slides(values: WorksheetJob, handout: Handout, style: Style, making: Making) -> Document:
    """The first worksheet's puzzles, one behind the other, at the level of the first page.

    Raises MayNotBePrinted where a walk is not found in time, and CannotDraw.
    """
    exercises = handout.worksheets[0].exercises
    words = words_for(values.language)
    with making.progress("telling", len(exercises)) as done:
        task = partial(_told, making.budget)
        paths = list(in_order(task, exercises, making.workers, done, lost=_lost))
    walks = [
        PrintedWalk(
            each.puzzle,
            path,
            each.grade,
            anchor=f"walk-{each.number}",
            number=str(each.number),
            choice=WalkChoice(handout.level, None, False, ("walk-level",)),
        )
        for each, path in zip(exercises, paths, strict=True)
    ]
    shown = [(walk, walk_slides(walk, style, words, by_sentence=True)) for walk in walks]
    return slides_document(shown, words)


def _told(budget: Budget, exercise: Exercise) -> ToldPath:
    path = told_path(exercise.puzzle, budget.deadline())
    if path.cut_short:
        _lost(exercise)
    return path


def _lost(exercise: Exercise) -> ToldPath:
    """Raises MayNotBePrinted: what a wall shows must not depend on how fast a machine is."""
    puzzle = exercise.puzzle
    line = f"{puzzle.source}: {puzzle.id}: its walk was not found in time; --seconds gives more"
    raise MayNotBePrinted([line], [{"file": puzzle.file, "id": puzzle.id, "verdict": "one"}])
