"""Fonts of the machine that a job is made on, by the names that they give themselves."""

import os
import sys
from collections.abc import Iterator, Mapping
from functools import cache
from itertools import islice
from pathlib import Path
from typing import Final

from layout.type.own_fonts import ENDINGS, name_of

MOST_FILES: Final = 5_000
"""Font files that are looked at."""


def system_font(name: str) -> Path | None:
    """The file of a font by its family and style; None where the machine has no such font.

    A regular one may be called by its family alone.
    """
    known = _known()
    return known.get(_key(name)) or known.get(_key(f"{name} Regular"))


@cache
def _known() -> Mapping[str, Path]:
    """The machine's fonts; of two with one name that whose path comes first."""
    found: dict[str, Path] = {}
    for path in islice(_files(), MOST_FILES):
        try:
            found.setdefault(_key(name_of(path)), path)
        except Exception:  # noqa: S112 - what is no font is of no use here
            continue
    return found


def _files() -> Iterator[Path]:
    for folder in folders():
        for root, inner, names in os.walk(folder):
            inner.sort()
            yield from (
                Path(root, name) for name in sorted(names) if name.lower().endswith(ENDINGS)
            )


def folders() -> tuple[Path, ...]:
    """Where systems keep their fonts."""
    home = Path.home()
    if sys.platform == "win32":
        return Path(os.environ.get("WINDIR", "C:/Windows"), "Fonts"), home / (
            "AppData/Local/Microsoft/Windows/Fonts"
        )
    if sys.platform == "darwin":
        return home / "Library/Fonts", Path("/Library/Fonts"), Path("/System/Library/Fonts")
    return (
        home / ".local/share/fonts",
        home / ".fonts",
        Path("/usr/local/share/fonts"),
        Path("/usr/share/fonts"),
    )


def _key(name: str) -> str:
    return "".join(name.lower().split())
