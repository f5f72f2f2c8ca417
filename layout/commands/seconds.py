"""The option `--seconds` of every command that may think long."""

import argparse
from math import isfinite
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from verify.budget import Budget

MOST_SECONDS: Final = 1_000_000
"""More than eleven days."""


def add_seconds(parser: argparse.ArgumentParser, what: str) -> None:
    """Adds the option; `what` says what the seconds are for."""
    from verify.budget import USUAL_SECONDS

    parser.add_argument(
        "--seconds",
        type=_seconds,
        default=USUAL_SECONDS,
        metavar="N",
        help=f"seconds for {what} (default: {USUAL_SECONDS:g})",
    )


def _seconds(text: str) -> float:
    try:
        seconds = float(text)
    except ValueError:
        seconds = 0.0
    if not isfinite(seconds) or not 0 < seconds <= MOST_SECONDS:
        expected = f"a number of seconds above 0, at most {MOST_SECONDS}"
        raise argparse.ArgumentTypeError(f"found {text!r}, expected {expected}")
    return seconds


def budget_of(options: argparse.Namespace, conflicts: int | None = None) -> "Budget":
    """What the command line gives to a puzzle."""
    from verify.budget import USUAL, Budget

    return Budget(conflicts or USUAL.conflicts, options.seconds)
