"""The command line: `reglet COMMAND ...`.

Each command is a module of `layout.commands` with `add_arguments(parser)` and `run(args)`,
imported only when it is asked for, so that help answers at once.
"""

import argparse
import os
import sys
from collections.abc import Sequence
from importlib import import_module
from typing import Any, Final, NoReturn

from layout import interrupts
from layout.console import AnswerLost, answer, complain, flush_answers
from verify import __version__

COMMANDS: Final[dict[str, str]] = {
    "make": "do a whole job: read, prove, draw, set, write",
    "check": "verdicts for manifests, folders or banks",
    "verify-certificate": "whether certificates of verdicts hold",
    "preflight": "what a press would refuse of a finished file",
    "walk": "the solve path of one puzzle, in words or on pages",
    "hint": "the best next step for somebody who is stuck",
    "draw": "one image of one puzzle",
    "impose": "a finished file's pages on sheets for a folded booklet",
    "rules": "the rule catalogue: meaning, marks, an example manifest",
    "new": "a manifest to fill in",
    "compose": "set puzzles: from a sketch, to a plan, or classic ones from nothing",
}

ALL_WELL: Final = 0
MAY_NOT_BE_PRINTED: Final = 1
CANNOT_BE_USED: Final = 2
INTERRUPTED: Final = 130

EXIT_CODES: Final = """\
exit codes:
  0    all is well
  1    read and understood, but something may not be printed as it is
  2    the input, the command line or an output can't be used, or Reglet itself has a defect
  130  ended by Ctrl-C or SIGTERM
"""


class Parser(argparse.ArgumentParser):
    """A parser whose errors are one sentence and a way on."""

    def error(self, message: str) -> NoReturn:
        """Ends the program with exit code 2."""
        complain(f"{self.prog}: {message}; see {self.prog} --help")
        self.exit(CANNOT_BE_USED)

    def _print_message(self, message: str, file: object = None) -> None:
        """Help is an answer: argparse would pass over a stream that does not take it."""
        answer(message.rstrip("\n"))


def build_parser(asked: str | None) -> Parser:
    """The parser; only the command that is asked for gets its own arguments."""
    parser = Parser(
        prog="reglet",
        description="The press room of a logic-puzzle editor.",
        epilog=EXIT_CODES,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--version", action="version", version=f"reglet {__version__}")
    subparsers = parser.add_subparsers(dest="command", metavar="COMMAND", parser_class=Parser)
    for name, summary in COMMANDS.items():
        sub = subparsers.add_parser(name, help=summary, description=summary.capitalize() + ".")
        if name == asked:
            _module(name).add_arguments(sub)
            _add_common(sub)
    return parser


def _module(command: str) -> Any:
    """The module of a command."""
    return import_module(f"layout.commands.{command.replace('-', '_')}")


def _add_common(parser: argparse.ArgumentParser) -> None:
    common = parser.add_argument_group("everywhere")
    common.add_argument("--json", action="store_true", help="one JSON document on standard output")
    common.add_argument("--quiet", action="store_true", help="no messages but errors")
    common.add_argument("--jobs", type=_workers, metavar="N", help="worker processes")


def _workers(text: str) -> int:
    if not text.isdecimal() or not 1 <= int(text) <= 256:
        raise argparse.ArgumentTypeError(f"found {text!r}, expected a number from 1 to 256")
    return int(text)


def main(arguments: Sequence[str] | None = None) -> int:
    """Runs one command and returns its exit code; never lets a traceback out."""
    words = list(sys.argv[1:] if arguments is None else arguments)
    try:
        code = _code_of(words)
        flush_answers()
    except AnswerLost as lost:
        complain(f"reglet: {lost}")
        return CANNOT_BE_USED
    except BrokenPipeError:
        return CANNOT_BE_USED
    except KeyboardInterrupt:
        complain(f"reglet: {interrupts.message()}")
        return INTERRUPTED
    return code


def _code_of(words: Sequence[str]) -> int:
    asked = next((word for word in words if not word.startswith("-")), None)
    if asked is not None and asked not in COMMANDS:
        return _refuse_unknown(asked)
    try:
        parser = build_parser(asked)
        options = parser.parse_args(words)
    except SystemExit as end:  # help was given, or it was said what is wrong
        return end.code if isinstance(end.code, int) else CANNOT_BE_USED
    if options.command is None:
        parser.print_help()
        return ALL_WELL
    return _guarded(options)


def _refuse_unknown(asked: str) -> int:
    from verify.reading.node import shown
    from verify.reading.problems import nearest

    complain(f'reglet: unknown command "{shown(asked)}"; {nearest(asked[:80], COMMANDS)}')
    return CANNOT_BE_USED


def _guarded(options: argparse.Namespace) -> int:
    from layout.output.files import OutputError
    from verify.reading.problems import Unreadable

    try:
        code: int = _module(options.command).run(options)
    except Unreadable as unreadable:
        for problem in unreadable.problems:
            complain(str(problem))
    except OutputError as error:
        complain(f"reglet: {error}")
    except (AnswerLost, BrokenPipeError):
        raise
    except OSError as error:
        complain(f"reglet: {error.filename or 'the system'}: {error.strerror or error}")
    except MemoryError:
        complain("reglet: the memory there is does not suffice")
    except Exception as error:
        if interrupts.asked():
            raise KeyboardInterrupt from error
        if "REGLET_TRACEBACK" in os.environ:
            raise
        complain(f"reglet: a defect in Reglet itself: {type(error).__name__}: {error}")
    else:
        return code
    return CANNOT_BE_USED
