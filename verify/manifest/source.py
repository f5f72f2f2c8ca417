"""A file's text, read whole and checked before anything tries to understand it."""

import os
import re
import stat
from collections.abc import Iterator
from contextlib import contextmanager
from hashlib import sha256
from pathlib import Path
from typing import BinaryIO, Final

from verify.reading.node import Place, shown
from verify.reading.problems import Problem, Unreadable

MOST_BYTES: Final = 1 << 20
"""Largest file that is read as a manifest or a job."""

_UNFIT: Final = re.compile(
    "[\x00-\x08\x0b-\x1f\x7f-\x9f\u2028\u2029\ufeff\ufffe\uffff\ud800-\udfff]"
)
"""Characters that no editor means: control characters and line ends that few editors count."""


def shown_path(path: Path) -> str:
    """A path as messages name it: with slashes, and printable."""
    name = path.as_posix()
    return name if name.isprintable() else "/".join(map(shown, name.split("/")))


def lies_in(path: Path, folder: Path) -> bool:
    """Whether a path lies in a folder, after links are followed, as far as they lead somewhere."""
    try:
        return Path(os.path.realpath(path)).is_relative_to(os.path.realpath(folder))
    except ValueError:  # a name that none can have
        return False


def source_text(path: Path, name: str) -> str:
    """The text of a file, with plain line ends.

    Raises Unreadable, at `name`, where it is no regular file, can't be read, is too large, or
    is not UTF-8 text.
    """
    return text_of(source_bytes(path, name), name)


def stream_text(stream: BinaryIO | None, name: str) -> str:
    """The text of a stream, such as standard input, read to its end; raises as `source_text`.

    None is a stream that is closed.
    """
    if stream is None:
        raise _unreadable(Place(name, 1, 1), "it is closed, expected text")
    try:
        data = _whole(stream, name)
    except OSError as error:
        message = f"it can't be read: {error.strerror or error}"
        raise _unreadable(Place(name, 1, 1), message) from None
    return text_of(data, name)


def text_of(data: bytes, name: str) -> str:
    """UTF-8 bytes as text with plain line ends and no byte order mark."""
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = error.object[: error.start].decode("utf-8")
        found = f"byte 0x{error.object[error.start]:02X}"
        raise _unreadable(
            _place_after(name, _plain_ends(before)),
            f"found {found}, expected UTF-8 text; save the file as UTF-8",
        ) from None
    return checked_text(text, name)


def checked_text(text: str, name: str) -> str:
    """Text with plain line ends; raises Unreadable where a character is unfit for a file."""
    if len(text) > MOST_BYTES:
        raise _too_large(name)
    text = _plain_ends(text.removeprefix("\ufeff"))
    unfit = _UNFIT.search(text)
    if unfit is not None:
        place = _place_after(name, text[: unfit.start()])
        found = f"the control character U+{ord(unfit[0]):04X}"
        raise _unreadable(place, f"found {found}, expected plain text")
    return text


def source_lines(path: Path, name: str, longest: int) -> Iterator[str]:
    """The lines of a text file of any length, one after the other, without their ends.

    Only `longest` + 1 bytes of a line are kept, and bytes that are not UTF-8 are replaced: the
    caller judges each line. Raises Unreadable where the file can't be read.
    """
    with _opened(path, name) as stream:
        while line := stream.readline(longest + 1):
            end = line
            while not end.endswith(b"\n") and (end := stream.readline(MOST_BYTES)):
                pass
            yield line.rstrip(b"\r\n").decode("utf-8", "replace").removeprefix("\ufeff")


def source_digest(path: Path, name: str) -> str:
    """A SHA-256 of a file's bytes in hexadecimal figures; why not where it can't be read."""
    try:
        with _opened(path, name) as stream:
            whole = sha256()
            while data := stream.read(MOST_BYTES):
                whole.update(data)
            return whole.hexdigest()
    except Unreadable as unreadable:
        return str(unreadable)


def source_bytes(path: Path, name: str, most: int = MOST_BYTES) -> bytes:
    """The bytes of a file that has at most so many; raises Unreadable as `source_text`."""
    with _opened(path, name) as stream:
        return _whole(stream, name, most)


def _whole(stream: BinaryIO, name: str, most: int = MOST_BYTES) -> bytes:
    """All that is left of a stream, if it is not too much."""
    data = stream.read(most + 1)
    if len(data) > most:
        raise _too_large(name, most)
    return data


@contextmanager
def _opened(path: Path, name: str) -> Iterator[BinaryIO]:
    """A regular file, open for reading; whatever goes wrong is Unreadable."""
    start = Place(name, 1, 1)
    try:
        mode = path.stat().st_mode
        if stat.S_ISDIR(mode):
            raise _unreadable(start, "found a folder, expected a file")
        if not stat.S_ISREG(mode):
            raise _unreadable(start, "found a device or a pipe, expected a file")
        with open(path, "rb", opener=_at_once) as stream:
            if not stat.S_ISREG(os.fstat(stream.fileno()).st_mode):
                raise _unreadable(start, "found a device or a pipe, expected a file")
            yield stream
    except FileNotFoundError:
        raise _unreadable(start, "no such file") from None
    except (OSError, ValueError) as error:
        reason = error.strerror if isinstance(error, OSError) else None
        message = f"the file can't be read: {reason or 'its name is not valid'}"
        raise _unreadable(start, message) from None


def _at_once(path: str, flags: int) -> int:
    """Opens without waiting, also where a pipe has just taken the file's place."""
    return os.open(path, flags | getattr(os, "O_NONBLOCK", 0))


def _plain_ends(text: str) -> str:
    """Text whose lines all end with a line feed."""
    return text.replace("\r\n", "\n").replace("\r", "\n") if "\r" in text else text


def _place_after(name: str, text: str) -> Place:
    """The place just behind some text."""
    return Place(name, text.count("\n") + 1, len(text) - text.rfind("\n"))


def _too_large(name: str, most: int = MOST_BYTES) -> Unreadable:
    """A file of more bytes than it may have."""
    mebibytes = most >> 20
    return _unreadable(
        Place(name, 1, 1), f"found a file of more than {mebibytes} MiB, expected a smaller one"
    )


def _unreadable(place: Place, message: str) -> Unreadable:
    """One problem that keeps a file from being read at all."""
    return Unreadable([Problem(place, message)])
