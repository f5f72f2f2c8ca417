"""Where `reglet` begins: signals and streams are seen to first, before anything else is imported.

To import this module is enough for the signals; it is for the script `reglet` alone. Before that,
an interrupt meets Python itself, which has its own words for it. From then on until a command
runs, a signal that asks to end ends the run on the spot: nothing has been changed.
"""

import os
import signal
from types import FrameType

INTERRUPTED = 130
"""The exit code of a run that Ctrl-C or SIGTERM ended."""


def main() -> int:
    """Runs the command line of this process and returns its exit code; lets no traceback out."""
    _open_missing_streams()
    try:
        from layout.process import run

        return run()
    except KeyboardInterrupt:  # a second one, while the first was told
        os._exit(INTERRUPTED)


def _leave(number: int, frame: FrameType | None) -> None:
    """Ends the process at once, with one line where somebody can read it."""
    try:
        os.write(2, b"reglet: interrupted; no file was changed\n")
    finally:
        os._exit(INTERRUPTED)


def _open_missing_streams() -> None:
    """Takes the numbers of closed streams, lest a file that is opened later gets one of them.

    `sys.stdout` and `sys.stderr` stay None, which tells that they are closed.
    """
    for number in range(3):
        try:
            os.fstat(number)
        except OSError:
            os.open(os.devnull, os.O_RDWR)


for _number in (signal.SIGINT, signal.SIGTERM):
    signal.signal(_number, _leave)
