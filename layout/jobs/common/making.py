"""What making a job is given, and what comes of it."""

from collections.abc import Callable, Mapping
from contextlib import AbstractContextManager
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any, TypeAlias

from layout.pages.book.extract import PageRange
from verify.budget import USUAL, Budget
from verify.walk.report.kept import GradeKeeper

Progress: TypeAlias = Callable[[str, int], AbstractContextManager[Callable[[int], None]]]
"""Opens a bar with a label and a total, and gives a function to call with what is done."""


@dataclass(frozen=True, slots=True)
class Proof:
    """What of a book is wanted to be looked at before the book itself: a draft, some pages."""

    draft: bool = False
    pages: PageRange | None = None

    def __bool__(self) -> bool:
        return self.draft or self.pages is not None

    def __str__(self) -> str:
        """What its file is called by, beside the book's name: `draft-20-31`."""
        parts = ["draft"] if self.draft else []
        return "-".join(parts if self.pages is None else [*parts, str(self.pages)])


@dataclass(frozen=True, slots=True)
class Making:
    """How a job is made: `root` is where its puzzles lie if not in its own folder.

    Of a column the days from `since` on are made anew. `budget` is for each proof and each walk.
    `tell` is told what an editor must know beside what comes of it. `grades` gives the grades that
    are kept beside a file of puzzles, if any are. With a `proof` only that is made; in a `dry_run`
    nothing is, and the days of a column are told.
    """

    root: Path | None
    workers: int | None
    progress: Progress
    since: date | None = None
    budget: Budget = USUAL
    tell: Callable[[str], None] = lambda sentence: None
    grades: Callable[[Path], GradeKeeper | None] = lambda puzzles: None
    proof: Proof = Proof()
    dry_run: bool = False


@dataclass(frozen=True, slots=True)
class Outcome:
    """The files written, `facts` for the JSON document, and `summary`, a line for the editor.

    `lines` are what was asked for in words, for standard output.
    """

    written: tuple[Path, ...]
    facts: Mapping[str, Any]
    summary: str
    lines: tuple[str, ...] = ()
