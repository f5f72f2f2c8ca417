"""JSON Schema fragments for what the readers read, so that an editor's program can help."""

from collections.abc import Mapping
from typing import Any, Final, TypeAlias

Schema: TypeAlias = Mapping[str, Any]

FLAG: Final[Schema] = {"const": True}
CELL: Final[Schema] = {"type": "string", "pattern": "^r[0-9]+c[0-9]+$"}
PATH: Final[Schema] = {
    "description": "cells in order: a list, or a trail such as r9c2 3n ne",
    "oneOf": [{"type": "string"}, {"type": "array", "items": CELL, "minItems": 1}],
}
GROUP: Final[Schema] = {
    "description": "cells in no order: a list, a trail, or rectangles such as r1c1..r2c3",
    "oneOf": [{"type": "string"}, {"type": "array", "items": {"type": "string"}, "minItems": 1}],
}
PATHS: Final[Schema] = {"type": "array", "items": PATH, "minItems": 1}
