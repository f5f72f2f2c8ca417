"""Writes finished files whole or not at all."""

import os
import shutil
import tempfile
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path


class OutputError(Exception):
    """A file that could not be written, told to the editor; what stood there still stands."""


def write_whole(path: Path, data: bytes, check: Callable[[Path], None] | None = None) -> None:
    """Writes beside the file, checks what stands there, then moves over it in one step.

    Missing folders are made. `check` reads the file beside and raises where it is not as it
    should be. Raises OutputError where the place can't be written or the disk is full.
    Whatever fails, the earlier file is untouched and nothing is left beside it.
    """
    with _told(path):
        _refuse_folder(path)
        path.parent.mkdir(parents=True, exist_ok=True)
        _write_beside(path, data, check)


def write_all_whole(
    folder: Path, files: Iterable[tuple[str, bytes]], unwanted: Sequence[str] = ()
) -> list[Path]:
    """Writes several files of a folder, all of them or none, and takes away those `unwanted`.

    All are written beside first, one after another as they come, then moved to their names
    together, in their order; missing folders are made. Raises OutputError where a place can't
    be written or the disk is full. Whatever fails, also in the making of `files`, every earlier
    file stands as it stood and nothing is left beside it.
    """
    with _told(folder), _made_folder(folder), _beside(folder) as beside:
        names = list(_stage(files, folder, beside / "new"))
        _move_all(folder, beside, names, [name for name in unwanted if name not in names])
    return [folder / name for name in names]


@contextmanager
def _told(path: Path) -> Iterator[None]:
    """Says in an editor's words what the system could not do."""
    try:
        yield
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise OutputError(f"can't write {path}: {reason}") from error


def _refuse_folder(path: Path) -> None:
    if path.is_dir():
        raise OutputError(f"can't write {path}: it is a folder")


@contextmanager
def _made_folder(folder: Path) -> Iterator[None]:
    """Makes a folder and those above it; takes away what it made where anything fails."""
    missing = [each for each in (folder, *folder.parents) if not each.exists()]
    folder.mkdir(parents=True, exist_ok=True)
    try:
        yield
    except BaseException:
        for each in missing:
            with suppress(OSError):
                each.rmdir()
        raise


@contextmanager
def _beside(folder: Path) -> Iterator[Path]:
    """A folder inside for files on their way, gone afterwards."""
    beside = Path(tempfile.mkdtemp(prefix=".making.", dir=folder))
    try:
        (beside / "new").mkdir()
        (beside / "old").mkdir()
        yield beside
    finally:
        shutil.rmtree(beside, ignore_errors=True)


def _stage(files: Iterable[tuple[str, bytes]], folder: Path, beside: Path) -> Iterator[str]:
    """Writes each file beside its place and gives its name."""
    for name, data in files:
        _refuse_folder(folder / name)
        with _told(folder / name), (beside / name).open("wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        yield name


def _move_all(folder: Path, beside: Path, names: Sequence[str], unwanted: Sequence[str]) -> None:
    """Puts new files in the place of earlier ones; puts the earlier back where one can't be."""
    with ExitStack() as undoing:
        for name in (*names, *unwanted):
            place, old = folder / name, beside / "old" / name
            if place.exists():
                os.replace(place, old)
                undoing.callback(os.replace, old, place)
        for name in names:
            with _told(folder / name):
                os.replace(beside / "new" / name, folder / name)
            undoing.callback((folder / name).unlink, missing_ok=True)
        undoing.pop_all()


def _write_beside(path: Path, data: bytes, check: Callable[[Path], None] | None) -> None:
    """Writes to a file of another name in the same folder, and lets it take its name."""
    handle, beside = tempfile.mkstemp(prefix=f".{path.name[:40]}.", dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        if check is not None:
            check(Path(beside))
        os.chmod(beside, 0o666 & ~_umask())
        os.replace(beside, path)
    except BaseException:
        with suppress(OSError):
            os.unlink(beside)
        raise


def _umask() -> int:
    """The permissions that new files are not given; asking for them means setting them."""
    mask = os.umask(0)
    os.umask(mask)
    return mask
