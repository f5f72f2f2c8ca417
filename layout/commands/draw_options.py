"""What the command line of `reglet draw` may say, and what of it goes together."""

import argparse
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Final

from layout.commands.seconds import add_seconds

if TYPE_CHECKING:
    from layout.pages.column.column import ShowItem

USUAL_WIDTH: Final = 100.0
USUAL_STYLE: Final = "paperback"
USUAL_DPI: Final = 300
USUAL_LANGUAGE: Final = "en"
LEAST_WIDTH: Final = 10.0
MOST_WIDTH: Final = 1000.0
MOST_STEPS: Final = 9999
LONGEST_HEADING: Final = 200
MOST_COUNT: Final = 999_999

FORMATS: Final = (".svg", ".pdf", ".png", ".tiff", ".tif")
IN_PIXELS: Final = (".png", ".tiff", ".tif")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Adds the command's own arguments."""
    parser.add_argument("puzzle", type=Path, metavar="PUZZLE", help="a manifest")
    parser.add_argument(
        "-o", "--output", type=_output, required=True, metavar="FILE", help=" ".join(FORMATS)
    )
    shown = parser.add_mutually_exclusive_group()
    shown.add_argument("--answer", action="store_true", help="with the proved answer filled in")
    shown.add_argument(
        "--step", type=_step, metavar="N", help="a step of its walk, as `reglet walk` counts them"
    )
    shown.add_argument("--helpers", choices=("edges",), help="all digits small in every open cell")
    shown.add_argument(
        "--conflict", action="store_true", help="the givens and marks that leave no answer"
    )
    shown.add_argument(
        "--differs", action="store_true", help="two of many answers, small; with --draft"
    )
    parser.add_argument(
        "--draft", action="store_true", help="also where there is not exactly one answer"
    )
    parser.add_argument(
        "--style", default=USUAL_STYLE, metavar="NAME", help="a style's name, or its file"
    )
    parser.add_argument(
        "--dpi", type=_dpi, metavar="N", help=f"dots per inch of png and tiff ({USUAL_DPI})"
    )
    parser.add_argument(
        "--one-bit", action="store_true", help="png and tiff in black and white, tints as dots"
    )
    add_seconds(parser, "the proof, and the walk where it is asked for")
    _add_width(parser)
    _add_column(parser)


def _add_width(parser: argparse.ArgumentParser) -> None:
    group = parser.add_argument_group("width")
    group.add_argument("--width", type=_width, metavar="LENGTH", help=f"such as {USUAL_WIDTH:g}mm")
    group.add_argument(
        "--columns", type=_count, metavar="N", help="so many of a paper's columns, with --measure"
    )
    group.add_argument(
        "--measure", metavar="NAME", help="us-standard, or column and gutter: 52mm,4mm"
    )


def _add_column(parser: argparse.ArgumentParser) -> None:
    group = parser.add_argument_group("a newspaper's column")
    group.add_argument(
        "--show", type=_shown, metavar="ITEMS", help="such as heading,date,number,grade,grid,rules"
    )
    group.add_argument("--heading", type=_heading, default="", metavar="TEXT", help="its title")
    group.add_argument("--date", type=_date, metavar="DATE", help="such as 2027-01-04")
    group.add_argument("--number", type=_count, metavar="N", help="the puzzle's number")
    group.add_argument("--depth", type=_width, metavar="LENGTH", help="hold the column to it")
    group.add_argument("--language", default=USUAL_LANGUAGE, metavar="CODE", help="such as de")


def _output(text: str) -> Path:
    path = Path(text)
    if path.suffix.lower() not in FORMATS:
        raise argparse.ArgumentTypeError(f"found {text!r}, expected a file in {' '.join(FORMATS)}")
    return path


def _width(text: str) -> float:
    from layout.lengths import millimetres

    width = millimetres(text.strip())
    if width is None or not LEAST_WIDTH <= width <= MOST_WIDTH:
        bounds = f"{LEAST_WIDTH:g}mm to {MOST_WIDTH:g}mm"
        raise argparse.ArgumentTypeError(f"found {text!r}, expected a length from {bounds}")
    return width


def _step(text: str) -> int:
    if not text.isdecimal() or not 1 <= int(text[:6]) <= MOST_STEPS:
        raise argparse.ArgumentTypeError(f"found {text!r}, expected the number of a step, from 1")
    return int(text)


def _dpi(text: str) -> int:
    from layout.writers.raster import LEAST_DPI, MOST_DPI

    return _whole(text, LEAST_DPI, MOST_DPI)


def _heading(text: str) -> str:
    if len(text) > LONGEST_HEADING:
        expected = f"at most {LONGEST_HEADING} characters"
        raise argparse.ArgumentTypeError(f"found {len(text)} characters, expected {expected}")
    return text.strip()


def _count(text: str) -> int:
    return _whole(text, 1, MOST_COUNT)


def _whole(text: str, least: int, most: int) -> int:
    if not text.isdecimal() or not least <= int(text) <= most:
        expected = f"a whole number from {least} to {most}"
        raise argparse.ArgumentTypeError(f"found {text!r}, expected {expected}")
    return int(text)


def _date(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        expected = "a day such as 2027-01-04"
        raise argparse.ArgumentTypeError(f"found {text!r}, expected {expected}") from None


def _shown(text: str) -> "tuple[ShowItem, ...]":
    from layout.pages.column.column import SHOW
    from verify.reading.problems import nearest

    known: dict[str, ShowItem] = {item: item for item in SHOW if item != "previous-answer"}
    items = [item.strip() for item in text.split(",")]
    for item in items:
        if item not in known:
            hint = nearest(item, known)
            raise argparse.ArgumentTypeError(f"a column can't show {item!r}; {hint}")
    if "grid" not in items or len(set(items)) < len(items):
        raise argparse.ArgumentTypeError("expected each item once, and the grid among them")
    return tuple(known[item] for item in items)


class CannotBeUsed(Exception):  # noqa: N818 - what befell the command line
    """Options that don't go together."""


def check(options: argparse.Namespace) -> None:
    """Raises CannotBeUsed for options that don't go together."""
    from layout.language.words import languages
    from verify.reading.problems import nearest

    if options.output.suffix.lower() not in IN_PIXELS:
        for option, given in (("--dpi", options.dpi is not None), ("--one-bit", options.one_bit)):
            if given:
                raise CannotBeUsed(f"{option} is for png and tiff, not for {options.output.name}")
    if options.language not in languages():
        hint = nearest(options.language, languages())
        raise CannotBeUsed(f'unknown language "{options.language}"; {hint}')
    needed = {"heading": options.heading, "date": options.date, "number": options.number}
    for item, told in needed.items():
        if item in (options.show or ()) and not told:
            raise CannotBeUsed(f"the column shows the {item}; give it with --{item}")
    if options.differs and not options.draft:
        raise CannotBeUsed("--differs shows a puzzle that is not finished; say so with --draft")
    shown = options.answer or options.draft or options.step or options.conflict
    if options.show and shown:
        raise CannotBeUsed("a column shows a proved puzzle without its answer")
    if options.show and options.helpers:
        raise CannotBeUsed("--helpers is for a grid alone, not for a column")
    if options.depth is not None and not options.show:
        raise CannotBeUsed("--depth is for a column; say what it shows with --show")


def width_of(options: argparse.Namespace) -> float:
    """How wide the picture is. Raises NoWidth where the options say too little or too much."""
    from layout.jobs.column.measure import measure_of, picture_width

    if options.width is None and options.columns is None and options.measure is None:
        return USUAL_WIDTH
    measure = None if options.measure is None else measure_of(options.measure)
    return picture_width(options.columns, measure, options.width)
