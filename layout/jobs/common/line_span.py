"""Lines of a bank that a job means: `marsh.txt#12-40`, or one of them, `marsh.txt#7`."""

import re
import sys
from dataclasses import dataclass
from typing import Final

_SPAN: Final = re.compile("(.+)#([1-9][0-9]{0,8})(?:-([1-9][0-9]{0,8}))?")


@dataclass(frozen=True, slots=True)
class LineSpan:
    """The first and the last line, from 1, as an editor counts them."""

    first: int
    last: int

    def __str__(self) -> str:
        return f"#{self.first}" if self.first == self.last else f"#{self.first}-{self.last}"

    def meets(self, other: "LineSpan") -> bool:
        """Whether both hold a line."""
        return self.first <= other.last and other.first <= self.last


ALL_LINES: Final = LineSpan(1, sys.maxsize)


def split_span(pattern: str) -> tuple[str, LineSpan]:
    """A file name or pattern without its lines, and the lines."""
    said = _SPAN.fullmatch(pattern)
    if said is None:
        return pattern, ALL_LINES
    first = int(said[2])
    return said[1], LineSpan(first, int(said[3] or first))
