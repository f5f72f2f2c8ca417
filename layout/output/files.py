"""What the system is asked for when files are written, and told in an editor's words."""

import os
import shutil
import stat
from collections.abc import Iterable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path


class OutputError(Exception):
    """A file that could not be written, told to the editor; what stood there still stands."""


@contextmanager
def output_errors(path: Path) -> Iterator[None]:
    """Says in an editor's words what the system could not do."""
    try:
        yield
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise OutputError(f"can't write {path}: {reason}") from error


def refuse_unfit(path: Path) -> None:
    """Raises OutputError where something stands that is no file: it is never opened."""
    _refuse_dead_link(path, path)
    try:
        mode = path.stat().st_mode
    except OSError:
        return
    if stat.S_ISDIR(mode):
        raise OutputError(f"can't write {path}: it is a folder")
    if not stat.S_ISREG(mode):
        raise OutputError(f"can't write {path}: it is a device or a pipe")


def _refuse_dead_link(link: Path, output: Path) -> None:
    """Raises OutputError for a link that leads to nothing, or in a circle."""
    if os.path.islink(link) and not os.path.exists(link):
        name = "it" if link == output else str(link)
        raise OutputError(f"can't write {output}: {name} is a link that leads to nothing")


def refuse_inputs(output: Path, inputs: Iterable[Path]) -> None:
    """Raises OutputError where a file to be written is one of those read, however it is spelled."""
    path = input_at(output, inputs)
    if path is not None:
        raise OutputError(f"can't write {output}: it is what is read, {path}")


def input_at(output: Path, inputs: Iterable[Path]) -> Path | None:
    """The first of some files read that a file to be written is, or None.

    Links are followed, and second names of a file count. So do names that differ in case alone,
    on every disk: some tell no case apart. A file need not be there yet.
    """
    name, number = _real_name(output), _file_number(output)
    for path in inputs:
        if _real_name(path) == name or (number is not None and _file_number(path) == number):
            return path
    return None


def _real_name(path: Path) -> str:
    return os.path.realpath(path).casefold()


def _file_number(path: Path) -> tuple[int, int] | None:
    """What the system counts a file by, whatever its names; None where there is none."""
    try:
        found = path.stat()
    except OSError:
        return None
    return found.st_dev, found.st_ino


def write_durably(path: Path, data: bytes) -> None:
    """Writes a new file, and waits until the disk has it."""
    with path.open("wb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())


def settle(folder: Path) -> None:
    """Waits until the disk knows the names in a folder; some systems can't be asked."""
    if not hasattr(os, "O_DIRECTORY"):
        return
    handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
    try:
        with suppress(OSError):
            os.fsync(handle)
    finally:
        os.close(handle)


def keep(place: Path, kept: Path) -> None:
    """A second name for a file, or a copy where the disk has no second names."""
    try:
        os.link(place, kept)
    except OSError:
        shutil.copy2(place, kept)


def is_same(one: Path, other: Path) -> bool:
    """Whether two names are one file, or two files with the same bytes."""
    try:
        return os.path.samefile(one, other) or one.read_bytes() == other.read_bytes()
    except FileNotFoundError:
        return False


@contextmanager
def made_folder(folder: Path) -> Iterator[None]:
    """Makes a folder and those above it; takes away what it made where anything fails."""
    above = (folder, *folder.parents)
    for each in above:
        _refuse_dead_link(each, folder)
        if os.path.exists(each) and not os.path.isdir(each):
            name = "it" if each == folder else str(each)
            raise OutputError(f"can't write {folder}: {name} is no folder")
    missing = [each for each in above if not os.path.exists(each)]
    with output_errors(folder):
        folder.mkdir(parents=True, exist_ok=True)
    try:
        yield
    except BaseException:
        for each in missing:
            with suppress(OSError):
                each.rmdir()
        raise
