"""Files under way: written beside their places, listed in a journal, then moved.

From the moment when the journal stands, all that it lists is on the disk. A run that is killed
then is finished by the next one, move by move; before that moment nothing has been touched. What
stood in a place is kept under a second name until the last move is done, so that a run which can't
go on puts all of it back; where it is killed at that, the next one goes on with putting back.
"""

import json
import os
import shutil
from collections.abc import Container, Sequence
from dataclasses import asdict, dataclass, replace
from pathlib import Path
from typing import Final

from layout.output.files import OutputError, is_same, keep, output_errors, refuse_unfit, settle

JOURNAL: Final = "journal.json"
"""The moves of a run, while they are done."""

UNDOING: Final = "undoing.json"
"""The same, while they are undone."""


@dataclass(frozen=True, slots=True)
class FileMove:
    """A file that takes its place, or, where `new` is not set, one that goes.

    Its bytes, and those of the `old` file if there was one, lie beside under `number`. `place` is
    the path from the folder in which the journal's own folder lies.
    """

    number: int
    place: str
    new: bool
    old: bool = False


class UnderWay:
    """The files of one run, in a folder of their own inside the one where they belong."""

    def __init__(self, beside: Path) -> None:
        self.beside = beside
        self.folder = beside.parent

    @property
    def has_journal(self) -> bool:
        """Whether all files were written, and moving them may have begun."""
        return any((self.beside / name).exists() for name in (JOURNAL, UNDOING))

    def staged(self, number: int) -> Path:
        """Where the bytes of a file lie until it takes its place."""
        return self.beside / f"{number}.new"

    def kept(self, number: int) -> Path:
        """Where what stood in a file's place is kept."""
        return self.beside / f"{number}.old"

    def place(self, move: FileMove) -> Path:
        """Where a file belongs."""
        return self.folder / move.place

    def move_all(self, moves: Sequence[FileMove]) -> None:
        """Moves every file to its place, in their order, and takes away those that go.

        Raises OutputError where that can't be done; every place is then as it was.
        """
        for move in moves:
            refuse_unfit(self.place(move))
        with output_errors(self.folder):
            noted = [self._keep(move) for move in moves]
            self._write_journal(noted)
        self._finish_or_undo(noted)

    def _keep(self, move: FileMove) -> FileMove:
        """Keeps what stands in a place."""
        if not self.place(move).exists():
            return move
        keep(self.place(move), self.kept(move.number))
        return replace(move, old=True)

    def _finish_or_undo(self, moves: Sequence[FileMove]) -> None:
        try:
            self._finish(moves)
        except BaseException:
            with output_errors(self.folder):
                os.replace(self.beside / JOURNAL, self.beside / UNDOING)
                self._undo(moves)
            raise

    def _finish(self, moves: Sequence[FileMove]) -> None:
        """Does what is not done yet. Raises OutputError at the first that can't be done."""
        for move in moves:
            with output_errors(self.place(move)):
                self._do(move)
        for folder in {self.place(move).parent for move in moves}:
            settle(folder)
        self.remove()

    def _undo(self, moves: Sequence[FileMove]) -> None:
        """Puts back what stood in every place that has been touched."""
        for move in reversed(moves):
            place, kept = self.place(move), self.kept(move.number)
            if kept.exists():
                os.replace(kept, place)
            elif move.new and not move.old and not self.staged(move.number).exists():
                place.unlink(missing_ok=True)
        self.remove()

    def recover(self, allowed: Container[Path]) -> str:
        """Finishes, or undoes, what a dead run was killed at; says so in a sentence.

        Its places must lie in folders that are `allowed`. Raises OutputError, with every place as
        before that run, where a move can't be done; and where a journal can't be believed, or
        someone has put another file in a place since: then nothing is touched.
        """
        undoing = (self.beside / UNDOING).exists()
        moves = self._read_journal(UNDOING if undoing else JOURNAL, allowed)
        if undoing:
            with output_errors(self.folder):
                self._undo(moves)
            return f"{self.folder}: put back what an earlier run could not replace"
        for move in moves:
            self._refuse_stranger(move)
        self._finish_or_undo(moves)
        return f"{self.folder}: finished what an earlier run was killed at (files: {len(moves)})"

    def remove(self) -> None:
        """Takes away the journal, then all that lies beside."""
        for name in (JOURNAL, UNDOING):
            (self.beside / name).unlink(missing_ok=True)
        shutil.rmtree(self.beside, ignore_errors=True)

    def _do(self, move: FileMove) -> None:
        place, staged = self.place(move), self.staged(move.number)
        if not move.new:
            place.unlink(missing_ok=True)
        elif staged.exists():
            os.replace(staged, place)

    def _refuse_stranger(self, move: FileMove) -> None:
        """Raises OutputError where a place to be filled holds what neither run put there."""
        place, kept = self.place(move), self.kept(move.number)
        waits = self.staged(move.number).exists() if move.new else kept.exists()
        as_before = is_same(place, kept) if kept.exists() else not place.exists()
        if waits and place.exists() and not as_before:
            raise OutputError(
                f"can't write {place}: an earlier run was killed before it wrote this file, and "
                f"another stands there now; move it away (the earlier run's files: {self.beside})"
            )

    def _write_journal(self, moves: Sequence[FileMove]) -> None:
        text = json.dumps([asdict(move) for move in moves], indent=1)
        draft = self.beside / f"{JOURNAL}.draft"
        with draft.open("w", encoding="utf-8") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        settle(self.beside)
        os.replace(draft, self.beside / JOURNAL)
        settle(self.beside)

    def _read_journal(self, name: str, allowed: Container[Path]) -> list[FileMove]:
        path = self.beside / name
        try:
            moves = [FileMove(**each) for each in json.loads(path.read_text(encoding="utf-8"))]
            fine = all(
                _is_sound(move, at) and Path(os.path.normpath(self.place(move).parent)) in allowed
                for at, move in enumerate(moves)
            )
        except (OSError, ValueError, TypeError):
            fine = False
        if not fine:
            raise OutputError(f"can't read {path}, which an earlier run left; move it away")
        return moves


def _is_sound(move: FileMove, at: int) -> bool:
    """Whether a move is one that a run writes down: what is read back is believed no further."""
    return (
        move.number == at
        and isinstance(move.new, bool)
        and isinstance(move.old, bool)
        and isinstance(move.place, str)
        and not Path(move.place).is_absolute()
        and Path(move.place).name not in ("", "..")
    )
