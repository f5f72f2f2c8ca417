"""Writes a finished file whole or not at all."""

import os
import tempfile
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path


class OutputError(Exception):
    """A file that could not be written, told to the editor; what stood there still stands."""


def write_whole(path: Path, data: bytes, check: Callable[[Path], None] | None = None) -> None:
    """Writes beside the file, checks what stands there, then moves over it in one step.

    Missing folders are made. `check` reads the file beside and raises where it is not as it
    should be. Raises OutputError where the place can't be written or the disk is full.
    Whatever fails, the earlier file is untouched and nothing is left beside it.
    """
    try:
        if path.is_dir():
            raise OutputError(f"can't write {path}: it is a folder")
        path.parent.mkdir(parents=True, exist_ok=True)
        _write_beside(path, data, check)
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise OutputError(f"can't write {path}: {reason}") from error


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
