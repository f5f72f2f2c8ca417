"""Where a word may be parted at the end of a line."""

from collections.abc import Sequence
from functools import cache, lru_cache
from typing import Any, Final

BEFORE: Final = 2
AFTER: Final = 3
"""Letters that stay before a hyphen, and that go after it (common practice, no source)."""

SHORTEST: Final = 6
"""Letters of the shortest word that is parted."""

CAPITAL_NOUNS: Final = ("de", "lb")
"""Languages that write every noun with a capital, which is then no sign of a name."""


@lru_cache(maxsize=65536)
def hyphen_points(word: str, language: str) -> Sequence[int]:
    """Offsets in a word of letters alone; none in a name, which starts with a capital."""
    nouns = language.partition("-")[0] in CAPITAL_NOUNS
    if len(word) < SHORTEST or not word.isalpha() or not word[int(nouns) :].islower():
        return ()
    dictionary = _dictionary(language)
    return tuple(dictionary.positions(word)) if dictionary else ()


@cache
def _dictionary(language: str) -> Any:
    """The patterns of a language ("en-GB"), or of the nearest that there is; None without any."""
    import pyphen

    code = pyphen.language_fallback(language.replace("-", "_"))
    return pyphen.Pyphen(lang=code, left=BEFORE, right=AFTER) if code else None
