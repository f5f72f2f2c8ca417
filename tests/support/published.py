"""Where the published instances lie: the folder that REGLET_CASES names, or nowhere."""

import json
import os
from functools import lru_cache
from pathlib import Path

import pytest

CASES = Path(os.environ["REGLET_CASES"]) if os.environ.get("REGLET_CASES") else None

needs_cases = pytest.mark.skipif(CASES is None, reason="REGLET_CASES names no folder of cases")


def manifests() -> list[Path]:
    """The published manifests, sorted; none where there is no folder."""
    return sorted((CASES / "published").glob("*.yaml")) if CASES else []


@lru_cache
def verdicts() -> dict[str, dict[str, str]]:
    """The published verdict of each manifest, by file name."""
    assert CASES is not None
    return json.loads((CASES / "verdicts.json").read_text(encoding="utf-8"))


def lines(name: str) -> list[str]:
    """The 81-character puzzles of a list, one a line; 0 for empty."""
    assert CASES is not None
    text = (CASES / name).read_text(encoding="utf-8")
    return [line.split()[-1] for line in text.splitlines() if line and line[0] != "#"]
