"""Lengths with their units, and shares: what is read, and what is told."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layout.lengths import MILLIMETRES, Length, Share, millimetres
from verify.manifest.yaml_text import tree_of
from verify.reading.problems import Problems


def read(value, text):
    problems = Problems()
    found = value.read(tree_of(text, "gauge.yaml", problems), problems)
    return found, [str(problem) for problem in problems.found]


@pytest.mark.parametrize(
    ("value", "text", "expected"),
    [
        (Length(1, 50), "9pt", 3.175),
        (Length(1, 50), "1in", 25.4),
        (Length(1, 50), "50mm", 50),
        (Share(10, 90), "25%", 0.25),
        (Share(10, 90), "90 %", 0.9),
    ],
)
def test_lengths_and_shares_are_read(value, text, expected):
    assert read(value, text) == (pytest.approx(expected), [])
    assert re.search(value.schema()["pattern"], text)


A_LENGTH = "a length from 1mm to 50mm, such as 3mm or 9pt"
A_SHARE = "a percentage from 10% to 90%"


@pytest.mark.parametrize(
    ("value", "text", "found", "expected"),
    [
        (Length(1, 50), "9", '"9"', A_LENGTH),
        (Length(1, 50), "9 furlongs", '"9 furlongs"', A_LENGTH),
        (Length(1, 50), "51mm", '"51mm"', A_LENGTH),
        (Length(1, 50), "0.9mm", '"0.9mm"', A_LENGTH),
        (Length(1, 50), "{a: 1}", "a mapping", A_LENGTH),
        (Share(10, 90), "95%", '"95%"', A_SHARE),
        (Share(10, 90), "9%", '"9%"', A_SHARE),
        (Share(10, 90), "0.5", '"0.5"', A_SHARE),
    ],
)
def test_what_is_no_length_and_no_share_is_told(value, text, found, expected):
    told = [f"gauge.yaml:1:1: found {found}, expected {expected}"]
    assert read(value, text) == (None, told)


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
