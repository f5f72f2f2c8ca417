"""What other programs call to read, prove, walk and grade a puzzle.

What a function needs is imported when it is called, so that `verify` itself is imported at once.
"""

from importlib import import_module
from os import PathLike
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from verify.budget import Budget
    from verify.proof.verdict import Verdict
    from verify.puzzle import Puzzle
    from verify.walk.report.grade import Grade
    from verify.walk.walk import Walk

__all__ = ["grade", "prove", "read_puzzle", "walk"]


def read_puzzle(source: "str | PathLike[str]") -> "Puzzle":
    r"""The puzzle of a manifest: of a file, where `source` is a path, or of a `str`, its text.

    Raises Unreadable where it can't be understood. That holds all `problems`, each with its
    place and with what was expected there.

        >>> puzzle = read_puzzle("title: Low Ebb\nkind: latin\nsize: 2\ngivens: |\n 1 .\n . .")
        >>> puzzle.title, puzzle.givens
        ('Low Ebb', (1, 0, 0, 0))

        >>> from verify import Unreadable
        >>> try:
        ...     read_puzzle("kind: latim\nsize: 2")
        ... except Unreadable as error:
        ...     for problem in error.problems:
        ...         print(problem.place.line, problem.place.column, problem.message)
        1 7 unknown kind "latim"; did you mean "latin"?
    """
    from pathlib import Path

    from verify.manifest import read

    if isinstance(source, str):
        return read.puzzle_from_text(source)
    return read.read_puzzle(Path(source))


def prove(puzzle: "Puzzle", budget: "Budget | None" = None) -> "Verdict":
    r"""Whether a puzzle has one answer, many or none, or is undecided within its budget.

    The budget is 2,000,000 conflicts of the solver and 60 seconds, unless told. Every answer in
    the verdict has passed the plain check of each rule. Raises ProofFault where one does not: a
    defect of this program.

        >>> from verify import RULES, read_puzzle
        >>> verdict = prove(read_puzzle(RULES[0].example))
        >>> verdict.word, len(verdict.answers)
        ('one', 1)
        >>> many = prove(read_puzzle("kind: latin\nsize: 2"))
        >>> many.word, many.differs
        ('many', (0, 1, 2, 3))
    """
    from verify.proof.verdict import prove as proved

    return proved(puzzle, budget)


def walk(puzzle: "Puzzle", budget: "Budget | None" = None) -> "Walk":
    """The way from the givens to the answer, always by the easiest technique that gets on.

    It has no thought of how many answers there are: prove that first. It ends where no technique
    gets on, and is `cut_short` once the budget's seconds are over: 60, unless told. (Conflicts are
    the solver's, which a walk does not ask.)

        >>> from verify import RULES, read_puzzle
        >>> walked = walk(read_puzzle(RULES[0].example))
        >>> walked.finished, walked.rounds[0].technique.value
        (True, 'hidden single')
    """
    from verify.budget import USUAL
    from verify.walk.walk import walk as walked

    return walked(puzzle, deadline=(budget or USUAL).deadline())


def grade(walk: "Walk") -> "Grade":
    """How hard a puzzle is, by its walk: a band, a score within it, and the hardest technique.

    A walk that ends before the answer is `ungraded` and has no score.

        >>> from verify import RULES, read_puzzle, walk
        >>> graded = grade(walk(read_puzzle(RULES[0].example)))
        >>> graded.band.value, graded.score, graded.hardest.value
        ('calm', 0.8, 'hidden single')
    """
    from verify.walk.report.grade import grade as graded

    return graded(walk)


# `verify.walk` is a folder, too. Python binds that name in `verify` once, when it first loads the
# folder: so that is now, and `verify` puts the function there after it, for good. The function
# answers for the folder, so that dotted names such as `verify.walk.walk` lead on.
walk.__dict__ = vars(import_module("verify.walk"))
