"""Signals that ask a run to end: told as KeyboardInterrupt, and never in the middle of a move.

Ctrl-C (SIGINT) and SIGTERM mean the same here. While files take their places, both wait.
"""

import signal
from collections.abc import Iterator
from contextlib import contextmanager
from types import FrameType
from typing import Final

ASKING: Final = (signal.SIGINT, signal.SIGTERM)
"""The signals that ask a run to end."""

_waiting: list[int] = []
_held = 0
_asked = False
_moved = False


def listen() -> None:
    """From now on each of `ASKING` raises KeyboardInterrupt in the main thread, or waits."""
    global _asked, _moved
    _asked = _moved = False
    for number in ASKING:
        signal.signal(number, _answer)


def ignore() -> None:
    """From now on none of `ASKING` is heard: the run has ended already."""
    for number in ASKING:
        signal.signal(number, signal.SIG_IGN)


def asked() -> bool:
    """Whether the run was asked to end; what fails after that may have failed for it."""
    return _asked


def note_moved() -> None:
    """From now on `message` says that files were changed."""
    global _moved
    _moved = True


def message() -> str:
    """What an interrupted run says at its end."""
    if _moved:
        return "interrupted; files that were finished are in their places"
    return "interrupted; no file was changed"


def _answer(number: int, frame: FrameType | None) -> None:
    global _asked
    _asked = True
    if _held:
        _waiting.append(number)
        return
    raise KeyboardInterrupt


@contextmanager
def held() -> Iterator[None]:
    """Lets no signal of `ASKING` break the block; one that came is raised at its end.

    Without `listen` before, nothing is held: signals are then someone else's. Blocks may nest;
    the outermost raises. An exception of the block goes first.
    """
    global _held
    _held += 1
    try:
        yield
    finally:
        _held -= 1
    if not _held and _waiting:
        _waiting.clear()
        raise KeyboardInterrupt
