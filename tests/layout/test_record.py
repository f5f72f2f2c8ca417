"""Mappings of a file as frozen dataclasses: what is read, and what is told."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Annotated, Literal

import jsonschema
import pytest
from hypothesis import given
from hypothesis import strategies as st

from layout.record import (
    MILLIMETRES,
    Length,
    Number,
    Share,
    millimetres,
    read_record,
    schema_of,
    value_of,
)
from verify.manifest.yaml_text import tree_of
from verify.reading.problems import Problems


@dataclass(frozen=True)
class Gauge:
    """A tide gauge, for the tests."""

    name: str
    height: Annotated[float, Length(1, 50)]
    share: Annotated[float, Share(10, 90)] = 0.5
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
height: 9pt
share: 25%
marks: 4
weight: 1.5
kind: float
lit: true
from: Saltmarsh
"""
    gauge, problems = read(text)
    assert problems == []
    assert gauge == Gauge("Low Sluice", 3.175, 0.25, 4, 1.5, "float", True, "Saltmarsh")


def test_what_has_a_default_may_be_left_out():
    assert read("{name: Low, height: 1in}") == (Gauge("Low", 25.4), [])


def test_nested_records_lists_and_tables():
    text = """\
first-gauge: {name: a, height: 2mm}
others: [{name: b, height: 3mm}, {name: c, height: 4mm}]
by-name: {high: {name: d, height: 5mm}}
keeper: Ida Marsh
"""
    station, problems = read(text, Station)
    assert problems == []
    assert station == Station(
        Gauge("a", 2), (Gauge("b", 3), Gauge("c", 4)), {"high": Gauge("d", 5)}, "Ida Marsh"
    )


SLIPS = [
    ("height: 9", "2:9", '"9"', "a length from 1mm to 50mm"),
    ("height: 9 furlongs", "2:9", '"9 furlongs"', "a length"),
    ("height: 51mm", "2:9", '"51mm"', "a length"),
    ("height: 2mm\nshare: 95%", "3:8", '"95%"', "a percentage from 10% to 90%"),
    ("height: 2mm\nshare: 0.5", "3:8", '"0.5"', "a percentage"),
    ("height: 2mm\nmarks: 2.5", "3:8", '"2.5"', "a whole number from 1 to 9"),
    ("height: 2mm\nmarks: 10", "3:8", '"10"', "a whole number"),
    ("height: 2mm\nweight: nan", "3:9", '"nan"', "a number from 0 to 2.5"),
    ("height: 2mm\nweight: 1e9", "3:9", '"1e9"', "a number"),
    ("height: 2mm\nlit: yes", "3:6", '"yes"', "true or false"),
    ("height: 2mm\nlit: [1]", "3:6", "a list", "true or false"),
    ("height: 2mm\nkind: staf", "3:7", '"staf"', '"staff"'),
    ("height: 2mm\nhieght: 3mm", "3:1", '"hieght"', '"height"'),
    ("height: {a: 1}", "2:9", "a mapping", "a length"),
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
    assert "expected text" in read("{name: '', height: 2mm}")[1][0]
    assert "at most 500 characters" in read(f"{{name: {'x' * 501}, height: 2mm}}")[1][0]


def test_every_problem_of_a_file_is_told_at_once():
    text = "first-gauge: {name: a}\nothers: [{height: 1mm}, 3]\nby-name: []\nkeepr: x\n"
    assert len(read(text, Station)[1]) == 5


@given(st.floats(0, 1e6, allow_nan=False), st.sampled_from(sorted(MILLIMETRES)))
def test_lengths_in_every_unit(number, unit):
    assert millimetres(f"{number:.4f}{unit}") == pytest.approx(
        round(number, 4) * MILLIMETRES[unit], abs=1e-4
    )


def test_units_agree():
    """1 in = 25.4 mm = 72 pt = 6 pc (ISO 32000-1, 8.3.2.3; 12 pt make a pica)."""
    assert millimetres("72pt") == pytest.approx(25.4)
    assert millimetres("6 pc") == pytest.approx(25.4)
    assert millimetres("2.54cm") == pytest.approx(25.4)
    for wrong in ("", "mm", "3", "3 mmm", "1e3mm", "- 3mm", "3mm4"):
        assert millimetres(wrong) is None


def test_the_schema_allows_what_is_read_and_nothing_else():
    schema = schema_of(Station)
    good = {"first-gauge": {"name": "a", "height": "2mm", "lit": True, "from": "b"}, "others": []}
    jsonschema.validate(good, schema)
    for wrong in ({}, {**good, "keepr": "x"}, {**good, "others": [{"name": "a"}]}):
        with pytest.raises(jsonschema.ValidationError):
            jsonschema.validate(wrong, schema)


def test_a_type_that_says_nothing_is_a_defect():
    with pytest.raises(TypeError, match="no way to read"):
        value_of(complex)
