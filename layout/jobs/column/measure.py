"""The measure of a newspaper: how wide a picture is that runs over so many of its columns.

A job says `columns: 2` and the paper's `measure`, or `width: 108mm` alone. A measure is
`{column: 52mm, gutter: 4mm}`, or `{widths: [50mm, 103.5mm, 157mm]}` where a paper's own
table follows no rule, or the name of a table that many papers share.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from math import inf
from types import MappingProxyType
from typing import Annotated, Any, Final

from layout.lengths import MILLIMETRES, Length, millimetres
from verify.reading.node import Fields, Node, Text, describe
from verify.reading.problems import Problems, nearest
from verify.reading.record import Every, Record, read_record

NARROWEST: Final = 20.0
WIDEST: Final = 1000.0
"""Bounds for the width of a picture, in millimetres."""

MOST_COLUMNS: Final = 16

Width = Annotated[float, Length(NARROWEST, WIDEST)]


class NoWidth(Exception):  # noqa: N818 - what befell the job, in the editor's words
    """A job that does not say how wide its pictures are; `key` is where it should."""

    def __init__(self, message: str, key: str) -> None:
        self.key = key
        super().__init__(message)


@dataclass(frozen=True, slots=True)
class Measure:
    """How wide pictures of one column, of two columns, and so on are, in millimetres."""

    widths: tuple[float, ...]

    def over(self, columns: int) -> float:
        """The width over so many columns. Raises NoWidth where the paper has not as many."""
        if not 1 <= columns <= len(self.widths):
            expected = f"from 1 to {len(self.widths)}, as the measure has them"
            raise NoWidth(f"found {columns} columns, expected {expected}", "columns")
        return self.widths[columns - 1]


def even_measure(column: float, gutter: float, most: int = MOST_COLUMNS) -> Measure:
    """Columns of one width with gutters of one width between them, up to `most` columns."""
    wide = (count * column + (count - 1) * gutter for count in range(1, most + 1))
    return Measure(tuple(width for width in wide if width <= WIDEST))


def _inches(column: float, gutter: float, most: int) -> Measure:
    inch = MILLIMETRES["in"]
    return even_measure(column * inch, gutter * inch, most)


MEASURES: Final[Mapping[str, Measure]] = MappingProxyType(
    {
        "us-standard": _inches(2 + 1 / 16, 1 / 8, 6),
        "us-50-inch-web": _inches(1 + 5 / 6, 1 / 8, 6),
    }
)
"""Tables that papers share.

`us-standard` is the table of the US standard advertising unit: a column of 2 1/16 in, a gutter of
1/8 in, so 2.0625, 4.25, 6.4375, 8.625, 10.8125 and 13 in. Column, gutter and three columns were
found in papers' advertising specifications; the others follow, and are from memory.
`us-50-inch-web` is that of papers on narrower reels: columns of 1 5/6 in, printed as 1.833, and
three of 5.75 in.
"""


@dataclass(frozen=True, slots=True)
class _Even:
    """Columns and gutters of one width."""

    column: Annotated[Width, "the width of one column"]
    gutter: Annotated[float, Length(0, 50), "the white between two columns"]


@dataclass(frozen=True, slots=True)
class _Table:
    """A width for each number of columns."""

    widths: Annotated[
        tuple[float, ...],
        Every(Length(NARROWEST, WIDEST)),
        "how wide one column is, then two, and so on",
    ]


class PaperMeasure:
    """A measure in a file: a name, a column with its gutter, or a table of widths."""

    def read(self, node: Node, problems: Problems) -> Measure | None:
        """The measure."""
        if isinstance(node, Text) and node.text in MEASURES:
            return MEASURES[node.text]
        if isinstance(node, Text) and node.text:
            problems.unknown(node.place, "measure", node.text, MEASURES)
            return None
        if isinstance(node, Fields) and node.get("widths") is not None:
            return _table(node, problems)
        even = read_record(node, _Even, problems)
        return None if even is None else even_measure(even.column, even.gutter)

    def schema(self) -> Mapping[str, Any]:
        """A name or an object."""
        return {
            "oneOf": [{"enum": list(MEASURES)}, Record(_Even).schema(), Record(_Table).schema()]
        }


def _table(node: Node, problems: Problems) -> Measure | None:
    """A paper's own table, in which every width is larger than the one before."""
    table = read_record(node, _Table, problems)
    if table is None:
        return None
    rising = all(a < b for a, b in zip(table.widths, table.widths[1:], strict=False))
    if not (1 <= len(table.widths) <= MOST_COLUMNS and rising):
        expected = f"1 to {MOST_COLUMNS} widths, each larger than the one before"
        problems.expected(node.place, f"{len(table.widths)} widths", expected)
        return None
    return Measure(table.widths)


class Depth:
    """A length, or `as-needed`, which is read as endless."""

    AS_NEEDED: Final = "as-needed"

    _length: Final = Length(NARROWEST, WIDEST)

    def read(self, node: Node, problems: Problems) -> float | None:
        """The depth in millimetres."""
        if isinstance(node, Text) and node.text.strip() == self.AS_NEEDED:
            return inf
        if isinstance(node, Text) and millimetres(node.text.strip()) is None:
            expected = f"a length such as 160mm, or {self.AS_NEEDED}"
            problems.expected(node.place, describe(node), expected)
            return None
        return self._length.read(node, problems)

    def schema(self) -> Mapping[str, Any]:
        """A length or the word."""
        return {"oneOf": [{"const": self.AS_NEEDED}, self._length.schema()]}


def picture_width(columns: int | None, measure: Measure | None, width: float | None) -> float:
    """How wide the pictures of a job are, in millimetres, from what it says of them.

    Raises NoWidth where it says too little, or two things.
    """
    if width is not None and (columns is not None or measure is not None):
        raise NoWidth("found columns or a measure beside a width, expected one of the two", "width")
    if width is not None:
        return width
    if columns is None:
        raise NoWidth("found no width, expected columns with a measure, or a width", "columns")
    if measure is None:
        named = ", ".join(MEASURES)
        expected = f"the paper's measure: {{column: 52mm, gutter: 4mm}}, or by name: {named}"
        raise NoWidth(f"found columns without a measure, expected {expected}", "columns")
    return measure.over(columns)


def measure_of(text: str) -> Measure:
    """A measure on a command line: `us-standard`, or column and gutter as `52mm,4mm`.

    Raises NoWidth for anything else.
    """
    if text in MEASURES:
        return MEASURES[text]
    column, comma, gutter = (part.strip() for part in text.partition(","))
    wide, apart = millimetres(column), millimetres(gutter)
    if not comma or wide is None or apart is None:
        hint = nearest(text, MEASURES)
        raise NoWidth(f'found "{text}", expected 52mm,4mm or a name; {hint}', "measure")
    if not (NARROWEST <= wide <= WIDEST and 0 <= apart <= 50):
        expected = f"a column from {NARROWEST:g}mm to {WIDEST:g}mm, a gutter up to 50mm"
        raise NoWidth(f'found "{text}", expected {expected}', "measure")
    return even_measure(wide, apart)
