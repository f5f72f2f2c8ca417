"""The command line: `reglet COMMAND ...`.

Each command is a module of `layout.commands` with `add_arguments(parser)` and `run(args)`,
imported only when it is asked for, so that help answers at once.
"""

import argparse
import os
import sys
from collections.abc import Sequence
from importlib import import_module
from typing import Final, NoReturn

from verify import __version__

COMMANDS: Final[dict[str, str]] = {
    "make": "do a whole job: read, prove, draw, set, write",
    "check": "verdicts for manifests, folders or banks",
    "walk": "the solve path of one puzzle, in words or on pages",
    "draw": "one image of one puzzle",
    "rules": "the rule catalogue: meaning, marks, an example manifest",
    "new": "a manifest to fill in",
}

ALL_WELL: Final = 0
MAY_NOT_BE_PRINTED: Final = 1
CANNOT_BE_USED: Final = 2
INTERRUPTED: Final = 130


class Parser(argparse.ArgumentParser):
    """A parser whose errors are one sentence and a way on."""

    def error(self, message: str) -> NoReturn:
        """Ends the program with exit code 2."""
        self.exit(CANNOT_BE_USED, f"{self.prog}: {message}; see {self.prog} --help\n")


def build_parser(asked: str | None) -> Parser:
    """The parser; only the command that is asked for gets its own arguments."""
    parser = Parser(prog="reglet", description="The press room of a logic-puzzle editor.")
    parser.add_argument("--version", action="version", version=f"reglet {__version__}")
    subparsers = parser.add_subparsers(dest="command", metavar="COMMAND", parser_class=Parser)
    for name, summary in COMMANDS.items():
        sub = subparsers.add_parser(name, help=summary, description=summary.capitalize() + ".")
        if name == asked:
            import_module(f"layout.commands.{name}").add_arguments(sub)
            _add_common(sub)
    return parser


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
    asked = next((word for word in words if not word.startswith("-")), None)
    _refuse_unknown(asked)
    parser = build_parser(asked)
    options = parser.parse_args(words)
    if options.command is None:
        parser.print_help()
        return ALL_WELL
    return _guarded(options)


def _refuse_unknown(asked: str | None) -> None:
    if asked is None or asked in COMMANDS:
        return
    from layout.console import complain
    from verify.reading.problems import nearest

    complain(f'reglet: unknown command "{asked}"; {nearest(asked, COMMANDS)}')
    raise SystemExit(CANNOT_BE_USED)


def _guarded(options: argparse.Namespace) -> int:
    from layout.console import complain
    from layout.output.files import OutputError
    from verify.reading.problems import Unreadable

    module = import_module(f"layout.commands.{options.command}")
    try:
        code: int = module.run(options)
        sys.stdout.flush()
    except Unreadable as unreadable:
        for problem in unreadable.problems:
            complain(str(problem))
        return CANNOT_BE_USED
    except OutputError as error:
        complain(f"reglet: {error}")
        return CANNOT_BE_USED
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return CANNOT_BE_USED
    except KeyboardInterrupt:
        complain("reglet: interrupted; no file was changed")
        return INTERRUPTED
    except OSError as error:
        complain(f"reglet: {error.filename or 'the system'}: {error.strerror or error}")
        return CANNOT_BE_USED
    except Exception as error:
        if "REGLET_TRACEBACK" in os.environ:
            raise
        complain(f"reglet: a defect in Reglet itself: {type(error).__name__}: {error}")
        return CANNOT_BE_USED
    return code
