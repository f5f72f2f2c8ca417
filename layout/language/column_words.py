"""Words of a newspaper's column: the day, the credit line, and the board without a picture."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType


@dataclass(frozen=True, slots=True)
class DateForms:
    """How a day is written, with its year and without."""

    full: str
    short: str


@dataclass(frozen=True, slots=True)
class DateWords:
    """How a day is written in a language, and in regions ("US") that write it in another way."""

    full: str
    short: str
    regions: Mapping[str, DateForms] = field(default_factory=lambda: MappingProxyType({}))


@dataclass(frozen=True, slots=True)
class DailyWords:
    """What stands around one day's puzzle in a newspaper; `calendar` and
    `full_size` head sheets that are signed.
    """

    number: str
    constructor: str
    previous: str
    calendar: str
    full_size: str


@dataclass(frozen=True, slots=True)
class BoardWords:
    """A board in words: `boxed` and `grid` say how large it is, with boxes and without.

    `held` is a digit in its place; `arrow_in` and `arrow_out` are arrows outside the board.
    """

    grid: str
    boxed: str
    row: str
    held: str
    empty: str
    arrow_in: str
    arrow_out: str


@dataclass(frozen=True, slots=True)
class WebWords:
    """What stands around a day's puzzle on a web page, or in a text without pictures.

    `row` and `column` head a table; `cells` explains the name of a cell.
    """

    rules: str
    answer: str
    row: str
    column: str
    cells: str
