"""Sketches of classic puzzles: for those who have none of their own."""

from typing import Final

from verify.board import DEFAULT_BOXES
from verify.compose.want import GradeName, SymmetryName

SIZES: Final = tuple(size for size in sorted(DEFAULT_BOXES) if 4 <= size <= 16)
"""Sizes of classic puzzles that have usual boxes, from the first that holds a puzzle."""


def classic_sketch(size: int, grade: GradeName | None, symmetry: SymmetryName) -> str:
    """The text of a sketch without marks or givens, of one of `SIZES`."""
    band = "" if grade is None else f"grade: {grade}, "
    want = f"want: {{{band}symmetry: {symmetry}}}"
    return f"title: {classic_title(size, grade)}\nkind: sudoku\nsize: {size}\n{want}\n"


def classic_title(size: int, grade: GradeName | None) -> str:
    """What stands above such a puzzle, but for its number."""
    return f"{size} by {size}," if grade is None else grade.capitalize()


def classic_name(size: int, grade: GradeName | None) -> str:
    """What its file is called, but for its number and suffix."""
    return f"classic-{size}" + ("" if grade is None else f"-{grade}")
