"""What goes to the terminal: messages on standard error, answers on standard output.

Either stream may be closed or full. A message is then lost, as nobody reads it; an answer that
can't be given is AnswerLost.
"""

import re
import sys
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from time import monotonic
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
    _answer(_json(document))


def _json(value: object) -> str:
    import json

    only_ascii = not (getattr(sys.stdout, "encoding", None) or "").lower().startswith("utf")
    return json.dumps(value, ensure_ascii=only_ascii, indent=1)


def answer_json_list(head: Mapping[str, object], name: str, items: Iterable[object]) -> None:
    """A JSON document whose last value is a list, written as its items come. Raises AnswerLost.

    It looks as `answer_json` writes it.
    """
    before, between = _json({**head, name: []}).removesuffix("]\n}"), "\n"
    for item in items:
        _answer(before + between + "  " + _json(item).replace("\n", "\n  "), end="")
        before, between = "", ",\n"
    _answer(before + ("\n ]\n}" if not before else "]\n}"))


def flush_answers() -> None:
    """Writes out what standard output still buffers. Raises AnswerLost where that fails."""
    if sys.stdout is not None:
        with _standard_output() as stream:
            stream.flush()


def _answer(text: str, end: str = "\n") -> None:
    with _standard_output() as stream:
        print(text, file=stream, end=end)


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
def progress(
    label: str, total: int, quiet: bool, before: int = 0
) -> Iterator[Callable[[int], None]]:
    """A bar with rate and time left on a terminal, now and then a line in a pipe.

    Gives a function to call with what is done; `before` was done by an earlier run.
    """
    if quiet or sys.stderr is None:
        yield lambda done: None
    elif sys.stderr.isatty():
        with _bar(label, total, before) as show:
            yield Pace(before, BETWEEN_LOOKS, show).note
    else:
        yield Pace(before, BETWEEN_LINES, lambda pace: tell(pace.words(label, total), quiet)).note


BETWEEN_LINES: Final = 30.0
"""Seconds between two lines in a pipe."""

BETWEEN_LOOKS: Final = 0.1
"""Seconds between two looks of a bar."""


class Pace:
    """How fast work goes on: shown each time that so many seconds have passed."""

    def __init__(
        self,
        before: int,
        between: float,
        show: Callable[["Pace"], None],
        clock: Callable[[], float] = monotonic,
    ) -> None:
        self._before, self._between, self._show, self._clock = before, between, show, clock
        self._began = self._shown = clock()
        self.done = before

    def note(self, done: int) -> None:
        """Takes down what is done, and shows it if it is time."""
        self.done, now = done, self._clock()
        if now - self._shown >= self._between:
            self._shown = now
            self._show(self)

    @property
    def rate(self) -> float:
        """Items a second since the beginning, without those of an earlier run."""
        seconds = self._clock() - self._began
        return (self.done - self._before) / seconds if seconds > 0 else 0.0

    def left(self, total: int) -> str:
        """The time left, as `1:05:09` or `5:09`; `-:--` where nobody knows."""
        rate = self.rate
        if rate <= 0 or total < self.done:
            return "-:--"
        minutes, seconds = divmod(round((total - self.done) / rate), 60)
        hours, minutes = divmod(minutes, 60)
        return f"{hours}:{minutes:02}:{seconds:02}" if hours else f"{minutes}:{seconds:02}"

    def words(self, label: str, total: int) -> str:
        """`checking: 300 of 1000, 10.0 a second, 1:10 left`."""
        return f"{label}: {self.done} of {total}, {self.rate:.1f} a second, {self.left(total)} left"


@contextmanager
def _bar(label: str, total: int, before: int) -> Iterator[Callable[[Pace], None]]:
    from rich.console import Console
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn

    columns = (
        TextColumn("{task.description}"),
        BarColumn(),
        MofNCompleteColumn(),
        TextColumn("{task.fields[pace]}"),
    )
    with Progress(*columns, console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task(label, total=total, completed=before, pace="")

        def show(pace: Pace) -> None:
            words = f"{pace.rate:.1f} a second, {pace.left(total)} left"
            bar.update(task, completed=pace.done, pace=words)

        yield show


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
