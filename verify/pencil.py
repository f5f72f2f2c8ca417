"""Pencil marks: the digits still possible in a cell, as the bits of a whole number.

Bit d stands for digit d. Bit 0 alone is set where there is no cell: see `ABSENT`.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final, TypeAlias

from verify.board import Cell

Mask: TypeAlias = int
"""A set of digits: bit d is set where digit d is in it."""

ABSENT: Final[Mask] = 1
"""The mark of a place of the board that is no cell: settled, and no digit."""

Pencil: TypeAlias = Sequence[Mask]
"""The candidates of every cell, by cell; `ABSENT` where there is none."""

Grid: TypeAlias = Sequence[int]
"""A digit for every cell, by cell; 0 where a cell is open or absent."""


@dataclass(frozen=True, slots=True)
class Strike:
    """Candidates that can go, and the cells whose marks are the reason.

    `removes` pairs each cell with the digits that leave it.
    """

    removes: tuple[tuple[Cell, Mask], ...]
    because: tuple[Cell, ...]


def every_digit(digits: int) -> Mask:
    """All digits from 1 to `digits`."""
    return (2 << digits) - 2


def bit(digit: int) -> Mask:
    """The set that holds one digit."""
    return 1 << digit


def digits_of(mask: Mask) -> Iterator[int]:
    """The digits of a set, rising."""
    while mask:
        low = mask & -mask
        yield low.bit_length() - 1
        mask ^= low


def lowest(mask: Mask) -> int:
    """The smallest digit of a set that is not empty."""
    return (mask & -mask).bit_length() - 1


def highest(mask: Mask) -> int:
    """The largest digit of a set that is not empty."""
    return mask.bit_length() - 1


def at_most(digit: int) -> Mask:
    """All digits from 1 up to `digit`; nothing where it is below 1."""
    return (2 << digit) - 2 if digit > 0 else 0


def is_single(mask: Mask) -> bool:
    """Whether exactly one digit is left."""
    return mask != 0 and mask & (mask - 1) == 0
