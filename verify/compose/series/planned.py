"""All puzzles of a plan: what is asked for, and the file that each goes to."""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import PurePosixPath

from verify.compose.composed import Commission
from verify.compose.series.plan import BANK_SUFFIX, PlacedSketch, ReadPlan
from verify.compose.series.series import series_pieces
from verify.compose.several import Composable
from verify.compose.want import GradeName, SymmetryName


@dataclass(frozen=True, slots=True)
class Planned:
    """One puzzle of a plan.

    `file` is its manifest, or the bank that it is a line of, from the folder that is written to.
    `kind`, `size`, `grade` and `symmetry` are what is asked for.
    """

    file: PurePosixPath
    composable: Composable
    kind: str
    size: int
    grade: GradeName | None
    symmetry: SymmetryName

    @property
    def is_banked(self) -> bool:
        """Whether its file is a bank."""
        return self.file.suffix == BANK_SUFFIX


def planned(plan: ReadPlan, seed: int, seconds: float) -> list[Planned]:
    """The puzzles of the plan's lines, then one of each sketch; each in so many seconds."""
    return [*_of_lines(plan, seed, seconds), *_of_sketches(plan.sketches, seed, seconds)]


def _of_lines(plan: ReadPlan, seed: int, seconds: float) -> Iterator[Planned]:
    into = iter(
        name
        for placed, name in zip(plan.lines, plan.into, strict=True)
        for _ in range(placed.line.count)
    )
    for piece, name in zip(series_pieces(seed, plan.lines, seconds), into, strict=True):
        line = piece.line
        is_bank = name.endswith(BANK_SUFFIX)
        file = PurePosixPath(name) if is_bank else PurePosixPath(name, f"{piece.name}.yaml")
        yield Planned(file, piece, line.kind, line.size, line.grade, line.symmetry)


def _of_sketches(
    sketches: tuple[PlacedSketch, ...], seed: int, seconds: float
) -> Iterator[Planned]:
    """Each from a seed of its own name, so that a sketch more or less moves no other puzzle."""
    for placed in sketches:
        sketch, want = placed.sketch, placed.sketch.want
        path = PurePosixPath(placed.into, "" if sketch.path is None else sketch.path.name)
        commission = Commission(sketch, f"{seed}/{path.with_suffix('')}", seconds)
        rows = sketch.puzzle.board.rows
        yield Planned(path, commission, "sketch", rows, want.grade, want.symmetry)
