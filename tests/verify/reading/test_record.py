"""Mappings of a file as frozen dataclasses: what is read, and what is told."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Annotated, Literal

import jsonschema
import pytest

from layout.lengths import Length, Share
from verify.manifest.yaml_text import tree_of
from verify.reading.problems import Problems
from verify.reading.record import Number, read_record, schema_of, value_of


@dataclass(frozen=True)
class Gauge:
    """A tide gauge, for the tests."""

    name: str
    height: Annotated[float, Number(1, 50)]
    marks: Annotated[int, Number(1, 9, whole=True)] = 3
    weight: Annotated[float, Number(0, 2.5)] = 1.0
    kind: Literal["staff", "float"] = "staff"
    lit: bool = False
    from_: str = ""


@dataclass(frozen=True)
class Station:
    """Several of them."""

    first_gauge: Gauge
    others: tuple[Gauge, ...] = ()
    by_name: Mapping[str, Gauge] = field(default_factory=dict)
    keeper: str | None = None


def read(text, kind=Gauge):
    problems = Problems()
    value = read_record(tree_of(text, "gauge.yaml", problems), kind, problems)
    return value, [str(problem) for problem in problems.found]


def test_everything_is_read():
    text = """\
name: Low Sluice
height: 3.175
marks: 4
weight: 1.5
kind: float
lit: true
from: Saltmarsh
"""
    gauge, problems = read(text)
    assert problems == []
    assert gauge == Gauge("Low Sluice", 3.175, 4, 1.5, "float", True, "Saltmarsh")


def test_what_has_a_default_may_be_left_out():
    assert read("{name: Low, height: 25}") == (Gauge("Low", 25.0), [])


def test_nested_records_lists_and_tables():
    text = """\
first-gauge: {name: a, height: 2}
others: [{name: b, height: 3}, {name: c, height: 4}]
by-name: {high: {name: d, height: 5}}
keeper: Ida Marsh
"""
    station, problems = read(text, Station)
    assert problems == []
    assert station == Station(
        Gauge("a", 2), (Gauge("b", 3), Gauge("c", 4)), {"high": Gauge("d", 5)}, "Ida Marsh"
    )


SLIPS = [
    ("height: 9 furlongs", "2:9", '"9 furlongs"', "a number from 1 to 50"),
    ("height: 51", "2:9", '"51"', "a number from 1 to 50"),
    ("height: 2\nmarks: 2.5", "3:8", '"2.5"', "a whole number from 1 to 9"),
    ("height: 2\nmarks: 10", "3:8", '"10"', "a whole number"),
    ("height: 2\nweight: nan", "3:9", '"nan"', "a number from 0 to 2.5"),
    ("height: 2\nweight: 1e9", "3:9", '"1e9"', "a number"),
    ("height: 2\nlit: yes", "3:6", '"yes"', "true or false"),
    ("height: 2\nlit: [1]", "3:6", "a list", "true or false"),
    ("height: 2\nkind: staf", "3:7", '"staf"', '"staff"'),
    ("height: 2\nhieght: 3mm", "3:1", '"hieght"', '"height"'),
    ("height: {a: 1}", "2:9", "a mapping", "a number"),
]


@pytest.mark.parametrize(("rest", "place", "found", "expected"), SLIPS)
def test_a_slip_is_told_with_its_place(rest, place, found, expected):
    _, (problem,) = read(f"name: Low\n{rest}\n")
    assert problem.startswith(f"gauge.yaml:{place}: ")
    assert found in problem
    assert expected in problem


def test_a_missing_key_is_told():
    gauge, problems = read("name: Low")
    assert gauge is None
    assert problems == ['gauge.yaml:1:1: the key "height" is missing']


def test_an_empty_or_endless_text_is_told():
    assert "expected text" in read("{name: '', height: 2}")[1][0]
    assert "at most 500 characters" in read(f"{{name: {'x' * 501}, height: 2}}")[1][0]


def test_every_problem_of_a_file_is_told_at_once():
    text = "first-gauge: {name: a}\nothers: [{height: 1}, 3]\nby-name: []\nkeepr: x\n"
    assert len(read(text, Station)[1]) == 5


def test_the_schema_allows_what_is_read_and_nothing_else():
    schema = schema_of(Station)
    good = {"first-gauge": {"name": "a", "height": 2, "lit": True, "from": "b"}, "others": []}
    jsonschema.validate(good, schema)
    for wrong in ({}, {**good, "keepr": "x"}, {**good, "others": [{"name": "a"}]}):
        with pytest.raises(jsonschema.ValidationError):
            jsonschema.validate(wrong, schema)


@dataclass(frozen=True)
class Told:
    """Keys that say what they do, with and without a way to be read of their own."""

    gauge: Annotated[Gauge, "where it is read"]
    depth: Annotated[float, Length(1, 50), "how deep it is"]
    silent: bool = True
    share: Annotated[float, Share(10, 90, "the tide"), "how much is left"] = 0.5
    count: Annotated[int, Number(1, 9, whole=True), "none unless told"] = 0
    kind: Annotated[Literal["staff", "float"] | None, "what floats"] = None
    name: Annotated[str, "its name"] = "Low"


def test_a_schema_tells_what_keys_do_what_their_values_are_and_their_defaults():
    told = {
        key: (each.get("description"), each.get("default"))
        for key, each in schema_of(Told)["properties"].items()
    }
    assert told == {
        "gauge": ("where it is read", None),
        "depth": ("how deep it is; a length from 1mm to 50mm, such as 3mm or 9pt", None),
        "silent": (None, True),
        "share": ("how much is left; a percentage from 10% to 90% of the tide", None),
        "count": ("none unless told", None),
        "kind": ("what floats", None),
        "name": ("its name", "Low"),
    }


def test_a_percentage_that_is_none_is_told_with_what_it_is_a_share_of():
    text = "{gauge: {name: a, height: 2}, depth: 2mm, share: 95%, silent: false}"
    (problem,) = read(text, Told)[1]
    assert problem.endswith("expected a percentage from 10% to 90% of the tide")


def test_a_type_that_says_nothing_is_a_defect():
    with pytest.raises(TypeError, match="no way to read"):
        value_of(complex)
