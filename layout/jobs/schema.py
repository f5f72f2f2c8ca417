"""The JSON Schema of jobs, made from the records that they are read into, one for each kind.

Shipped as `job.schema.json` beside this file, for editors' programs that complete and
underline; `python -m layout.jobs.schema` writes it anew.
"""

import json
from pathlib import Path
from typing import Any, Final

from layout.jobs.read_job import KINDS
from verify.reading.record import schema_of

SHIPPED: Final = Path(__file__).with_name("job.schema.json")


def job_schema() -> dict[str, Any]:
    """The schema, by JSON Schema 2020-12."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Job",
        "type": "object",
        "required": ["job"],
        "oneOf": [schema_of(kind) for kind in KINDS.values()],
    }


def schema_text() -> str:
    """The schema as the shipped file holds it."""
    return json.dumps(job_schema(), indent=1, ensure_ascii=False) + "\n"


if __name__ == "__main__":
    SHIPPED.write_text(schema_text(), encoding="utf-8")
