"""Lengths and shares as job files and style sheets write them: `3mm`, `9pt`, `20%`."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final

from verify.reading.node import Node, Text, describe
from verify.reading.problems import Problems
from verify.reading.record import NUMBER

MILLIMETRES: Final[dict[str, float]] = {
    "mm": 1.0,
    "cm": 10.0,
    "in": 25.4,
    "pt": 25.4 / 72,
    "pc": 25.4 / 6,
}
"""Units of length; the point is the desktop point, 72 to the inch (ISO 32000-1, 8.3.2.3)."""


def millimetres(text: str) -> float | None:
    """A length with its unit (`0.45pt`, `6 in`) in millimetres, or None where it is none."""
    match = NUMBER.match(text)
    if match is None:
        return None
    unit = MILLIMETRES.get(text[match.end() :].strip())
    return None if unit is None else float(match[0]) * unit


@dataclass(frozen=True, slots=True)
class Length:
    """A length with its unit, between two bounds in millimetres, both allowed."""

    low: float
    high: float

    def read(self, node: Node, problems: Problems) -> float | None:
        """The length in millimetres."""
        length = millimetres(node.text.strip()) if isinstance(node, Text) else None
        if length is not None and self.low - 1e-9 <= length <= self.high + 1e-9:
            return length
        problems.expected(node.place, describe(node), self._in_words())
        return None

    def schema(self) -> Mapping[str, Any]:
        """A number and a unit, as text."""
        number, units = r"([0-9]+(\.[0-9]*)?|\.[0-9]+)", "|".join(MILLIMETRES)
        pattern = rf"^\s*{number}\s*({units})\s*$"
        return {"type": "string", "pattern": pattern, "description": self._in_words()}

    def _in_words(self) -> str:
        return f"a length from {self.low:g}mm to {self.high:g}mm, such as 3mm or 9pt"


@dataclass(frozen=True, slots=True)
class Share:
    """A percentage between two bounds, both allowed: `20%`; `of` says of what it is a share."""

    low: float = 0.0
    high: float = 100.0
    of: str = ""

    def read(self, node: Node, problems: Problems) -> float | None:
        """The share as a number from 0 to 1."""
        text = node.text.strip() if isinstance(node, Text) else ""
        number = text.removesuffix("%").strip()
        if number != text and NUMBER.fullmatch(number) and self.low <= float(number) <= self.high:
            return float(number) / 100
        problems.expected(node.place, describe(node), self._in_words())
        return None

    def schema(self) -> Mapping[str, Any]:
        """A number and a percent sign, as text."""
        pattern = r"^\s*([0-9]+(\.[0-9]*)?|\.[0-9]+)\s*%\s*$"
        return {"type": "string", "pattern": pattern, "description": self._in_words()}

    def _in_words(self) -> str:
        whole = f" of {self.of}" if self.of else ""
        return f"a percentage from {self.low:g}% to {self.high:g}%{whole}"
