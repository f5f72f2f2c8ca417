"""The JSON Schema of plans, made from the record that they are read into.

Shipped as `plan.schema.json` beside this file, for editors' programs that complete and underline;
`python -m verify.compose.series.schema` writes it anew.
"""

import json
from pathlib import Path
from typing import Any, Final

from verify.compose.series.plan import Plan
from verify.reading.record import schema_of

SHIPPED: Final = Path(__file__).with_name("plan.schema.json")


def plan_schema() -> dict[str, Any]:
    """The schema, by JSON Schema 2020-12: a plan has lines, or sketches, or both."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Plan of a series",
        **schema_of(Plan),
        "anyOf": [{"required": ["puzzles"]}, {"required": ["sketches"]}],
    }


def schema_text() -> str:
    """The schema as the shipped file holds it."""
    return json.dumps(plan_schema(), indent=1, ensure_ascii=False) + "\n"


if __name__ == "__main__":
    SHIPPED.write_text(schema_text(), encoding="utf-8")
