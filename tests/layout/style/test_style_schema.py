"""The JSON Schema of style sheets: what is read it allows, and every key says what it does."""

import copy
import json

import jsonschema
import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.command import main
from layout.jobs.schema import job_schema
from layout.shipped import shipped_styles
from layout.style.schema import SHIPPED, schema_text, style_schema
from layout.style.style import shipped_style_names, style_of
from verify.reading.problems import Unreadable

SCHEMA = style_schema()

PAPERBACK = yaml.safe_load((shipped_styles() / "paperback.yaml").read_text(encoding="utf-8"))


def paths_of(tree, path=()):
    """The path of every key."""
    for key, value in tree.items():
        yield (*path, key)
        if isinstance(value, dict):
            yield from paths_of(value, (*path, key))


PATHS = sorted(paths_of(PAPERBACK))


def allows(sheet):
    return jsonschema.Draft202012Validator(SCHEMA).is_valid(sheet)


def told(tmp_path_factory, sheet):
    """What the reader says of a sheet."""
    path = tmp_path_factory.getbasetemp() / "sheet.yaml"
    path.write_text(yaml.safe_dump(sheet), encoding="utf-8")
    try:
        style_of(path, "sheet.yaml")
    except Unreadable as unreadable:
        return [problem.message for problem in unreadable.problems]
    return []


def changed(path, change):
    """The paperback's sheet, where something is done to the table that a key stands in."""
    sheet = copy.deepcopy(PAPERBACK)
    table = sheet
    for key in path[:-1]:
        table = table[key]
    change(table, path[-1])
    return sheet


def test_the_shipped_schema_is_the_one_that_is_read_by(capsys):
    """Refresh it with `python -m layout.style.schema`."""
    assert SHIPPED.read_text(encoding="utf-8") == schema_text()
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    assert main(["rules", "--schema", "style"]) == 0
    assert json.loads(capsys.readouterr().out) == SCHEMA


@pytest.mark.parametrize("name", shipped_style_names())
def test_every_shipped_sheet_is_allowed(name):
    assert allows(yaml.safe_load((shipped_styles() / f"{name}.yaml").read_text(encoding="utf-8")))


def test_a_sheet_like_another_may_say_as_little_as_it_wants():
    assert allows({"like": "newsprint"})
    assert allows({"like": "newsprint", "page": {"binding": {"leaf": "0.1mm"}}})
    look = {"trails": {"thermometer": {"width": {"least": "1pt"}}}}
    assert allows({"like": "newsprint", "board": {"marks": look}})
    assert not allows({"page": {"binding": {"leaf": "0.1mm"}}})


@pytest.mark.parametrize(
    "sheet",
    [
        [],
        {},
        {"like": "newsprinted"},
        {"like": "newsprint", "bord": {}},
        {"like": "newsprint", "board": {"digits": {"hieght": "40%"}}},
        {"like": "newsprint", "board": {"digits": {"height": 40}}},
        {"like": "newsprint", "board": {"digits": {"height": "-4%"}}},
        {"like": "newsprint", "board": {"digits": {"helper-height": "4%"}}},
        {"like": "newsprint", "board": {"marks": {"trails": {"thermometr": {}}}}},
        {"like": "newsprint", "board": {"marks": {"trials": {}}}},
        {"like": "newsprint", "page": {"gap": "8"}},
        {"like": "newsprint", "page": {"gap": "8 furlongs"}},
        {"like": "newsprint", "page": {"justified": "yes"}},
        {"like": "newsprint", "page": {"faces": {"folio": {"font": ["Fira Sans"]}}}},
    ],
)
def test_what_is_spoiled_the_schema_and_the_reader_refuse(sheet, tmp_path_factory):
    assert not allows(sheet)
    assert told(tmp_path_factory, sheet)


@settings(max_examples=50, deadline=None)
@given(st.sampled_from(PATHS))
def test_a_key_that_is_missing_is_refused_where_the_reader_misses_it(tmp_path_factory, path):
    sheet = changed(path, lambda table, key: table.pop(key))
    missing = any("is missing" in problem for problem in told(tmp_path_factory, sheet))
    assert allows(sheet) != missing


@settings(deadline=None)
@given(st.sampled_from(PATHS))
def test_a_key_that_nobody_knows_is_refused_wherever_it_stands(path):
    assert not allows(changed(path, lambda table, key: table.update({f"{key}-of-old": "4%"})))


def undescribed(schema, path=""):
    """The keys that may be written and say nothing of what they do."""
    for key, each in schema.get("properties", {}).items():
        if each != {"not": {}} and not each.get("description"):
            yield f"{path}.{key}"
        yield from undescribed(each, f"{path}.{key}")
    for inner in (
        schema.get("additionalProperties"),
        schema.get("items"),
        *schema.get("oneOf", ()),
    ):
        if isinstance(inner, dict):
            yield from undescribed(inner, path)


@pytest.mark.parametrize("schema", [SCHEMA, job_schema()], ids=["style", "job"])
def test_every_key_says_what_it_does(schema):
    assert list(undescribed(schema)) == []


def test_a_description_tells_what_a_key_does_and_its_unit():
    digits = SCHEMA["properties"]["board"]["properties"]["digits"]["properties"]
    assert digits["height"]["description"] == (
        "the height of a figure; a percentage from 0% to 100% of a cell's side"
    )
    gap = SCHEMA["properties"]["page"]["properties"]["gap"]["description"]
    assert gap.endswith("; a length from 1mm to 50mm, such as 3mm or 9pt")
