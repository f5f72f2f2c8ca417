"""Which puzzles of a section share a page, and which take a page of their own."""

from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final, TypeAlias

from layout.pages.common.book import Numbered
from layout.pages.common.misfit import Misfits
from layout.pages.common.page import Page

Puzzles: TypeAlias = Sequence[Numbered]


@dataclass(frozen=True, slots=True)
class Sheet:
    """The puzzles of a page; `alone` where one is too large to share it, or left over."""

    puzzles: tuple[Numbered, ...]
    alone: bool = False


MOST_ALONE: Final = 1 / 3
"""Where more of a section do not fit, it is not a few large boards among small ones."""

FEW: Final = 2
"""So few to a page are large there, also where one of them is missing."""

Setting: TypeAlias = Callable[[Sequence[Puzzles]], tuple[Page, ...]]
"""Sets a page for each group of puzzles. Raises Misfits for those that do not fit."""


def shared_pages(
    puzzles: Puzzles, per_page: int, shared: Setting, alone: Setting
) -> tuple[Page, ...]:
    """Pages of so many puzzles, in their order; what does not fit there has a page of its own.

    Raises Misfits where too many of them do not fit, or one not even on its own page.
    """
    large: set[int] = set()
    while True:
        sheets = [large_if_left(each, per_page) for each in sheets_of(puzzles, per_page, large)]
        try:
            pages = _set([sheet.puzzles for sheet in sheets if not sheet.alone], shared)
        except Misfits as misfits:
            found = _largest(misfits, puzzles)
            if not found or len(large | found) > MOST_ALONE * len(puzzles):
                raise
            large |= found
            continue
        own = _set([sheet.puzzles for sheet in sheets if sheet.alone], alone)
        return tuple(next(own if sheet.alone else pages) for sheet in sheets)


def large_if_left(sheet: Sheet, per_page: int) -> Sheet:
    """The sheet; one puzzle that is left over where four or more share a page would be lost."""
    left = per_page > FEW and len(sheet.puzzles) == 1
    return replace(sheet, alone=True) if left else sheet


def _set(pages: Sequence[Puzzles], setting: Setting) -> Iterator[Page]:
    """The pages of some puzzles; none where there are none. Raises Misfits."""
    return iter(setting(pages) if pages else ())


def _largest(misfits: Misfits, puzzles: Puzzles) -> set[int]:
    """The numbers of the largest boards that do not fit: without them others may."""
    misfitting = [misfit.puzzle for misfit in misfits.found if misfit.field in ("size", "words")]
    found = [each for each in puzzles if any(each.puzzle is one for one in misfitting)]
    sides = {each.number: max(each.puzzle.board.columns, each.puzzle.board.rows) for each in found}
    return {number for number, side in sides.items() if side == max(sides.values())}


def sheets_of(puzzles: Puzzles, per_page: int, large: Collection[int]) -> Iterator[Sheet]:
    """Puzzles by page: up to so many, and those of the numbers `large` by themselves."""
    waiting: list[Numbered] = []
    for each in puzzles:
        if waiting and (each.number in large or len(waiting) == per_page):
            yield Sheet(tuple(waiting))
            waiting = []
        if each.number in large:
            yield Sheet((each,), alone=True)
        else:
            waiting.append(each)
    if waiting:
        yield Sheet(tuple(waiting))
