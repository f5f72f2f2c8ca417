"""`reglet draw PUZZLE.yaml -o FILE`: one image of one puzzle.

With `--show` it is a newspaper's column, with words around the grid.
"""

import argparse
from collections.abc import Callable, Mapping
from math import inf
from pathlib import Path
from typing import TYPE_CHECKING

from layout.commands.draw_options import (
    USUAL_DPI,
    CannotBeUsed,
    add_arguments,
    check,
    width_of,
)
from layout.commands.seconds import budget_of
from layout.console import answer_json, complain, tell

__all__ = ["add_arguments", "run"]

if TYPE_CHECKING:
    from layout.picture.items import Picture
    from layout.style.style import Style
    from verify.budget import Deadline
    from verify.pencil import Grid
    from verify.proof.verdict import Verdict
    from verify.puzzle import Puzzle
    from verify.walk.report.replay import Scene


def run(options: argparse.Namespace) -> int:
    """Writes the image; 1 where the puzzle has not exactly one answer and no draft is wanted,
    or where it has not the verdict that is to be shown.

    Raises Unreadable where the manifest or the style can't be read.
    """
    from layout.commands.misfits import complain_of
    from layout.commands.proved import answer_of
    from layout.jobs.column.measure import NoWidth
    from layout.output.files import refuse_inputs
    from layout.output.write import write_whole
    from layout.pages.common.misfit import Misfits
    from layout.picture.cannot import CannotDraw
    from verify.manifest.read import read_puzzle
    from verify.proof.verdict import prove

    try:
        check(options)
        width = width_of(options)
    except CannotBeUsed as error:
        complain(f"reglet draw: {error}")
        return 2
    except NoWidth as fault:
        complain(f"reglet draw: argument --{fault.key}: {fault}")
        return 2
    refuse_inputs(options.output, [options.puzzle, Path(options.style)])
    deadline = budget_of(options).deadline()
    puzzle = read_puzzle(options.puzzle)
    verdict = prove(puzzle, deadline=deadline)
    tells_why = options.conflict or options.differs
    answer = None if tells_why else answer_of(puzzle, verdict)
    if answer is None and not tells_why and (options.answer or not options.draft):
        return 1
    scene = _scene(puzzle, verdict, options, deadline)
    if isinstance(scene, str):
        if options.step:
            complain(f"reglet draw: argument --step: {scene}")
            return 2
        complain(f"{puzzle.file}: {scene}")
        return 1
    try:
        picture = _picture(puzzle, answer, scene, width, deadline, options)
        data = _writers(options)[options.output.suffix.lower()](picture)
    except Misfits as misfits:
        complain_of(misfits, "draw", "--width" if options.columns is None else "--columns")
        return 2
    except CannotDraw as error:
        complain(f"reglet draw: {options.puzzle}: {error}")
        return 2
    write_whole(options.output, data)
    if options.json:
        answer_json({"written": str(options.output), "width_mm": round(width, 4)})
    tell(f"{options.output}: written, {round(width, 2):g} mm wide", options.quiet)
    return 0


def _scene(
    puzzle: "Puzzle", verdict: "Verdict", options: argparse.Namespace, deadline: "Deadline"
) -> "Scene | str | None":
    """What is shown of a step or a verdict, or in a sentence why that can't be shown.

    None where neither is asked for.
    """
    from layout.commands.draw_scenes import conflict_scene, differs_scene, step_scene

    if options.step:
        return step_scene(puzzle, options.step, deadline)
    if options.conflict:
        return conflict_scene(puzzle, verdict, deadline)
    if options.differs:
        return differs_scene(puzzle, verdict, deadline)
    return None


def _picture(
    puzzle: "Puzzle",
    answer: "Grid | None",
    scene: "Scene | None",
    width: float,
    deadline: "Deadline",
    options: argparse.Namespace,
) -> "Picture":
    """The clean puzzle, its answer, a step, or the column around it."""
    from layout.board.board import draw_board
    from layout.board.step import draw_step
    from layout.style.style import named_style

    style = named_style(options.style)
    if scene is not None:
        return draw_step(puzzle, style.board, width, scene, every_mark=options.differs)
    if options.show and answer is not None:
        return _column(puzzle, answer, style, width, deadline, options)
    shown = answer if options.answer else None
    return draw_board(puzzle, style.board, width, answer=shown, helpers=bool(options.helpers))


def _column(
    puzzle: "Puzzle",
    answer: "Grid",
    style: "Style",
    width: float,
    deadline: "Deadline",
    options: argparse.Namespace,
) -> "Picture":
    """One day's column."""
    from layout.language.words import read_words
    from layout.pages.column.column import ColumnDay, column_picture
    from verify.walk.report.grade import Band, grade
    from verify.walk.walk import walk

    band = (
        grade(walk(puzzle, reasons=False, deadline=deadline)).band
        if "grade" in options.show
        else Band.UNGRADED
    )
    day = ColumnDay(
        options.heading,
        options.date,
        options.number,
        puzzle,
        band,
        tuple(answer),
    )
    depth = inf if options.depth is None else options.depth
    words = read_words(options.language)
    return column_picture(day, style, words, width, depth, options.show)


def _writers(options: argparse.Namespace) -> Mapping[str, "Callable[[Picture], bytes]"]:
    """What makes the bytes of each format."""
    from layout.writers.pdf import pdf_of_picture
    from layout.writers.raster import png_of_picture, tiff_of_picture
    from layout.writers.svg import svg_of_picture

    dpi, one_bit = options.dpi or USUAL_DPI, options.one_bit
    return {
        ".svg": svg_of_picture,
        ".pdf": lambda picture: pdf_of_picture(picture, options.language),
        ".png": lambda picture: png_of_picture(picture, dpi, one_bit=one_bit),
        ".tiff": lambda picture: tiff_of_picture(picture, dpi, one_bit=one_bit),
        ".tif": lambda picture: tiff_of_picture(picture, dpi, one_bit=one_bit),
    }
