"""Where the published instances lie: the folder that REGLET_CASES names, or nowhere."""

import json
import os
from functools import lru_cache
from pathlib import Path

import pytest

CASES = Path(os.environ["REGLET_CASES"]) if os.environ.get("REGLET_CASES") else None

RISING = ("easy50", "list10k", "top95", "hard375")
"""Lists of `classic-lists.txt`, the easiest first. That they rise in this order: common practice,
no source.

Its puzzles of 17 givens have no place among them: few givens don't make a puzzle hard. Nor have
the five that are left of `hardest11`: they come from many hands, and two of them fall to singles
and locked candidates.
"""

needs_cases = pytest.mark.skipif(CASES is None, reason="REGLET_CASES names no folder of cases")


def manifests() -> list[Path]:
    """The published manifests, sorted; none where there is no folder."""
    return sorted((CASES / "published").glob("*.yaml")) if CASES else []


@lru_cache
def verdicts() -> dict[str, dict[str, str]]:
    """The published verdict of each manifest, by file name."""
    assert CASES is not None
    found: dict[str, dict[str, str]] = json.loads((CASES / "verdicts.json").read_text("utf-8"))
    return found


def lines(name: str) -> list[str]:
    """The 81-character puzzles of a list, one a line; 0 for empty."""
    assert CASES is not None
    text = (CASES / name).read_text(encoding="utf-8")
    return [line.split()[-1] for line in text.splitlines() if line and line[0] != "#"]


def listed(name: str) -> list[str]:
    """The puzzles of one of the lists in `classic-lists.txt`."""
    assert CASES is not None
    text = (CASES / "classic-lists.txt").read_text(encoding="utf-8")
    rows = [line.split() for line in text.splitlines()]
    return [words[-1] for words in rows if words and words[0] == name]


def spread(puzzles: list[str], count: int) -> list[str]:
    """Up to so many of a list, evenly spread."""
    count = min(count, len(puzzles))
    return [puzzles[at * len(puzzles) // count] for at in range(count)]
