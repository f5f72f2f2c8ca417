"""What a puzzle means: manifests, boards, rules and proofs. Knows nothing of how it looks.

As a library: `read_puzzle`, `prove`, `walk`, `grade`, and the list of `RULES`.

    >>> from verify import RULES, grade, prove, read_puzzle, walk
    >>> puzzle = read_puzzle(RULES[0].example)
    >>> prove(puzzle).word
    'one'
    >>> grade(walk(puzzle)).band.value
    'calm'

Nothing heavy is imported before it is asked for, so that the command line answers at once.
"""

from importlib import import_module
from typing import TYPE_CHECKING

from verify.library import grade, prove, read_puzzle, walk

if TYPE_CHECKING:
    from verify.budget import Budget
    from verify.proof.verdict import Verdict
    from verify.puzzle import Puzzle
    from verify.reading.problems import Unreadable
    from verify.rules import RULES
    from verify.walk.report.grade import Grade
    from verify.walk.walk import Walk

__all__ = [
    "RULES",
    "Budget",
    "Grade",
    "Puzzle",
    "Unreadable",
    "Verdict",
    "Walk",
    "grade",
    "prove",
    "read_puzzle",
    "walk",
]

__version__ = "0.9.0"

_HOMES = {
    "RULES": "verify.rules",
    "Budget": "verify.budget",
    "Grade": "verify.walk.report.grade",
    "Puzzle": "verify.puzzle",
    "Unreadable": "verify.reading.problems",
    "Verdict": "verify.proof.verdict",
    "Walk": "verify.walk.walk",
}
"""The files of the names that are no functions."""

if not TYPE_CHECKING:  # a checker sees the imports above, and tells of names that there are not

    def __getattr__(name: str) -> object:
        """A name that is no function, from its own file."""
        if name not in _HOMES:
            raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
        return getattr(import_module(_HOMES[name]), name)
