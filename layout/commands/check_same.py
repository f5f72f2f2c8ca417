"""Which puzzles are others in disguise: canonical forms that were seen already."""

import sqlite3
from typing import Final

from verify.check import Finding

KEY: Final = 16
"""Bytes of a form that are compared: two of a billion forms share them by chance once in 10^20."""


class FormsSeen:
    """Forms by the puzzle that had each first.

    They are kept in a file that the system takes away at the end, so that memory does not grow
    with a bank.
    """

    def __init__(self) -> None:
        self._kept = sqlite3.connect("", isolation_level=None)
        self._kept.execute("PRAGMA journal_mode = OFF")
        self._kept.execute("CREATE TABLE seen (form BLOB PRIMARY KEY, label TEXT) WITHOUT ROWID")
        self._kept.execute("BEGIN")

    def same_as(self, finding: Finding) -> str:
        """What the first puzzle with the same form is called; nothing where this is the first."""
        if not finding.form:
            return ""
        line = finding.place.line if finding.place else None
        return self.note(finding.form, label_of(finding.file, line))

    def note(self, form: str, label: str) -> str:
        """The same for a form and what its puzzle is called."""
        key = bytes.fromhex(form)[:KEY]
        row = self._kept.execute("SELECT label FROM seen WHERE form = ?", (key,)).fetchone()
        if row is None:
            self._kept.execute("INSERT INTO seen VALUES (?, ?)", (key, label))
            return ""
        return str(row[0])


def label_of(file: str, line: int | str | None) -> str:
    """`marsh.txt:3`, or the file alone where it is one puzzle."""
    return f"{file}:{line}" if line else file
