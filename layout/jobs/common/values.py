"""How the values of a job file are read that no style sheet has."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final

from layout.artwork.read_artwork import READERS
from layout.language.words import languages
from layout.lengths import millimetres
from layout.pages.common.format import Trim
from verify.reading.node import Items, Node, Text, describe
from verify.reading.problems import Problems
from verify.reading.record import Value


@dataclass(frozen=True, slots=True)
class OneOf:
    """One of some whole numbers."""

    numbers: tuple[int, ...]

    def read(self, node: Node, problems: Problems) -> int | None:
        """The number."""
        text = node.text.strip() if isinstance(node, Text) else ""
        if re.fullmatch("[0-9]{1,3}", text) and int(text) in self.numbers:
            return int(text)
        *first, last = map(str, self.numbers)
        problems.expected(node.place, describe(node), f"{', '.join(first)} or {last}")
        return None

    def schema(self) -> Mapping[str, Any]:
        """An enumeration."""
        return {"enum": list(self.numbers)}


@dataclass(frozen=True, slots=True)
class ListOf:
    """A list of at least `least` and at most `most` items: none that is endless."""

    item: Value
    what: str
    most: int
    least: int = 1

    def read(self, node: Node, problems: Problems) -> tuple[Any, ...] | None:
        """The items that could be read."""
        if not isinstance(node, Items) or len(node.items) < self.least:
            problems.expected(node.place, describe(node), f"a list of {self.what}")
            return None
        if len(node.items) > self.most:
            problems.expected(node.place, f"{len(node.items)} {self.what}", f"at most {self.most}")
            return None
        values = (self.item.read(item, problems) for item in node.items)
        return tuple(value for value in values if value is not None)

    def schema(self) -> Mapping[str, Any]:
        """An array."""
        least = {"minItems": self.least} if self.least else {}
        return {"type": "array", "items": self.item.schema(), **least, "maxItems": self.most}


def _iso_sizes(series: str, longest: float, shortest: float) -> dict[str, tuple[float, float]]:
    """A series of ISO 216: each size is half of the one before, in whole millimetres."""
    sizes, (width, height) = {}, (shortest, longest)
    for number in range(11):
        sizes[f"{series}{number}"] = (width, height)
        width, height = height // 2, width
    return sizes


TRIMS: Final[Mapping[str, tuple[float, float]]] = {
    **_iso_sizes("A", 1189, 841),
    **_iso_sizes("B", 1414, 1000),
    "letter": (8.5 * 25.4, 11 * 25.4),
    "half-letter": (5.5 * 25.4, 8.5 * 25.4),
    "legal": (8.5 * 25.4, 14 * 25.4),
}
"""Page sizes by name, in millimetres: ISO 216 and the North American ones."""

SHORTEST_SIDE: Final = 88.0
LONGEST_SIDE: Final = 500.0
"""Bounds for a side of a trim, in millimetres: a pocket book, and a sheet of A2 folded once."""


class TrimSize:
    """A page size by its name, or `6x9in`, `148x210mm`, `5.5 x 8.5 in`."""

    def read(self, node: Node, problems: Problems) -> Trim | None:
        """The trim, without bleed."""
        text = node.text.strip() if isinstance(node, Text) else ""
        size = _named(text) or _measured(text)
        if size is None:
            expected = "a page size such as A5, letter, 6x9in or 148x210mm"
            problems.expected(node.place, describe(node), expected)
            return None
        if not SHORTEST_SIDE <= min(size) <= max(size) <= LONGEST_SIDE:
            sides = f"sides from {SHORTEST_SIDE:g}mm to {LONGEST_SIDE:g}mm"
            problems.expected(node.place, describe(node), sides)
            return None
        return Trim(*size)

    def schema(self) -> Mapping[str, Any]:
        """A name, or two numbers and a unit, as text."""
        number = r"([0-9]+(\.[0-9]+)?)"
        measured = rf"{number}\s*(mm|cm|in|pt)?\s*[x×]\s*{number}\s*(mm|cm|in|pt)"
        names = "|".join(TRIMS)
        return {"type": "string", "pattern": rf"^\s*({names}|{measured})\s*$"}


def _named(text: str) -> tuple[float, float] | None:
    names = {name.lower(): size for name, size in TRIMS.items()}
    return names.get(text.lower())


def _measured(text: str) -> tuple[float, float] | None:
    """Two lengths; the first may leave its unit to the second."""
    match = re.fullmatch(r"([0-9.]{1,9})\s*([a-z]*)\s*[x×]\s*([0-9.]{1,9})\s*([a-z]+)", text)
    if match is None:
        return None
    width = millimetres(match[1] + (match[2] or match[4]))
    height = millimetres(match[3] + match[4])
    return None if width is None or height is None else (width, height)


class Language:
    """A language that the pages can speak: `en`, or with a region `en-GB`."""

    def read(self, node: Node, problems: Problems) -> str | None:
        """The language as it was written."""
        text = node.text.strip() if isinstance(node, Text) else ""
        if re.fullmatch(r"[a-z]{2,3}(-[A-Z]{2})?", text) and text.split("-")[0] in languages():
            return text
        expected = " or ".join(languages()) + ", with a region if wanted, such as en-GB"
        problems.expected(node.place, describe(node), expected)
        return None

    def schema(self) -> Mapping[str, Any]:
        """A pattern of the languages there are."""
        return {"type": "string", "pattern": rf"^({'|'.join(languages())})(-[A-Z]{{2}})?$"}


class OutputPath:
    """A path of a PDF, relative to the job's folder."""

    def read(self, node: Node, problems: Problems) -> str | None:
        """The path as it was written."""
        text = node.text.strip() if isinstance(node, Text) else ""
        if text.lower().endswith(".pdf") and len(text) <= 500 and text.isprintable():
            return text
        problems.expected(node.place, describe(node), "the name of a file that ends in .pdf")
        return None

    def schema(self) -> Mapping[str, Any]:
        """Text that ends in .pdf."""
        return {"type": "string", "pattern": r"\.[pP][dD][fF]\s*$"}


class PicturePath:
    """A path of a picture that is read, relative to the job's folder."""

    def read(self, node: Node, problems: Problems) -> str | None:
        """The path as it was written."""
        text = node.text.strip() if isinstance(node, Text) else ""
        if text.lower().endswith(tuple(READERS)) and len(text) <= 500 and text.isprintable():
            return text
        endings = " or ".join(READERS)
        problems.expected(node.place, describe(node), f"the name of a file that ends in {endings}")
        return None

    def schema(self) -> Mapping[str, Any]:
        """Text that ends in one of the endings."""
        return {"type": "string", "pattern": r"\.([sS][vV][gG]|[pP][dD][fF]|[pP][nN][gG])\s*$"}


class OutputFolder:
    """A path of a folder, relative to the job's own."""

    def read(self, node: Node, problems: Problems) -> str | None:
        """The path as it was written."""
        text = node.text.strip() if isinstance(node, Text) else ""
        if 0 < len(text) <= 500 and text.isprintable():
            return text
        problems.expected(node.place, describe(node), "the name of a folder")
        return None

    def schema(self) -> Mapping[str, Any]:
        """Text that is not empty."""
        return {"type": "string", "minLength": 1, "maxLength": 500}
