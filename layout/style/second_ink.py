"""The second ink of a style sheet: its name, and what it is made of."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import fsum
from typing import Annotated, Any, Final

from layout.lengths import Share
from layout.picture.items import Ink
from verify.reading.node import Fields, Node
from verify.reading.problems import Problems
from verify.reading.record import Word, read_record, schema_of

MOST_COVERAGE: Final = 3.0
"""The most ink on one place, all four added up: more does not dry on coated paper (common
practice, no source; newspapers take less)."""

SCREEN_COLOURS: Final = frozenset({"rgb", "red", "green", "blue", "hex", "color", "colour"})
"""Keys that tell a colour as screens make it, which no press has ink for."""

BLACK_PLATES: Final = frozenset({"black", "cyan", "magenta", "yellow", "all", "none"})
"""Names that a spot ink can't have: those of the plates that there are (ISO 32000-1, 8.6.6.4)."""


@dataclass(frozen=True, slots=True)
class _Told:
    """An ink as a style sheet tells it."""

    cyan: Annotated[float, Share(0, 100), "how much cyan it is made of"] = 0.0
    magenta: Annotated[float, Share(0, 100), "how much magenta"] = 0.0
    yellow: Annotated[float, Share(0, 100), "how much yellow"] = 0.0
    black: Annotated[float, Share(0, 100), "how much black"] = 0.0
    name: Annotated[
        str, Word(40), "the name of a spot ink, which has a plate of its own; without, four inks"
    ] = ""


class SecondInk:
    """Reads an ink; refuses what a press can't print."""

    def read(self, node: Node, problems: Problems) -> Ink | None:
        """The ink, or None where a problem was noted."""
        for key, _ in node.entries if isinstance(node, Fields) else ():
            if key.text.lower() in SCREEN_COLOURS:
                expected = "cyan, magenta, yellow and black: a press has no ink for RGB"
                problems.expected(key.place, f'the key "{key.text}"', expected)
                return None
        told = read_record(node, _Told, problems)
        if told is None:
            return None
        parts = told.cyan, told.magenta, told.yellow, told.black
        total = fsum(parts)
        if not 0 < total <= MOST_COVERAGE:
            expected = f"more than none, and at most {MOST_COVERAGE:.0%}"
            problems.expected(node.place, f"{total:.0%} of ink in all", expected)
            return None
        if told.name.lower() in BLACK_PLATES or not told.name.isprintable():
            problems.expected(node.place, f'the name "{told.name}"', "one that no plate has yet")
            return None
        return Ink(told.name, parts)

    def schema(self) -> Mapping[str, Any]:
        """A mapping."""
        return schema_of(_Told)
