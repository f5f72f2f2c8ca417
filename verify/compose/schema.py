"""The JSON Schema of sketches: that of manifests, and what is wanted beside.

Shipped as `sketch.schema.json` beside this file, for editors' programs that complete and
underline; `python -m verify.compose.schema` writes it anew.
"""

import json
from pathlib import Path
from typing import Any, Final

from verify.compose.want import Want
from verify.manifest.schema import puzzle_schema
from verify.reading.record import schema_of

SHIPPED: Final = Path(__file__).with_name("sketch.schema.json")


def sketch_schema() -> dict[str, Any]:
    """The schema, by JSON Schema 2020-12."""
    puzzle = puzzle_schema()
    want = {**schema_of(Want), "description": "what is wanted of a puzzle that is to be composed"}
    return {**puzzle, "title": "Sketch", "properties": {**puzzle["properties"], "want": want}}


def schema_text() -> str:
    """The schema as the shipped file holds it."""
    return json.dumps(sketch_schema(), indent=1, ensure_ascii=False) + "\n"


if __name__ == "__main__":
    SHIPPED.write_text(schema_text(), encoding="utf-8")
