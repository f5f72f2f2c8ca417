"""The JSON Schema of style sheets, made from the records that they are read into.

Shipped as `style.schema.json` beside this file, for editors' programs that complete and
underline; `python -m layout.style.schema` writes it anew.
"""

import copy
import json
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any, Final

from layout.style.style import REFERENCE, Style, read_style, shipped_style_names
from verify.reading.record import schema_of

SHIPPED: Final = Path(__file__).with_name("style.schema.json")

LIKE: Final = "a shipped sheet; what this one leaves out is as it is there"


def style_schema() -> dict[str, Any]:
    """The schema, by JSON Schema 2020-12; only a sheet like no other must say everything."""
    whole = _with_roles(schema_of(Style))
    like = {"description": LIKE, "enum": list(shipped_style_names())}
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Style sheet",
        "type": "object",
        "properties": {"like": like, **_without_needs(whole)["properties"]},
        "additionalProperties": False,
        "if": {"not": {"required": ["like"]}},
        "then": _needs(whole),
    }


def schema_text() -> str:
    """The schema as the shipped file holds it."""
    return json.dumps(style_schema(), indent=1, ensure_ascii=False) + "\n"


def _with_roles(schema: Mapping[str, Any]) -> dict[str, Any]:
    """The same, where each kind of mark has the roles of the reference and no others."""
    marks = read_style(REFERENCE).board.marks
    whole = copy.deepcopy(dict(schema))
    tables = whole["properties"]["board"]["properties"]["marks"]["properties"]
    for kind, table in tables.items():
        roles = list(getattr(marks, kind))
        table.update({"propertyNames": {"enum": roles}, "required": roles})
    return whole


def _without_needs(schema: Mapping[str, Any]) -> dict[str, Any]:
    """The same, where every key may be left out."""
    return _inside({key: each for key, each in schema.items() if key != "required"}, _without_needs)


def _needs(schema: Mapping[str, Any]) -> dict[str, Any]:
    """Only which keys must be there."""
    parts = ("required", "properties", "additionalProperties")
    needs = _inside({part: schema[part] for part in parts if schema.get(part)}, _needs)
    properties = {key: each for key, each in needs.pop("properties", {}).items() if each}
    return {part: each for part, each in {**needs, "properties": properties}.items() if each}


def _inside(
    schema: Mapping[str, Any], change: Callable[[Mapping[str, Any]], dict[str, Any]]
) -> dict[str, Any]:
    """The same, where the schemas of its keys are changed."""
    changed = dict(schema)
    if "properties" in schema:
        properties = schema["properties"]
        changed["properties"] = {key: change(each) for key, each in properties.items()}
    if isinstance(schema.get("additionalProperties"), Mapping):
        changed["additionalProperties"] = change(schema["additionalProperties"])
    return changed


if __name__ == "__main__":
    SHIPPED.write_text(schema_text(), encoding="utf-8")
