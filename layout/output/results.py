"""Results line by line in a file that a run which is stopped leaves for the next one to go on with.

They are appended to `NAME.part`; `NAME.run` beside says of what. When all are there, the part takes
the place of the file in one step. A line that is not whole is done again.
"""

import json
import os
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, BinaryIO, Final, TypeAlias

from layout.output.files import output_errors, refuse_unfit, write_durably
from layout.output.folder_lock import locked

PART: Final = ".part"
RUN: Final = ".run"

LONGEST: Final = 10_000_000
"""Bytes of one line."""

Record: TypeAlias = dict[str, Any]
ReadLine: TypeAlias = Callable[[bytes], Record]
"""A line of the file as it was; raises ValueError where it is none."""


class Results:
    """A file under way, open behind the last line that is whole."""

    def __init__(self, part: Path, stream: BinaryIO) -> None:
        self._part, self._stream = part, stream

    def add(self, line: bytes) -> None:
        """Appends one line. Raises OutputError."""
        with output_errors(self._part):
            self._stream.write(line)


@contextmanager
def results_at(
    path: Path, run: Record, head: bytes, read_line: ReadLine, seen: Callable[[Record], None]
) -> Iterator[Results]:
    """The results of a run, which take their place at `path` when the block ends well.

    `run` says what makes the lines what they are: where an earlier run that was stopped said the
    same, its lines stand, and `seen` is called with each of them. `head` is the first line, or
    nothing. Raises OutputError.
    """
    refuse_unfit(path)
    part, noted = path.with_name(path.name + PART), path.with_name(path.name + RUN)
    with locked(path.parent):
        refuse_unfit(part)
        refuse_unfit(noted)
        with output_errors(path):
            if not (part.exists() and _said(noted) == run):
                part.unlink(missing_ok=True)
                write_durably(noted, json.dumps(run).encode())
            part.touch()
            stream = part.open("r+b", buffering=0)
        with stream:
            with output_errors(path):
                _go_to_end(stream, head, read_line, seen)
            yield Results(part, stream)
            with output_errors(path):
                os.fsync(stream.fileno())
        with output_errors(path):
            os.replace(part, path)
            noted.unlink(missing_ok=True)


def _said(noted: Path) -> Record | None:
    try:
        found = json.loads(noted.read_bytes())
    except (OSError, ValueError):
        return None
    return found if isinstance(found, dict) else None


def _go_to_end(
    stream: BinaryIO, head: bytes, read_line: ReadLine, seen: Callable[[Record], None]
) -> None:
    """Reads the lines that are whole, and cuts off what follows them."""
    whole = 0
    with open(stream.fileno(), "rb", closefd=False) as reader:
        if head and reader.readline(LONGEST) == head:
            whole = len(head)
        while (whole or not head) and (line := reader.readline(LONGEST)).endswith(b"\n"):
            try:
                record = read_line(line)
            except ValueError:
                break
            seen(record)
            whole += len(line)
    stream.truncate(whole)
    stream.seek(whole)
    if not whole:
        stream.write(head)
