"""The schemas of sketches and plans: one with the code, and agreed with what is read."""

import json
from typing import Any

import jsonschema
import pytest
import yaml

from tests.support.checkout import BOOKS
from verify.compose import schema as sketches
from verify.compose.series import schema as plans
from verify.compose.series.plan import read_plan
from verify.compose.sketch import sketch_from_text
from verify.reading.problems import Unreadable

HEAD = "kind: latin\nsize: 4\n"
SCHEMAS = {"sketch": sketches.sketch_schema(), "plan": plans.plan_schema()}


def refused(name: str, text: str) -> bool:
    data: Any = yaml.safe_load(text)
    return not jsonschema.Draft202012Validator(SCHEMAS[name]).is_valid(data)


@pytest.mark.parametrize("module", [sketches, plans])
def test_the_shipped_schema_is_the_one_of_the_code(module: Any) -> None:
    """Refresh it with `python -m` and the module's name."""
    assert module.SHIPPED.read_text(encoding="utf-8") == module.schema_text()
    jsonschema.Draft202012Validator.check_schema(json.loads(module.schema_text()))


def test_all_of_the_demo_books_is_taken() -> None:
    valid = jsonschema.Draft202012Validator(SCHEMAS["sketch"]).is_valid
    for path in BOOKS.glob("*/sketches/*/*.yaml"):
        assert valid(yaml.safe_load(path.read_text(encoding="utf-8"))), path
    for path in BOOKS.glob("*/plan.yaml"):
        assert not refused("plan", path.read_text(encoding="utf-8")), path


@pytest.mark.parametrize(
    ("want", "bad"),
    [
        ("{grade: steady, givens: 6, symmetry: mirror, uses: [naked pair], bare: true}", False),
        ("{reads: {r1c1: 2}, avoids: [short if]}", False),
        ("{grade: easy}", True),
        ("{givens: -1}", True),
        ("{uses: [guess]}", True),
        ("{bars: true}", True),
    ],
)
def test_a_sketch_is_refused_as_it_is_read(want: str, *, bad: bool) -> None:
    text = f"{HEAD}want: {want}\n"
    assert refused("sketch", text) == bad
    if bad:
        with pytest.raises(Unreadable):
            sketch_from_text(text, "sketch.yaml")
    else:
        sketch_from_text(text, "sketch.yaml")


@pytest.mark.parametrize(
    ("text", "bad"),
    [
        ("puzzles: [{kind: arrow, count: 3, motif: fans, into: a/b}]", False),
        ("puzzles: [{count: 3, size: 4, into: a.txt}]\nseed: 5", False),
        ("seed: 5", True),
        ("puzzles: [{kind: arrows, count: 3}]", True),
        ("puzzles: [{count: 0}]", True),
        ("puzzles: [{count: 1, into: ../a}]", True),
        ("puzzles: [{count: 1}]\nsketch: [a]", True),
    ],
)
def test_a_plan_is_refused_as_it_is_read(tmp_path: Any, text: str, *, bad: bool) -> None:
    assert refused("plan", text) == bad
    path = tmp_path / "plan.yaml"
    path.write_text(text + "\n", encoding="utf-8")
    if bad:
        with pytest.raises(Unreadable):
            read_plan(path)
    else:
        read_plan(path)
