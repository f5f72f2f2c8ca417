"""What goes to the terminal: messages on standard error, answers on standard output."""

import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager


def complain(message: str) -> None:
    """One line on standard error, also with --quiet."""
    print(message, file=sys.stderr)  # noqa: T201


def tell(message: str, quiet: bool) -> None:
    """One line on standard error, unless quiet."""
    if not quiet:
        complain(message)


def answer(text: str) -> None:
    """Text on standard output: what the command was asked for."""
    print(text)  # noqa: T201


def answer_json(document: object) -> None:
    """One JSON document on standard output, and nothing else there."""
    import json

    answer(json.dumps(document, ensure_ascii=False, indent=1))


def first_of(names: Sequence[str], most: int) -> str:
    """The first names, and how many more there are."""
    left = len(names) - most
    named = " ".join(names[:most])
    return f"{named} and {left} more" if left > 0 else named


@contextmanager
def progress(label: str, total: int, quiet: bool) -> Iterator[Callable[[int], None]]:
    """A bar on a terminal, nothing in a pipe; gives a function to call with what is done."""
    if quiet or not sys.stderr.isatty():
        yield lambda done: None
        return
    from rich.console import Console
    from rich.progress import Progress

    with Progress(console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task(label, total=total)
        yield lambda done: bar.update(task, completed=done)
