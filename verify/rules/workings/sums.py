"""Sums of digits: the workings that every rule with a total shares.

A set of sums is kept as the bits of one whole number: bit s is set where s can be reached.
"""

from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache, reduce
from itertools import combinations
from math import comb
from typing import Final, TypeAlias

from verify.board import Cell
from verify.pencil import Mask, Pencil, bit

Sums: TypeAlias = int
Terms: TypeAlias = Sequence[tuple[Cell, int]]
"""Cells, each with the weight that its digit counts with."""

MOST_SETS: Final = 200_000
"""Digit sets looked through at most for one cage; a larger cage is summed cell by cell."""


def sums_of(terms: Terms, pencil: Pencil) -> Sums:
    """Every sum that the marks allow, without regard to cells that must differ."""
    return reduce(lambda sums, term: _after(sums, term, pencil), terms, 1)


def sum_survivors(terms: Terms, pencil: Pencil, allowed: Sums) -> Iterator[tuple[Cell, Mask]]:
    """For each cell, the candidates that stand in some choice whose sum is allowed."""
    back = [allowed]
    for term in reversed(terms[1:]):
        back.append(_before(back[-1], term, pencil))
    sums: Sums = 1
    for term, rest in zip(terms, reversed(back), strict=True):
        cell, weight = term
        kept, left = 0, pencil[cell]
        while left:
            low = left & -left
            if sums << weight * (low.bit_length() - 1) & rest:
                kept |= low
            left ^= low
        yield cell, kept
        sums = _after(sums, term, pencil)


# The loops go through the bits of a mark by hand: they run more often than any others in a walk.


def _after(sums: Sums, term: tuple[Cell, int], pencil: Pencil) -> Sums:
    cell, weight = term
    found, left = 0, pencil[cell]
    while left:
        low = left & -left
        found |= sums << weight * (low.bit_length() - 1)
        left ^= low
    return found


def _before(sums: Sums, term: tuple[Cell, int], pencil: Pencil) -> Sums:
    cell, weight = term
    found, left = 0, pencil[cell]
    while left:
        low = left & -left
        found |= sums >> weight * (low.bit_length() - 1)
        left ^= low
    return found


def least_sum(count: int) -> int:
    """The sum of the `count` smallest different digits: 1 + 2 + ... + count."""
    return count * (count + 1) // 2


def largest_sum(count: int, digits: int) -> int:
    """The sum of the `count` largest different digits up to `digits`."""
    return least_sum(digits) - least_sum(digits - count)


@lru_cache(maxsize=4096)
def digit_sets(count: int, total: int, digits: int) -> tuple[Mask, ...] | None:
    """Every set of that many different digits with that sum, rising by its digits.

    None where there are too many sets to look through.
    """
    if comb(digits, count) > MOST_SETS:
        return None
    every = combinations(range(1, digits + 1), count)
    return tuple(sum(map(bit, chosen)) for chosen in every if sum(chosen) == total)


@lru_cache(maxsize=512)
def sums_of_sets(count: int, digits: int) -> Mapping[Mask, int]:
    """Every set of that many different digits, rising by its digits, with its sum."""
    every = combinations(range(1, digits + 1), count)
    return {sum(map(bit, chosen)): sum(chosen) for chosen in every}


@lru_cache(maxsize=512)
def choices_up_to(count: int, total: int, digits: int) -> Sequence[tuple[int, ...]]:
    """Every choice of so many rising digits, some of them alike, with a sum up to `total`."""
    found: list[tuple[int, ...]] = [()]
    for left in range(count - 1, -1, -1):
        found = [
            (*chosen, digit)
            for chosen in found
            for digit in range(chosen[-1] if chosen else 1, digits + 1)
            if sum(chosen) + digit * (left + 1) <= total
        ]
    return tuple(found)


@lru_cache(maxsize=512)
def choices_with_sum(count: int, total: int, digits: int) -> Sequence[tuple[int, ...]]:
    """Every choice of so many rising digits, some of them alike, that sum to `total`."""
    return tuple(each for each in choices_up_to(count, total, digits) if sum(each) == total)
