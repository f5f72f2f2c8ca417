"""The reasons of verdicts, as lines for the terminal and as facts of a JSON document."""

from collections.abc import Iterator, Sequence
from typing import Any, Final

from layout.console import first_of
from verify.minimal import Minimal
from verify.named_parts import NamedPart
from verify.reasons import Spared, WhyMany, WhyNone

MOST_NAMED: Final = 12
"""Cells or parts that a line names."""


def none_words(why: WhyNone | None) -> str:
    """What can't stand together, behind the verdict; every part is named."""
    if why is None:
        return "; undecided in this time why"
    parts = list(map(str, why.parts))
    if not parts:
        return "; the grid itself has no answer"
    if len(parts) == 1:
        return f"; nothing fits {parts[0]}"
    rest = "" if why.smallest else "; undecided in this time whether fewer of them could"
    return f"; these can't stand together: {', '.join(parts)}{rest}"


def none_facts(why: WhyNone) -> dict[str, Any]:
    """`conflict`, and whether none of it can be left out."""
    return {"conflict": list(map(part_facts, why.parts)), "conflict_smallest": why.smallest}


def many_lines(why: WhyMany) -> Iterator[str]:
    """How many answers, how close two of them are, and what would settle them."""
    yield f"{_counted(why)}; the closest two differ in {first_of(why.pattern, MOST_NAMED)}"
    if why.settling is None:
        yield "undecided in this time: which one given would leave one answer"
    elif why.settling:
        named = first_of(list(map(str, why.settling)), MOST_NAMED, ", ")
        yield f"one answer is left by any of these as a given: {named}"
    else:
        yield "no one given would leave one answer"


def _counted(why: WhyMany) -> str:
    if why.more is None:
        return f"at least {why.count} answers, undecided in this time whether more"
    return f"more than {why.count} answers" if why.more else f"{why.count} answers"


def many_facts(why: WhyMany) -> dict[str, Any]:
    """`count`, whether there are `more`, the two that are `closest`, and `settling` givens.

    `more` and `settling` are null where that is undecided.
    """
    return {
        "count": why.count,
        "more": why.more,
        "closest": {
            "answers": list(why.closest),
            "cells": list(why.pattern),
            "smallest": why.smallest,
        },
        "settling": None if why.settling is None else _placings(why.settling),
    }


def _placings(givens: Sequence[NamedPart]) -> list[dict[str, str]]:
    return [{"cell": given.cell, "digit": given.digit} for given in givens]


def spare_lines(spared: Spared) -> Iterator[str]:
    """What could be left out; every part is named."""
    if spared.parts:
        yield f"each of these could be left out: {', '.join(map(str, spared.parts))}"
    elif not spared.undecided:
        yield "no given and no mark could be left out"
    if spared.undecided:
        parts = ", ".join(map(str, spared.undecided))
        yield f"undecided in this time whether these could be left out: {parts}"


def spare_facts(spared: Spared) -> dict[str, Any]:
    """`spare`, and what of the rest is undecided."""
    return {
        "spare": list(map(part_facts, spared.parts)),
        "spare_undecided": list(map(part_facts, spared.undecided)),
    }


def minimal_lines(minimal: Minimal) -> Iterator[str]:
    """What was left out, in its order; every part is named."""
    if minimal.left_out:
        yield f"a minimal puzzle leaves out, in this order: {', '.join(map(str, minimal.left_out))}"
    elif minimal.whole:
        yield "nothing could be left out: the puzzle is minimal"
    if not minimal.whole:
        yield "undecided in this time whether more could be left out"


def minimal_facts(minimal: Minimal) -> dict[str, Any]:
    """`left_out`, in its order, and whether nothing more could be."""
    return {
        "left_out": list(map(part_facts, minimal.left_out)),
        "left_out_all": minimal.whole,
    }


def part_facts(part: NamedPart) -> dict[str, Any]:
    """A given or a mark, as the manifest names it, and its line, null where it is not known.

    `part` where a part of a mark is meant alone.
    """
    if part.cell:
        return {"cell": part.cell, "digit": part.digit, "line": part.line}
    of_it = {"part": part.of_it} if part.of_it else {}
    return {"rule": part.rule, "at": part.at, **of_it, "line": part.line}
