"""Trim sizes, languages and the other values of a job."""

import pytest

from layout.jobs.common.values import (
    TRIMS,
    Language,
    OneOf,
    OutputPath,
    TrimSize,
)
from verify.reading.node import Place, Text
from verify.reading.problems import Problems

HERE = Place("book.yaml", 3, 7)


def read(value, text):
    problems = Problems()
    node = Text(HERE, text, ((HERE, text),))
    return value.read(node, problems), [str(problem) for problem in problems.found]


# ISO 216:2007, tables of the A and B series, in millimetres
ISO_216 = {
    "A0": (841, 1189),
    "A1": (594, 841),
    "A2": (420, 594),
    "A3": (297, 420),
    "A4": (210, 297),
    "A5": (148, 210),
    "A6": (105, 148),
    "A7": (74, 105),
    "A8": (52, 74),
    "A9": (37, 52),
    "A10": (26, 37),
    "B0": (1000, 1414),
    "B1": (707, 1000),
    "B2": (500, 707),
    "B3": (353, 500),
    "B4": (250, 353),
    "B5": (176, 250),
    "B6": (125, 176),
    "B7": (88, 125),
    "B8": (62, 88),
    "B9": (44, 62),
    "B10": (31, 44),
}


@pytest.mark.parametrize(("name", "size"), ISO_216.items())
def test_iso_sizes(name, size):
    assert TRIMS[name] == size


@pytest.mark.parametrize(
    ("text", "width", "height"),
    [
        ("A5", 148, 210),
        ("a5", 148, 210),
        ("letter", 215.9, 279.4),
        ("half-letter", 139.7, 215.9),
        ("6x9in", 152.4, 228.6),
        ("6 x 9 in", 152.4, 228.6),
        ("6in x 9in", 152.4, 228.6),
        ("5.5×8.5in", 139.7, 215.9),
        ("148x210mm", 148, 210),
        ("14.8x21cm", 148, 210),
        ("432x648pt", 152.4, 228.6),
    ],
)
def test_trims(text, width, height):
    trim, problems = read(TrimSize(), text)
    assert problems == []
    assert (trim.width, trim.height) == pytest.approx((width, height))


@pytest.mark.parametrize(
    "text", ["", "A11", "6x9", "6xin", "9in", "1x2mm", "A0", "9e9x9e9mm", "...x9mm", "600x600mm"]
)
def test_trims_that_are_none(text):
    trim, problems = read(TrimSize(), text)
    assert trim is None
    assert len(problems) == 1
    assert problems[0].startswith("book.yaml:3:7: ")


@pytest.mark.parametrize("text", ["en", "en-GB", "en-US", "de", "de-AT"])
def test_languages(text):
    assert read(Language(), text) == (text, [])


@pytest.mark.parametrize("text", ["", "EN", "xx", "english", "en_GB", "../en"])
def test_languages_that_are_none(text):
    value, problems = read(Language(), text)
    assert value is None
    assert "expected de or en, with a region" in problems[0]


def test_numbers_and_names():
    assert read(OneOf((1, 2, 4, 6)), "4") == (4, [])
    assert "1, 2, 4 or 6" in read(OneOf((1, 2, 4, 6)), "3")[1][0]
    assert read(OutputPath(), "build/book.pdf") == ("build/book.pdf", [])
    assert read(OutputPath(), "book.txt")[0] is None
