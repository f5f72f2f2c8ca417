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


def listen() -> None:
    """From now on each of `ASKING` raises KeyboardInterrupt in the main thread, or waits."""
    for number in ASKING:
        signal.signal(number, _answer)


def _answer(number: int, frame: FrameType | None) -> None:
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
