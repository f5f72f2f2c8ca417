"""`reglet preflight FILE.pdf`: what a press, a binder or a reader would refuse."""

import argparse
from pathlib import Path

from layout.console import answer, answer_json, counted, tell


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Adds the command's own arguments."""
    parser.add_argument("file", type=Path, metavar="FILE.pdf", help="a finished file")
    parser.add_argument(
        "--large-print", action="store_true", help="letters must have 18 points or more"
    )


def run(options: argparse.Namespace) -> int:
    """Prints a report; 1 where something was found. Raises Unreadable for what is no PDF."""
    from layout.preflight.preflight import LEAST_LARGE_TYPE, LEAST_TYPE, Terms, preflight
    from layout.preflight.reading.opening import Unusable, read_finished
    from layout.preflight.report import document, finding_lines, table
    from verify import __version__
    from verify.manifest.source import shown_path
    from verify.reading.node import Place
    from verify.reading.problems import Problem, Unreadable

    name = shown_path(options.file)
    try:
        file = read_finished(options.file, name)
    except Unusable as unusable:
        raise Unreadable([Problem(Place(name, 1, 1), str(unusable))]) from None
    terms = Terms(LEAST_LARGE_TYPE if options.large_print else LEAST_TYPE)
    findings = list(preflight(file, terms))
    if options.json:
        answer_json({"reglet": __version__, **document(file, findings)})
    else:
        answer("\n".join([*finding_lines(file, findings), *table(file, findings)]))
    pages = counted(len(file.leaves), "page")
    tell(f"{name}: {pages}, {counted(len(findings), 'finding')}", options.quiet)
    return 1 if findings else 0
