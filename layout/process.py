"""One run of the command line as a process: its signals, its streams, and how it ends."""

import os
import sys
from _thread import interrupt_main
from contextlib import suppress
from io import TextIOWrapper
from typing import TYPE_CHECKING

from layout import interrupts
from layout.command import main

if TYPE_CHECKING:
    from sys import UnraisableHookArgs

SOON = 0.01
"""Seconds until an interrupt that went by unheard is raised again."""


def run() -> int:
    """Runs the words of the command line and returns the exit code."""
    streams = [each for each in (sys.stdout, sys.stderr) if isinstance(each, TextIOWrapper)]
    for stream in streams:
        stream.reconfigure(errors="backslashreplace")
    sys.unraisablehook = _raise_again
    interrupts.listen()
    try:
        return main()
    finally:
        interrupts.ignore()
        for stream in streams:
            _let_go(stream)


def _raise_again(ignored: "UnraisableHookArgs") -> None:
    """An interrupt that came where Python can't raise one, such as in a finalizer, comes again."""
    if not issubclass(ignored.exc_type, KeyboardInterrupt):
        sys.__unraisablehook__(ignored)
        return
    from threading import Timer

    again = Timer(SOON, interrupt_main)
    again.daemon = True
    again.start()


def _let_go(stream: TextIOWrapper) -> None:
    """Drops what a full or closed stream did not take, lest Python tells of it at its end."""
    try:
        stream.flush()
    except OSError:
        with suppress(OSError):
            os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())
