"""`reglet impose FILE.pdf -o OUT.pdf`: its pages on sheets for a folded booklet."""

import argparse
from collections import Counter
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Final

from layout.commands.language import add_language
from layout.console import answer_json, complain, counted, tell

if TYPE_CHECKING:
    from layout.press.imposition import Sheet

MOST_CALIPER: Final = 1.0
MOST_SIGNATURE: Final = 128
"""Bounds for the thickness of paper in millimetres, and for the pages of a gathering."""

STAPLED: Final = 64
"""The most pages that are folded into one another in practice (common practice, no source)."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Adds the command's own arguments."""
    parser.add_argument("file", type=Path, metavar="FILE.pdf", help="a finished file")
    parser.add_argument("-o", "--output", type=Path, required=True, metavar="OUT.pdf")
    parser.add_argument(
        "--signature",
        type=_signature,
        metavar="N",
        help="pages of a gathering, a multiple of 4 (default: all pages in one)",
    )
    parser.add_argument(
        "--caliper",
        type=_caliper,
        default=0.0,
        metavar="LENGTH",
        help="how thick a leaf is, such as 0.1mm: pages of inner sheets move to the fold by it",
    )
    add_language(parser)


def _signature(text: str) -> int:
    if not text.isascii() or not text.isdecimal() or len(text) > 3 or int(text) % 4:
        raise argparse.ArgumentTypeError(f"found {text!r}, expected a multiple of 4, such as 16")
    if not 4 <= int(text) <= MOST_SIGNATURE:
        raise argparse.ArgumentTypeError(f"found {text!r}, expected 4 to {MOST_SIGNATURE}")
    return int(text)


def _caliper(text: str) -> float:
    from layout.lengths import millimetres

    length = millimetres(text.strip())
    if length is None or not 0 <= length <= MOST_CALIPER:
        raise argparse.ArgumentTypeError(f"found {text!r}, expected 0mm to 1mm, such as 0.1mm")
    return length


def run(options: argparse.Namespace) -> int:
    """Writes the sheets; 2 where the file's pages can't be placed on any."""
    from layout.language.words import words_for
    from layout.output.files import refuse_inputs
    from layout.output.write import write_whole
    from layout.press.booklet import Folding, impose
    from layout.press.source_pages import CannotImpose, source_pages

    refuse_inputs(options.output, [options.file])
    folding, words = Folding(options.signature, options.caliper), words_for(options.language)
    try:
        with source_pages(options.file) as source:
            pages = len(source.pdf.pages)
            imposed = impose(source, folding, source.title or options.file.stem, words)
    except CannotImpose as fault:
        complain(f"reglet impose: {options.file}: {fault}")
        return 2
    write_whole(options.output, imposed.data)
    _report(options, pages, imposed.sheets)
    return 0


def _report(options: argparse.Namespace, pages: int, sheets: Sequence["Sheet"]) -> None:
    """Says how many sheets there are, and how they are printed."""
    gatherings, blanks = sheets[-1].gathering + 1, 4 * len(sheets) - pages
    if options.json:
        facts = {"sheets": len(sheets), "gatherings": gatherings, "blanks": blanks}
        answer_json({"written": str(options.output), "pages": pages, **facts})
    told = f"{counted(pages, 'page')} on {counted(len(sheets), 'sheet')}"
    told += f" in {gatherings} gatherings" if gatherings > 1 else ""
    told += f", {counted(blanks, 'blank page')} at the end" if blanks else ""
    tell(f"{options.output}: {told}; print both sides, turned on the short edge", options.quiet)
    thickest = 4 * max(Counter(sheet.gathering for sheet in sheets).values())
    if thickest > STAPLED:
        message = f"{thickest} pages in one fold are hard to staple; --signature makes gatherings"
        tell(message, options.quiet)
