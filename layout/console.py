"""What goes to the terminal: messages on standard error, answers on standard output.

Either stream may be closed or full. A message is then lost, as nobody reads it; an answer that
can't be given is AnswerLost.
"""

import re
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, suppress
from typing import Final, TextIO

_COMMANDS: Final = re.compile(
    "[\x00-\x09\x0b-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069\ud800-\udfff]"
)
"""What a terminal may take for a command, may turn words around, or is no character."""

LONGEST: Final = 2000
"""Characters of one message; what an argument of a megabyte does to it need not be read."""


class AnswerLost(Exception):  # noqa: N818 - what befell the answer, in the user's words
    """Standard output takes nothing more; the message says why."""


def complain(message: str) -> None:
    """One line on standard error, also with --quiet."""
    if sys.stderr is None:
        return
    cut = message if len(message) <= LONGEST else message[: LONGEST - 1] + "…"
    with suppress(OSError):
        print(printable(cut).replace("\n", "<U+000A>"), file=sys.stderr)  # noqa: T201


def tell(message: str, quiet: bool) -> None:
    """One line on standard error, unless quiet."""
    if not quiet:
        complain(message)


def printable(text: str) -> str:
    """Text with the number of each character that a terminal may take for a command."""
    return _COMMANDS.sub(lambda found: f"<U+{ord(found[0]):04X}>", text)


def answer(text: str) -> None:
    """Text on standard output: what the command was asked for. Raises AnswerLost."""
    _answer(printable(text))


def answer_json(document: object) -> None:
    """One JSON document on standard output, and nothing else there. Raises AnswerLost."""
    import json

    only_ascii = not (getattr(sys.stdout, "encoding", None) or "").lower().startswith("utf")
    _answer(json.dumps(document, ensure_ascii=only_ascii, indent=1))


def flush_answers() -> None:
    """Writes out what standard output still buffers. Raises AnswerLost where that fails."""
    if sys.stdout is not None:
        with _standard_output() as stream:
            stream.flush()


def _answer(text: str) -> None:
    with _standard_output() as stream:
        print(text, file=stream)


@contextmanager
def _standard_output() -> Iterator[TextIO]:
    """Standard output for a block. Raises AnswerLost where the block can't write to it.

    Only a BrokenPipeError passes: then the reader has closed the pipe because it wants no more.
    """
    if sys.stdout is None:
        raise AnswerLost("standard output is closed")
    try:
        yield sys.stdout
    except BrokenPipeError:
        raise
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise AnswerLost(f"can't write to standard output: {reason}") from error


def counted(count: int, one: str) -> str:
    """`1 page`, `2 pages`."""
    return f"{count} {one}" if count == 1 else f"{count} {one}s"


def first_of(names: Sequence[str], most: int, between: str = " ") -> str:
    """The first names, and how many more there are."""
    left = len(names) - most
    named = between.join(names[:most])
    return f"{named} and {left} more" if left > 0 else named


@contextmanager
def progress(label: str, total: int, quiet: bool) -> Iterator[Callable[[int], None]]:
    """A bar on a terminal, nothing in a pipe; gives a function to call with what is done."""
    if quiet or sys.stderr is None or not sys.stderr.isatty():
        yield lambda done: None
        return
    from rich.console import Console
    from rich.progress import Progress

    with Progress(console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task(label, total=total)
        yield lambda done: bar.update(task, completed=done)


@contextmanager
def status(label: str, quiet: bool) -> Iterator[Callable[[str], None]]:
    """A line on a terminal that changes, nothing in a pipe; gives a function that says it."""
    if quiet or sys.stderr is None or not sys.stderr.isatty():
        yield lambda words: None
        return
    from rich.console import Console
    from rich.text import Text

    with Console(stderr=True).status(label) as line:
        yield lambda words: line.update(Text(printable(words)))
