"""Spearman's rank correlation: what `method="ranked"` says from Python 3.12 on."""

from collections.abc import Sequence
from statistics import correlation


def spearman(one: Sequence[float], other: Sequence[float]) -> float:
    """The correlation of the ranks of two series."""
    return correlation(ranks(one), ranks(other))


def ranks(values: Sequence[float]) -> list[float]:
    """The rank of each value; ties share the mean of theirs."""
    return [
        sum(other < value for other in values) + (sum(other == value for other in values) + 1) / 2
        for value in values
    ]
