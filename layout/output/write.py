"""Writes finished files: one by itself, or several that stand and fall together."""

import os
import shutil
import tempfile
from collections.abc import Callable, Container, Iterable, Iterator, Sequence
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path
from typing import Final, TypeAlias

from layout.interrupts import held, note_moved
from layout.output.files import made_folder, output_errors, refuse_unfit, settle, write_durably
from layout.output.folder_lock import WHO, beside_prefix, locked, runs_in
from layout.output.journal import FileMove, UnderWay

Check: TypeAlias = Callable[[Path], None]
"""Reads a file back before it takes its place; raises where it is not as it should be."""

OutputFile: TypeAlias = tuple[Path, bytes, Check | None]
"""Where a file belongs, what is in it, and how it is checked before it goes there."""

MOST_TOLD: Final = 200
"""Characters of a job's name that another run is told."""


def write_whole(path: Path, data: bytes, check: Check | None = None) -> None:
    """Writes one file beside its place, checks it there, then moves it in one step.

    Missing folders are made. Raises OutputError where the place can't be written or the disk is
    full. Whatever fails, the earlier file is untouched and nothing is left beside it.
    """
    refuse_unfit(path)
    with made_folder(path.parent), output_errors(path), _beside(path.parent, path.name) as beside:
        _clear_dead(path.parent)
        staged = beside / "0.new"
        write_durably(staged, data)
        if check is not None:
            check(staged)
        with held():
            os.replace(staged, path)
            note_moved()


class Outputs:
    """The files of one run that holds their folders; the journal lies in the first of these."""

    def __init__(self, under_way: UnderWay) -> None:
        self._under_way = under_way
        self._moves: list[FileMove] = []

    def write_all(self, files: Iterable[OutputFile], unwanted: Sequence[Path] = ()) -> list[Path]:
        """Writes files, all of them or none; then takes away those that are `unwanted`.

        All are written beside first, one after another as they come, and checked there; then each
        takes its place in one step, in their order. Raises OutputError where a place can't be
        written or the disk is full. Whatever fails, also in the making of `files`, every earlier
        file stands as it stood. A signal that comes while files are moved waits for the end.
        """
        written = [self._stage(path, data, check) for path, data, check in files]
        for path in unwanted:
            if path not in written:
                self._note(path, new=False)
        if self._moves:
            settle(self._under_way.beside)
            with held():
                self._under_way.move_all(self._moves)
                note_moved()
        return written

    def _stage(self, path: Path, data: bytes, check: Check | None) -> Path:
        refuse_unfit(path)
        staged = self._under_way.staged(self._note(path, new=True))
        with output_errors(path):
            write_durably(staged, data)
        if check is not None:
            check(staged)
        return path

    def _note(self, path: Path, *, new: bool) -> int:
        place = os.path.relpath(path, self._under_way.folder)
        self._moves.append(FileMove(len(self._moves), Path(place).as_posix(), new))
        return len(self._moves) - 1


@contextmanager
def outputs_in(folders: Sequence[Path], job: str, tell: Callable[[str], None]) -> Iterator[Outputs]:
    """Holds the folders that a job writes to, from before it reads what stands there.

    What a dead run left there is finished, or taken away, first; `tell` is told. Folders that are
    missing are made, and unmade where the block fails. Raises OutputError where another run holds
    one of them, and where what a dead run left can't be finished.
    """
    with ExitStack() as stack:
        own = sorted({Path(os.path.normpath(folder)) for folder in folders})
        for folder in own:
            stack.enter_context(locked(folder))
        for folder in own:
            for sentence in _mend(folder, own):
                tell(sentence)
        yield Outputs(UnderWay(stack.enter_context(_beside(folders[0], job))))


def _mend(folder: Path, allowed: Container[Path]) -> Iterator[str]:
    """Finishes what dead runs began in a folder that is held, and takes away what they left."""
    with output_errors(folder):
        _clear_dead(folder)
        for beside, _ in runs_in(folder):
            under_way = UnderWay(beside)
            if under_way.has_journal:
                with held():
                    sentence = under_way.recover(allowed)
                yield sentence


def _clear_dead(folder: Path) -> None:
    """Takes away what runs that are no more have left before they moved anything."""
    for beside, process in runs_in(folder):
        if not UnderWay(beside).has_journal and not _is_alive(process):
            shutil.rmtree(beside, ignore_errors=True)


def _is_alive(process: int) -> bool:
    """Whether a process runs; where that can't be known, it does."""
    if os.name != "posix":
        return True
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    except (OSError, OverflowError):
        return True
    return True


@contextmanager
def _beside(folder: Path, job: str) -> Iterator[Path]:
    """A folder inside for files on their way, gone afterwards unless it has a journal."""
    with output_errors(folder):
        beside = Path(tempfile.mkdtemp(prefix=beside_prefix(os.getpid()), dir=folder))
    try:
        with output_errors(folder):
            (beside / WHO).write_text(job[:MOST_TOLD], encoding="utf-8", errors="replace")
        yield beside
    finally:
        # The run ends here anyway, and what it ends with goes before a signal.
        with suppress(KeyboardInterrupt), held():
            if not UnderWay(beside).has_journal:
                shutil.rmtree(beside, ignore_errors=True)
