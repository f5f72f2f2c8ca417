"""How the ISBN of a book is read."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final

from verify.reading.node import Node, Text, describe
from verify.reading.problems import Problems

THIRTEEN: Final = "97[89][0-9]{10}"

IN_PARTS: Final = r"[0-9]+(-[0-9]+){0,4}"
"""The five parts of an ISBN, or fewer where not all hyphens are told."""


@dataclass(frozen=True, slots=True)
class Isbn:
    """An ISBN of 13 digits, with hyphens or spaces between its parts, or with none.

    It is printed with the hyphens that its registration group and its registrant ask for, wherever
    they stood. Numbers of a group or a registrant that is not known stand as they were written.
    """

    def read(self, node: Node, problems: Problems) -> str | None:
        """The number with its hyphens."""
        # Imported here since the package takes longer to import than all of a job without an ISBN.
        from stdnum import ean, isbn
        from stdnum.util import clean

        text = clean("-".join(node.text.split())) if isinstance(node, Text) else ""
        digits = isbn.compact(text)
        if not re.fullmatch(THIRTEEN, digits) or not re.fullmatch(IN_PARTS, text):
            short = isbn.isbn_type(text) == "ISBN10"
            example = isbn.format(text, convert=True) if short else "979-4-1706-0345-1"
            expected = f"an ISBN of 13 digits such as {example}"
            problems.expected(node.place, describe(node), expected)
            return None
        check = ean.calc_check_digit(digits[:-1])
        if digits[-1] != check:
            found = f"the check digit {digits[-1]} in {describe(node)}"
            problems.expected(node.place, found, f"{check}; look for a slip in the number")
            return None
        return isbn.format(digits) if all(isbn.split(digits)) else text

    def schema(self) -> Mapping[str, Any]:
        """Digits and hyphens, as text."""
        return {"type": ["string", "integer"], "pattern": r"^\s*97[89][0-9 -]{10,14}\s*$"}
