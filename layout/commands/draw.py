"""`reglet draw PUZZLE.yaml -o FILE`: one image of one puzzle."""

import argparse
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Final

from layout.console import answer_json, complain, tell

if TYPE_CHECKING:
    from layout.picture.items import Picture
    from verify.pencil import Grid
    from verify.puzzle import Puzzle
    from verify.walk.replay import Scene

USUAL_WIDTH: Final = "100mm"
USUAL_STYLE: Final = "paperback"
USUAL_DPI: Final = 300
LEAST_WIDTH: Final = 10.0
MOST_WIDTH: Final = 1000.0

MOST_STEPS: Final = 9999

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
    parser.add_argument(
        "--draft", action="store_true", help="also where there is not exactly one answer"
    )
    parser.add_argument(
        "--width", type=_width, default=USUAL_WIDTH, metavar="LENGTH", help=f"such as {USUAL_WIDTH}"
    )
    parser.add_argument(
        "--style", default=USUAL_STYLE, metavar="NAME", help="a style's name, or its file"
    )
    parser.add_argument(
        "--dpi", type=_dpi, metavar="N", help=f"dots per inch of png and tiff ({USUAL_DPI})"
    )


def _output(text: str) -> Path:
    path = Path(text)
    if path.suffix.lower() not in FORMATS:
        raise argparse.ArgumentTypeError(f"found {text!r}, expected a file in {' '.join(FORMATS)}")
    return path


def _width(text: str) -> float:
    from layout.record import millimetres

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
    from layout.picture.raster import LEAST_DPI, MOST_DPI

    if not text.isdecimal() or not LEAST_DPI <= int(text) <= MOST_DPI:
        expected = f"a whole number from {LEAST_DPI} to {MOST_DPI}"
        raise argparse.ArgumentTypeError(f"found {text!r}, expected {expected}")
    return int(text)


def run(options: argparse.Namespace) -> int:
    """Writes the image; 1 where the puzzle has not exactly one answer and no draft is wanted.

    Raises Unreadable where the manifest or the style can't be read.
    """
    from layout.commands.proved import proved
    from layout.output import write_whole
    from layout.picture.cannot import CannotDraw
    from verify.manifest.read import read_puzzle

    if options.dpi is not None and options.output.suffix.lower() not in IN_PIXELS:
        complain(f"reglet draw: --dpi is for png and tiff, not for {options.output.name}")
        return 2
    puzzle = read_puzzle(options.puzzle)
    answer = proved(puzzle)
    if answer is None and (options.answer or not options.draft):
        return 1
    scene = _scene(puzzle, options.step) if options.step else None
    if isinstance(scene, str):
        complain(f"reglet draw: {options.puzzle}: {scene}")
        return 2
    try:
        data = _drawn(puzzle, answer if options.answer else scene, options)
    except CannotDraw as error:
        complain(f"reglet draw: {options.puzzle}: {error}")
        return 2
    write_whole(options.output, data)
    if options.json:
        answer_json({"written": str(options.output), "width_mm": options.width})
    tell(f"{options.output}: written, {options.width:g} mm wide", options.quiet)
    return 0


def _scene(puzzle: "Puzzle", number: int) -> "Scene | str":
    """What a step of the walk shows; where there is no such step, how many there are."""
    from layout.telling.telling import tell_walk
    from layout.type.words import read_words
    from verify.walk.replay import replay
    from verify.walk.walk import walk

    # Steps are told together in the same way in every language.
    paragraphs = tell_walk(puzzle, walk(puzzle), read_words("en")).paragraphs
    if number > len(paragraphs):
        return f"found step {number}, expected one of the {len(paragraphs)} steps of its walk"
    *_, scene = replay(puzzle, [each.steps for each in paragraphs[:number]])
    return scene


def _drawn(puzzle: "Puzzle", shown: "Grid | Scene | None", options: argparse.Namespace) -> bytes:
    """The file's bytes: the clean puzzle, its answer or a step."""
    from layout.picture.board import draw_board
    from layout.picture.step import draw_step
    from layout.style.sheet import named_style
    from verify.walk.replay import Scene

    style = named_style(options.style)
    if isinstance(shown, Scene):
        picture = draw_step(puzzle, style.board, options.width, shown)
    else:
        picture = draw_board(puzzle, style.board, options.width, answer=shown)
    return _writers(options.dpi or USUAL_DPI)[options.output.suffix.lower()](picture)


def _writers(dpi: int) -> Mapping[str, "Callable[[Picture], bytes]"]:
    """What makes the bytes of each format."""
    from layout.picture.pdf import pdf_of_picture
    from layout.picture.raster import png_of_picture, tiff_of_picture
    from layout.picture.svg import svg_of_picture

    return {
        ".svg": svg_of_picture,
        ".pdf": pdf_of_picture,
        ".png": lambda picture: png_of_picture(picture, dpi),
        ".tiff": lambda picture: tiff_of_picture(picture, dpi),
        ".tif": lambda picture: tiff_of_picture(picture, dpi),
    }
