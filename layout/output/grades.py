"""Grades kept beside the puzzles, so that none is walked twice: a file of SQLite.

Several runs may use it at once, and one that is killed leaves it whole: each grade is a
transaction of its own in SQLite's write-ahead log. Losing the file costs time and nothing else.
"""

import json
import os
import sqlite3
from contextlib import suppress
from hashlib import sha256
from pathlib import Path
from typing import Any, Final

from layout.console import tell
from layout.output.files import OutputError, refuse_unfit
from verify.walk.facts.step import Technique
from verify.walk.report.grade import Band, Grade

NAME: Final = ".reglet-grades"
"""A hidden file beside the puzzles; SQLite puts `-wal` and `-shm` next to it."""

ASIDE: Final = ".broken"
"""What is put behind the name of a file that can't be read."""

PATIENCE: Final = 30.0
"""Seconds to wait while another run writes."""

_BROKEN: Final = frozenset(
    {sqlite3.SQLITE_ERROR, sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB, sqlite3.SQLITE_MISMATCH}
)
"""What SQLite says of a file that is none of ours, or no longer."""

_TABLE: Final = """
CREATE TABLE IF NOT EXISTS grades (digest BLOB PRIMARY KEY, told TEXT, seal BLOB) WITHOUT ROWID
"""


class KeptGrades:
    """Grades by their digests. What goes wrong with the file is a grade that is not known.

    It can be handed to a worker process, which opens the file for itself.
    """

    def __init__(self, path: Path) -> None:
        self._path = path
        self._open: sqlite3.Connection | None = None

    def __reduce__(self) -> tuple[type["KeptGrades"], tuple[Path]]:
        return KeptGrades, (self._path,)

    def recall(self, digest: bytes) -> Grade | None:
        """The grade that is kept for a digest; None where there is none, or its seal is broken."""
        try:
            ask = "SELECT told, seal FROM grades WHERE digest = ?"
            row = self._opened().execute(ask, (digest,)).fetchone()
        except sqlite3.Error:
            return None
        if row is None or not isinstance(row[0], str) or row[1] != _seal(digest, row[0]):
            return None
        return _read(row[0])

    def keep(self, digest: bytes, known: Grade) -> None:
        """Keeps a grade; what is known already is written over."""
        hardest = known.hardest.value if known.hardest else None
        told = json.dumps([known.band.value, known.score, hardest])
        row = (digest, told, _seal(digest, told))
        with suppress(sqlite3.Error):
            self._opened().execute("INSERT OR REPLACE INTO grades VALUES (?, ?, ?)", row)

    def try_out(self) -> None:
        """Opens the file and reads through it. Raises sqlite3.Error where it is no such file."""
        try:
            opened = self._opened()
            (word,) = opened.execute("PRAGMA quick_check(1)").fetchone()
            if word != "ok":
                raise sqlite3.DatabaseError(word)
            opened.execute("SELECT digest, told, seal FROM grades LIMIT 1").fetchall()
        except sqlite3.Error:
            self.close()
            raise

    def close(self) -> None:
        """Lets the file go; the log is folded into it where nobody else has it open."""
        if self._open is not None:
            self._open.close()
            self._open = None

    def _opened(self) -> sqlite3.Connection:
        if self._open is None:
            opened = sqlite3.connect(self._path, timeout=PATIENCE, isolation_level=None)
            try:
                opened.execute("PRAGMA journal_mode = WAL")
                opened.execute("PRAGMA synchronous = NORMAL")
                opened.execute(_TABLE)
            except sqlite3.Error:
                opened.close()
                raise
            self._open = opened
        return self._open


def grades_beside(puzzles: Path, quiet: bool) -> KeptGrades | None:
    """The grades kept beside a file of puzzles, or in a folder of them; None where none can be.

    A file that is broken is put aside, and said so.
    """
    folder = puzzles if puzzles.is_dir() else puzzles.parent
    path = folder / NAME
    try:
        refuse_unfit(path)
        return _tried(path, quiet)
    except (OutputError, OSError, sqlite3.Error) as error:
        tell(f"grades are not kept: {path}: {error}", quiet)
        return None


def _tried(path: Path, quiet: bool) -> KeptGrades:
    grades = KeptGrades(path)
    try:
        grades.try_out()
    except sqlite3.DatabaseError as error:
        code = getattr(error, "sqlite_errorcode", sqlite3.SQLITE_CORRUPT)
        if code & 0xFF not in _BROKEN:
            raise
        aside = path.with_name(path.name + ASIDE)
        os.replace(path, aside)
        for end in ("-wal", "-shm"):
            path.with_name(path.name + end).unlink(missing_ok=True)
        tell(f"{path} can't be read ({error}); it was put aside as {aside.name}", quiet)
        grades.try_out()
    return grades


def _seal(digest: bytes, told: str) -> bytes:
    """What shows that a grade stands as it was written, and for this digest."""
    return sha256(digest + told.encode()).digest()[:16]


def _read(told: str) -> Grade | None:
    try:
        found: Any = json.loads(told)
        band, score, hardest = found
        return Grade(Band(band), score, None if hardest is None else Technique(hardest))
    except (ValueError, TypeError):
        return None
