"""One run at a time in a folder of finished files."""

import re
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from datetime import datetime
from pathlib import Path
from typing import Final

from layout.output.files import OutputError, made_folder, output_errors

LOCK: Final = ".reglet.lock"
"""A hidden file that stays; it says nothing when no run holds it."""

BESIDE: Final = ".making."
"""How the name of a folder begins in which a run keeps files on their way; its process follows."""

WHO: Final = "job.txt"
"""In that folder: what the run makes."""

_OF_RUN: Final = re.compile(re.escape(BESIDE) + r"([0-9]{1,10})\.\w{8}")


def beside_prefix(process: int) -> str:
    """How the name of a run's own folder begins."""
    return f"{BESIDE}{process}."


def runs_in(folder: Path) -> Iterator[tuple[Path, int]]:
    """The folders of runs, living and dead, inside one, each with its process."""
    for each in sorted(folder.iterdir()):
        of_run = _OF_RUN.fullmatch(each.name)
        if of_run and each.is_dir() and not each.is_symlink():
            yield each, int(of_run[1])


@contextmanager
def locked(folder: Path) -> Iterator[None]:
    """Holds a folder, which is made where it is missing and unmade where the block fails.

    Raises OutputError, naming who holds it, where another run does.
    """
    from filelock import FileLock, Timeout

    is_new = not folder.exists()
    with made_folder(folder):
        path = folder / LOCK
        lock = FileLock(path, timeout=0)
        with output_errors(path):
            try:
                lock.acquire()
            except Timeout:
                message = f"{folder} is in use{_holder(folder)}; nothing was changed"
                raise OutputError(message) from None
        try:
            yield
        except BaseException:
            if is_new:
                path.unlink(missing_ok=True)
            raise
        finally:
            lock.release()


def _holder(folder: Path) -> str:
    """Who seems to be at work in a folder."""
    for beside, process in runs_in(folder):
        with suppress(OSError):
            job = (beside / WHO).read_text(encoding="utf-8").strip()
            since = datetime.fromtimestamp(beside.stat().st_mtime).strftime("%H:%M")
            return f" by another run: {job}, process {process}, since {since}"
    return " by another run"
