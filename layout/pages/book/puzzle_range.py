"""Puzzles by their numbers: "Puzzles 1 to 12"."""

from collections.abc import Sequence

from layout.language.words import fill
from layout.pages.common.book import Numbered
from layout.pages.common.design import Design


def puzzle_range(puzzles: Sequence[Numbered], design: Design) -> str:
    """The first and the last number of some puzzles that follow one another, in words."""
    first, last = puzzles[0].number, puzzles[-1].number
    words = design.words.pages
    return fill(words.one_puzzle if first == last else words.puzzles, first=first, last=last)
