"""The SAT solver: one prepared base for each set of houses, puzzles as guarded clauses on it.

The base says that each cell holds one digit and that each house holds every digit, with the
solver's native at-most-one constraints. It is built once and kept, with what it has learned.
"""

from collections.abc import Iterable, Sequence
from functools import lru_cache
from typing import Any, Final, TypeAlias

from verify.board import Cell
from verify.pencil import Grid, Mask, digits_of
from verify.proof.formula import GUARDS, Formula, Literal

Houses: TypeAlias = tuple[tuple[Cell, ...], ...]

SOLVER: Final = "gluecard4"
"""A solver with native cardinality constraints and conflict budgets."""

SLICE: Final = 2000
"""Conflicts between two looks at the clock."""
