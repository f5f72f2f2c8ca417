"""What makes the handbook's pages: nothing is left out, and all of it fits its tables."""

import importlib
import re

import pytest

from layout.jobs.schema import job_schema
from layout.style.schema import style_schema
from layout.style.style import shipped_style_names
from tests.support.checkout import ROOT
from verify import RULES


@pytest.fixture
def made(monkeypatch):
    """A module of the handbook."""
    monkeypatch.syspath_prepend(ROOT / ".docs")
    return importlib.import_module


def keys_of(schema):
    """Every key that may be written, however deep."""
    for key, each in schema.get("properties", {}).items():
        if each != {"not": {}}:
            yield key
            yield from keys_of(each)
    for inner in (
        schema.get("additionalProperties"),
        schema.get("items"),
        *schema.get("oneOf", ()),
    ):
        if isinstance(inner, dict):
            yield from keys_of(inner)


def test_every_rule_is_told_and_drawn(made):
    pages = made("rule_pages").rules_page()
    told = pages.pop("rules.md")
    assert re.findall("^## (.+)$", told, re.M) == [rule.name for rule in RULES]
    assert set(re.findall(r"\]\((.+?\.svg)\)", told)) == set(pages)
    assert len(pages) == 2 * len(RULES)
    assert all(page.startswith("<?xml") for page in pages.values())


@pytest.mark.parametrize(
    ("page", "name", "schema"),
    [("job_page", "jobs.md", job_schema()), ("style_page", "styles.md", style_schema())],
)
def test_every_key_is_told_in_a_table(made, page, name, schema):
    text = getattr(made("key_pages"), page)()[name]
    rows = [line.split(" | ") for line in text.splitlines() if line.startswith("| ")]
    assert {row[0].strip("|* ") for row in rows} == {*keys_of(schema), "key", "---"}
    assert all(len(row) in (2, 3) for row in rows)


def test_every_role_leads_to_a_rule_and_every_sheet_is_drawn(made):
    pages = made("key_pages").style_page()
    roles = style_schema()["properties"]["board"]["properties"]["marks"]["properties"]
    for table in roles.values():
        for role in table["propertyNames"]["enum"]:
            assert re.search(rf"[ ]{role} \(\[[a-z-]+\]\(rules\.md#[a-z-]+\)\)", pages["styles.md"])
    sheets = {f"styles/{name}.svg" for name in shipped_style_names()}
    looks = {name for name in pages if name.startswith("styles/look-")}
    assert pages.keys() - {"styles.md"} == sheets | looks
    shown = set(re.findall(r"!\[.*?\]\((styles/.+?\.svg)\)", pages["styles.md"]))
    assert shown == sheets | looks
    assert len(looks) == 8
    assert all(pages[name].startswith("<?xml") for name in shown)


def test_words_stay_as_they_are(made):
    assert made("key_pages").plain("*x* [a](b) | `c` \\") == r"\*x\* \[a\](b) \| \`c\` \\"
