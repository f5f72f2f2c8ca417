from typing import Any

import jsonschema
import pytest
import yaml

from verify.manifest.blank import new_manifest
from verify.manifest.fields import FIELDS
from verify.manifest.schema import SHIPPED, puzzle_schema, schema_text
from verify.rules import RULES

VALIDATOR = jsonschema.Draft202012Validator(puzzle_schema())


class CoreLoader(yaml.SafeLoader):
    """YAML as editors' programs read it: numbers and truth values, but dates stay text."""


CoreLoader.yaml_implicit_resolvers = {
    first: [(tag, pattern) for tag, pattern in resolvers if not tag.endswith(":timestamp")]
    for first, resolvers in yaml.SafeLoader.yaml_implicit_resolvers.items()
}


def told(text: str) -> list[str]:
    """The paths of what the schema refuses."""
    data: Any = yaml.load(text, CoreLoader)
    return ["/".join(map(str, error.absolute_path)) for error in VALIDATOR.iter_errors(data)]


def test_the_shipped_schema_is_the_one_of_the_code() -> None:
    """Refresh it with `python -m verify.manifest.schema`."""
    assert SHIPPED.read_text(encoding="utf-8") == schema_text()


def test_the_schema_is_one() -> None:
    jsonschema.Draft202012Validator.check_schema(puzzle_schema())


def test_it_has_every_field_and_every_rule() -> None:
    properties = puzzle_schema()["properties"]
    assert set(properties) == set(FIELDS)
    assert set(properties["rules"]["properties"]) == {rule.name for rule in RULES}


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_it_accepts_each_rules_example(rule: Any) -> None:
    assert told(rule.example) == []


def test_it_accepts_a_new_manifest_and_words_of_any_look() -> None:
    assert told(new_manifest("slack-water")) == []
    assert told("kind: latin\nsize: 4\ntitle: 1984\ndate: 2027-01-04\nid: 7\nnote: no\n") == []
    assert told("kind: latin\nsize: 4\nsymbols: 2345\n") == []
    assert told("kind: latin\nsize: 4\nsymbols: [2, 3, x, 10]\nboxes: 2x2\n") == []
    assert told("kind: latin\nsize: 9\nrules: {even: [R1C1, r2c1..r2c3, r4c4 2ne]}\n") == []


@pytest.mark.parametrize(
    ("line", "path"),
    [
        ("titel: x", ""),
        ("boxes: 3", "boxes"),
        ("rules: {termometer: [r1c1 e]}", "rules"),
        ("rules: {thermometer: r1c1 e}", "rules/thermometer"),
        ("rules: {thermometer: [r1c1 nn]}", "rules/thermometer/0"),
        ("rules: {even: r1c1..}", "rules/even"),
        ("rules: {rows: false}", "rules/rows"),
        ("givens: [1]", "givens"),
    ],
)
def test_it_refuses_what_the_reader_refuses(line: str, path: str) -> None:
    assert told(f"kind: blank\nsize: 4\n{line}\n") == [path]


@pytest.mark.parametrize("text", ["kind: sudoku\n", "size: 9\n", "kind: x\nsize: 9\n",
                                  "kind: sudoku\nsize: 26\n", "[]"])  # fmt: skip
def test_it_asks_for_kind_and_size(text: str) -> None:
    assert len(told(text)) == 1
