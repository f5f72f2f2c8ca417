"""The bytes by which a certificate knows its manifest."""

from pathlib import Path

from verify.manifest.bank import cells_in_line
from verify.manifest.source import source_bytes
from verify.puzzle import Puzzle


def manifest_bytes(puzzle: Puzzle, path: Path) -> bytes:
    """The bytes of a manifest's file; of a puzzle in a bank, its grid, with `.` for open cells.

    A bank may be sorted anew, or get other words in its lines: its puzzles are still the same.
    Raises Unreadable where the file can't be read any more.
    """
    if puzzle.line:
        return cells_in_line(puzzle).encode("ascii")
    return source_bytes(path, puzzle.file)
