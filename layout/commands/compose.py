"""`reglet compose`: sets puzzles, from a sketch, to a plan, or classic ones from nothing."""

import argparse
from pathlib import Path
from typing import TYPE_CHECKING, Final

from layout.commands.seconds import add_seconds
from layout.console import complain

if TYPE_CHECKING:
    from layout.commands.composing import Piece
    from verify.compose.sketch import Sketch

MOST_COUNT: Final = 10_000
MOST_SEED: Final = 999_999_999
USUAL_SEED: Final = 1
GRADES: Final = ("calm", "steady", "stiff", "steep", "severe")
SYMMETRIES: Final = ("half-turn", "mirror", "none")
SUFFIXES: Final = (".yaml", ".yml")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Adds the command's own arguments."""
    parser.add_argument(
        "sketch",
        nargs="?",
        type=Path,
        metavar="SKETCH",
        help="a manifest with open ends: ? where a given may stand, and want:",
    )
    parser.add_argument(
        "-o",
        "--output",
        type=Path,
        required=True,
        metavar="FILE",
        help="the manifest to write; with --count, --classic or --series a folder",
    )
    parser.add_argument(
        "--seed",
        type=_seed,
        metavar="N",
        help=f"the same seed gives the same puzzle (default: {USUAL_SEED})",
    )
    parser.add_argument(
        "--count", type=_count, metavar="N", help="so many puzzles, none another in disguise"
    )
    classic = parser.add_argument_group("without a sketch")
    classic.add_argument("--classic", action="store_true", help="rows, columns and boxes alone")
    classic.add_argument("--size", type=_size, metavar="N", help="4 to 16 (default: 9)")
    classic.add_argument("--grade", choices=GRADES, help="the band (default: any)")
    classic.add_argument(
        "--symmetry", choices=SYMMETRIES, help="how givens lie (default: half-turn)"
    )
    parser.add_argument(
        "--series", type=Path, metavar="PLAN", help="a plan: so many of each kind, size and grade"
    )
    add_seconds(parser, "each puzzle; its proof and its walk have as many again")


def _seed(text: str) -> int:
    return _whole(text, 0, MOST_SEED)


def _count(text: str) -> int:
    return _whole(text, 1, MOST_COUNT)


def _size(text: str) -> int:
    from verify.compose.classic import SIZES

    if not text.isdecimal() or int(text[:6]) not in SIZES:
        expected = f"one of {', '.join(map(str, SIZES))}, which have usual boxes"
        raise argparse.ArgumentTypeError(f"found {text!r}, expected {expected}")
    return int(text)


def _whole(text: str, least: int, most: int) -> int:
    if not text.isdecimal() or not least <= int(text[:12]) <= most:
        expected = f"a whole number from {least} to {most}"
        raise argparse.ArgumentTypeError(f"found {text!r}, expected {expected}")
    return int(text)


def run(options: argparse.Namespace) -> int:
    """Writes what was found; 1 where that is not what was wanted, or nothing.

    Raises Unreadable where the sketch can't be read, OutputError where nothing can be written,
    and KeyboardInterrupt after the best so far was written.
    """
    from layout.commands.composing import compose_pieces, compose_single
    from layout.output.files import refuse_inputs
    from verify.compose.composed import Commission
    from verify.compose.sketch import read_sketch

    if (fault := _misused(options)) is not None:
        complain(f"reglet compose: {fault}")
        return 2
    if options.series is not None:
        return _run_series(options)
    if options.classic:
        return compose_pieces(_classic(options), options.output, options)
    sketch = read_sketch(options.sketch)
    if options.count is not None:
        return compose_pieces(_numbered(sketch, options), options.output, options)
    refuse_inputs(options.output, [options.sketch])
    commission = Commission(sketch, f"{_seed_of(options)}/1", options.seconds)
    return compose_single(options.output, commission, options)


def _seed_of(options: argparse.Namespace) -> int:
    seed: int = USUAL_SEED if options.seed is None else options.seed
    return seed


def _run_series(options: argparse.Namespace) -> int:
    from layout.commands.compose_ledger import ledger
    from layout.commands.composing import Piece, compose_pieces
    from layout.output.files import refuse_inputs
    from verify.compose.series.plan import read_plan
    from verify.compose.series.planned import planned

    plan = read_plan(options.series)
    seed = plan.seed if options.seed is None else options.seed
    every = planned(plan, seed, options.seconds)
    inputs = [options.series, *(each.sketch.path for each in plan.sketches if each.sketch.path)]
    pieces = [Piece(options.output / each.file, each.composable, each.is_banked) for each in every]
    for piece in pieces:
        refuse_inputs(piece.path, inputs)
    return compose_pieces(pieces, options.output, options, ledger(options.output, every))


def _misused(options: argparse.Namespace) -> str | None:
    """What is wrong with the options together; None where they fit."""
    asked = (options.sketch is not None, options.classic, options.series is not None)
    if sum(asked) != 1:
        return "expected one of a sketch, --classic, and --series"
    if options.series is not None and options.count is not None:
        return "argument --count: the plan of a series says how many"
    if not options.classic:
        for name in ("size", "grade", "symmetry"):
            if getattr(options, name) is not None:
                return f"argument --{name}: goes with --classic; a sketch says it in want:"
        single = options.series is None and options.count is None
        if single and options.output.suffix not in SUFFIXES:
            return f"argument -o: found {str(options.output)!r}, expected a file ending in .yaml"
    return None


def _numbered(sketch: "Sketch", options: argparse.Namespace) -> list["Piece"]:
    """Each with its number behind the name, the title and the id."""
    from layout.commands.composing import Piece, numbers
    from layout.output.files import refuse_inputs
    from verify.compose.composed import Commission

    pieces: list[Piece] = []
    title, own_id = sketch.puzzle.credits.title, sketch.root.get("id") and sketch.puzzle.id
    for number in numbers(options.count):
        commission = Commission(
            sketch,
            f"{_seed_of(options)}/{int(number)}",
            options.seconds,
            title=f"{title} {int(number)}" if title else "",
            id=f"{own_id}-{number}" if own_id else "",
        )
        path = options.output / f"{options.sketch.stem}-{number}.yaml"
        refuse_inputs(path, [options.sketch])
        pieces.append(Piece(path, commission))
    return pieces


def _classic(options: argparse.Namespace) -> list["Piece"]:
    from layout.commands.composing import Piece, numbers
    from verify.compose.classic import classic_name, classic_sketch, classic_title
    from verify.compose.composed import Commission
    from verify.compose.sketch import sketch_from_text

    size, grade = options.size or 9, options.grade
    name, title = classic_name(size, grade), classic_title(size, grade)
    text = classic_sketch(size, grade, options.symmetry or SYMMETRIES[0])
    sketch = sketch_from_text(text, f"{name}.yaml")
    return [
        Piece(
            options.output / f"{name}-{number}.yaml",
            Commission(
                sketch,
                f"{_seed_of(options)}/{int(number)}",
                options.seconds,
                title=f"{title} {int(number)}",
            ),
        )
        for number in numbers(options.count or 1)
    ]
