"""The JSON Schema of manifests, made from the same tables that they are read by.

Shipped as `puzzle.schema.json` beside this file, for editors' programs that complete and
underline; `python -m verify.manifest.schema` writes it anew.
"""

import json
from pathlib import Path
from typing import Any, Final

from verify.manifest.fields import OTHER_FIELDS, REQUIRED, WORDS_FIELDS
from verify.manifest.ground import BOXES, KIND, SIZE, SYMBOLS
from verify.manifest.outline import GRIDS, HOLES
from verify.reading.record import Schema
from verify.rules import RULES

SHIPPED: Final = Path(__file__).with_name("puzzle.schema.json")

_GRID: Final = ["string", "number", "null"]


def puzzle_schema() -> dict[str, Any]:
    """The schema, by JSON Schema 2020-12."""
    words = {name: field.schema() for name, field in WORDS_FIELDS.items()}
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Puzzle manifest",
        "type": "object",
        "required": list(REQUIRED),
        "additionalProperties": False,
        "properties": {**words, **_other_schemas()},
    }


def schema_text() -> str:
    """The schema as the shipped file holds it."""
    return json.dumps(puzzle_schema(), indent=1, ensure_ascii=False) + "\n"


def _other_schemas() -> dict[str, Any]:
    """All other fields."""
    schemas: dict[str, Schema] = {
        "kind": KIND.schema(),
        "size": SIZE.schema(),
        "boxes": BOXES.schema(),
        "grids": GRIDS.schema(),
        "holes": HOLES.schema(),
        "symbols": SYMBOLS.schema(),
        "rules": _rules_schema(),
        "givens": {"type": _GRID},
        "answer": {"type": _GRID},
    }
    return {
        name: {"description": meaning, **schemas[name]} for name, meaning in OTHER_FIELDS.items()
    }


def _rules_schema() -> dict[str, Any]:
    """Each rule of the catalogue with its marks."""
    marks = {
        rule.name: {**rule.grammar.schema(), "description": f"{rule.meaning} Marks: {rule.marks}."}
        for rule in RULES
    }
    return {"type": ["object", "null"], "additionalProperties": False, "properties": marks}


if __name__ == "__main__":
    SHIPPED.write_text(schema_text(), encoding="utf-8")
