"""The pages of keys, from the JSON Schemas: what a job may say, and what a style sheet may."""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

import yaml
from look_pictures import PICTURES, SHOWN, look_pictures

from layout import draw, svg
from layout.jobs.read_job import KINDS
from layout.shipped import shipped_styles
from layout.style.board import Weight
from layout.style.schema import style_schema
from layout.style.style import REFERENCE, shipped_style_names
from layout.type.face import Face, Voices
from verify import RULES, read_puzzle
from verify.marks import Area, Badge, Cage, Clue, Ray, Sign, Tint, Trail
from verify.reading.record import schema_of

Schema = Mapping[str, Any]

SHARED: Mapping[str, type] = {"a width": Weight, "a face": Face, "voices": Voices}
"""Mappings that stand in many places, so that they are told once."""

ROLES: Mapping[type, str] = {
    Trail: "trails",
    Cage: "cages",
    Area: "areas",
    Tint: "tints",
    Sign: "signs",
    Badge: "badges",
    Clue: "clues",
    Ray: "rays",
}
"""What a sheet calls each kind of mark; borders are the lines of the grid."""

END = "...\n"
"""What YAML ends a document with that is a single value."""

JOB_HEAD = """\
# The keys of a job

`reglet make JOB.yaml` does what a job file says. Its first key says of what kind it is. A key in
bold must be there. What is not in these tables is told as an error, with its place.
"""

STYLE_HEAD = """\
# The keys of a style sheet

A sheet says how boards, pages and columns look. One that begins with `like: paperback` says only
what is to be otherwise; one that is like no other says everything. Greys are shares of black,
lengths have a unit: `mm`, `cm`, `in`, `pt` (72 to the inch) or `pc` (12 points).

The same puzzle in every sheet that comes with the program:
"""


@dataclass(frozen=True, slots=True)
class Group:
    """A mapping with keys: where it stands, its schema, and what an example has there."""

    path: tuple[str, ...]
    schema: Schema
    example: Any = None


def job_page() -> dict[str, str]:
    """The page of jobs."""
    parts = [JOB_HEAD]
    for name, kind in KINDS.items():
        first, *others = _groups(Group((), schema_of(kind)))
        parts += [f"## job: {name}\n", _table(first)]
        parts += [_section(group) for group in others]
    return {"jobs.md": "\n".join(parts)}


def style_page() -> dict[str, str]:
    """The page of style sheets, and a picture in each of them."""
    puzzle = read_puzzle(next(rule.example for rule in RULES if rule.name == SHOWN))
    names = shipped_style_names()
    shown = [f"![A puzzle in the sheet {name}](styles/{name}.svg)\n{name}\n" for name in names]
    parts = [STYLE_HEAD, '<div class="boards" markdown>\n', *shown, "</div>\n"]
    sheet = yaml.safe_load((shipped_styles() / f"{REFERENCE}.yaml").read_text(encoding="utf-8"))
    first, *others = _groups(Group((), style_schema(), sheet))
    parts += ["## The sheet\n", _table(first), *map(_section, others)]
    for name, kind in SHARED.items():
        parts += [f"## {name.capitalize()}\n", _table(Group((), schema_of(kind)))]
    pictures = {f"styles/{name}.svg": svg(draw(puzzle, name, width=50)) for name in names}
    return {"styles.md": "\n".join(parts), **pictures, **look_pictures()}


def _groups(group: Group) -> Iterator[Group]:
    """A mapping, then every one within it that is told in a section of its own."""
    yield group
    for key, each in group.schema["properties"].items():
        inner = _inner(each)
        if inner and _shared(inner) is None:
            path, example = (*group.path, key), (group.example or {}).get(key)
            yield from _groups(Group(path, {**each, **inner}, example))


def _inner(schema: Schema) -> Schema:
    """The keys of a value that is a mapping, one way or the other, or a list or a table of such."""
    ways = (schema, schema.get("items"), schema.get("additionalProperties"))
    known = [way for way in (*ways, *schema.get("oneOf", ())) if way and "properties" in way]
    if not known:
        return {}
    needed = set.intersection(*(set(way.get("required", ())) for way in known))
    return {
        "properties": {key: each for way in known for key, each in way["properties"].items()},
        "required": sorted(needed),
    }


def _shared(inner: Schema) -> str | None:
    """The name of a mapping that is told once for all."""
    for name, kind in SHARED.items():
        if inner["properties"] == schema_of(kind)["properties"]:
            return name
    return None


def _section(group: Group) -> str:
    """A mapping with its heading: what it is for, its keys, and the roles where it has some."""
    head = f"### {': '.join(group.path)}\n\n{_sentence(plain(group.schema['description']))}\n"
    roles = group.schema.get("propertyNames", {}).get("enum", ())
    if not roles:
        seen = [f"look-{name}" for name in PICTURES.get(group.path, ())]
        return f"{head}\n{_boards(seen, 'styles')}{_table(group)}"
    drawn = {role: _drawn()[group.path[-1], role] for role in roles}
    told = ", ".join(f"{role} ([{rule}](rules.md#{rule}))" for role, rule in drawn.items())
    table = _table(Group(group.path, group.schema))
    seen = list(dict.fromkeys(drawn.values()))
    return (
        f"{head}\nThe roles, and a rule that has each drawn: {told}.\n\n"
        f"{_boards(seen, 'rules')}{table}"
    )


def _boards(names: Sequence[str], folder: str) -> str:
    """Pictures beside each other; nothing where there are none."""
    shown = [f"![{name.removeprefix('look-')}]({folder}/{name}.svg)" for name in names]
    return "\n".join(['<div class="boards" markdown>', *shown, "</div>\n\n"]) if shown else ""


def _table(group: Group) -> str:
    """The keys of a mapping; those that must be there in bold."""
    example = {key: _as_written(each) for key, each in (group.example or {}).items()}
    known = any(example.values())
    rows = [["key", "what it does", *(["in paperback"] if known else [])]]
    rows.append(["---"] * len(rows[0]))
    for key, each in group.schema["properties"].items():
        if each == {"not": {}}:  # not in this version yet
            continue
        name = f"**{key}**" if key in group.schema.get("required", ()) else key
        does = "; ".join(filter(None, (plain(each["description"]), _kind(each), _default(each))))
        rows.append([name, _sentence(does), *([example.get(key, "")] if known else [])])
    return "\n".join(f"| {' | '.join(row)} |" for row in rows) + "\n"


def _kind(schema: Schema) -> str:
    """What may stand there."""
    inner = _inner(schema)
    if inner:
        shared = _shared(inner)
        named = [word for way in schema.get("oneOf", ()) for word in way.get("enum", ())]
        own = f"{_words(named)}, or with keys of its own" if named else "with keys of its own"
        return f"[{shared}](#{shared.replace(' ', '-')})" if shared else own
    if "items" in schema and "enum" in schema["items"]:
        return f"some of {_words(schema['items']['enum'])}"
    if "enum" in schema:
        return f"one of {_words(schema['enum'])}" if len(schema["enum"]) > 1 else ""
    if "minimum" in schema:
        return f"from {schema['minimum']} to {schema['maximum']}"
    return "`true` or `false`" if schema.get("type") == "boolean" else ""


def _default(schema: Schema) -> str:
    """What holds where nothing is said."""
    if "default" not in schema:
        return ""
    return f"{_as_written(schema['default'])} unless told"


def plain(text: str) -> str:
    """Words as they are, whatever Markdown takes a star or a bracket for."""
    return re.sub(r"([*_|`\[\]\\])", r"\\\1", text)


def _words(words: Sequence[object]) -> str:
    return ", ".join(map(_as_written, words))


def _as_written(value: object) -> str:
    """A value as it stands in YAML; nothing for one that has a section of its own."""
    if value is None or (isinstance(value, Mapping) and any(map(_is_deep, value.values()))):
        return ""
    text = yaml.safe_dump(value, default_flow_style=True, width=1000, sort_keys=False)
    return f"`{text.removesuffix(END).strip()}`"


def _is_deep(value: object) -> bool:
    return isinstance(value, Mapping)


def _sentence(text: str) -> str:
    """Words that begin with a capital and end with a full stop."""
    return f"{text[:1].upper()}{text[1:].rstrip('.')}."


@cache
def _drawn() -> dict[tuple[str, str], str]:
    """By kind of mark and role: a rule whose example has it drawn."""
    found: dict[tuple[str, str], str] = {}
    for rule in RULES:
        for mark in read_puzzle(rule.example).marks():
            if type(mark) in ROLES:
                found.setdefault((ROLES[type(mark)], mark.role), rule.name)
    return found
