"""JSON Schema fragments for what the readers read, so that an editor's program can help."""

from collections.abc import Mapping
from typing import Any, Final, TypeAlias

Schema: TypeAlias = Mapping[str, Any]

_CELL: Final = "[rR][0-9]+[cC][0-9]+"
_STEP: Final = "[0-9]*([nNsS][eEwW]?|[eEwW])"
_TRAIL: Final = rf"^\s*{_CELL}(\s+({_CELL}|{_STEP}))*\s*$"
_CELLS: Final = rf"{_CELL}(\.\.{_CELL})?"
_GROUP: Final = rf"^\s*{_CELLS}(\s+({_CELLS}|{_STEP}))*\s*$"

FLAG: Final[Schema] = {"const": True}
CELL: Final[Schema] = {"type": "string", "pattern": f"^{_CELL}$"}
PATH: Final[Schema] = {
    "description": "cells in order: a list, or a trail such as r9c2 3n ne",
    "oneOf": [
        {"type": "string", "pattern": _TRAIL},
        {"type": "array", "items": CELL, "minItems": 1},
    ],
}
GROUP: Final[Schema] = {
    "description": "cells in no order: a list, a trail, or rectangles such as r1c1..r2c3",
    "oneOf": [
        {"type": "string", "pattern": _GROUP},
        {"type": "array", "items": {"type": "string", "pattern": _GROUP}, "minItems": 1},
    ],
}
PATHS: Final[Schema] = {"type": "array", "items": PATH, "minItems": 1}


def clues(clue: Schema, *, diagonal: bool = False) -> Schema:
    """The schema of a mapping from places outside to clues."""
    side = "([tT][oO][pP]|[bB][oO][tT][tT][oO][mM])" + r"\s+[cC][0-9]+"
    other = "([lL][eE][fF][tT]|[rR][iI][gG][hH][tT])" + r"\s+[rR][0-9]+"
    ahead = r"\s+[nNsS][eEwW]" if diagonal else ""
    return {
        "type": "object",
        "minProperties": 1,
        "patternProperties": {rf"^\s*({side}|{other}){ahead}\s*$": clue},
        "additionalProperties": False,
    }
