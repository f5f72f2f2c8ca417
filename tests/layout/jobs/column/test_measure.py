"""Column tables of newspapers, held against those that papers print, and measures as editors write
them. Both tables are from memory: no source is at hand."""

from fractions import Fraction
from math import inf

import pytest

from layout.jobs.column.measure import (
    MEASURES,
    Depth,
    Measure,
    NoWidth,
    PaperMeasure,
    even_measure,
    measure_of,
    picture_width,
)
from verify.manifest.yaml_text import tree_of
from verify.reading.problems import Problems

# Widths of the US standard advertising unit in inches, in fractions as papers print them (from
# memory).
US_STANDARD = ["2 1/16", "4 1/4", "6 7/16", "8 5/8", "10 13/16", "13"]


def inches(text):
    return float(sum(Fraction(part) for part in text.split()))


def read(value, text):
    problems = Problems()
    node = tree_of(text, "daily.yaml", problems)
    return value.read(node, problems), [str(problem) for problem in problems.found]


def test_the_us_standard_table():
    widths = [MEASURES["us-standard"].over(columns) for columns in range(1, 7)]
    assert widths == pytest.approx([inches(text) * 25.4 for text in US_STANDARD], abs=1e-6)


def test_the_table_of_a_50_inch_web():
    # Widths in inches; common practice, from memory.
    widths = [width / 25.4 for width in MEASURES["us-50-inch-web"].widths]
    assert widths == pytest.approx([1.833, 3.792, 5.75, 7.708, 9.667, 11.625], abs=0.0005)


@pytest.mark.parametrize(("columns", "width"), [(1, 52), (2, 108), (3, 164)])
def test_columns_and_the_gutters_between_them(columns, width):
    assert even_measure(52, 4).over(columns) == width


@pytest.mark.parametrize("columns", [0, -1, 7, 999])
def test_a_paper_has_only_so_many_columns(columns):
    with pytest.raises(NoWidth, match=f"found {columns} columns, expected from 1 to 6"):
        MEASURES["us-standard"].over(columns)


@pytest.mark.parametrize(
    ("text", "widths"),
    [
        ("us-standard", MEASURES["us-standard"].widths),
        ("{column: 52mm, gutter: 4mm}", even_measure(52, 4).widths),
        ("{column: 2in, gutter: 0mm}", even_measure(50.8, 0).widths),
        ("{widths: [50mm, 103.5mm, 157mm]}", (50, 103.5, 157)),
    ],
)
def test_a_measure_is_read(text, widths):
    measure, problems = read(PaperMeasure(), text)
    assert problems == []
    assert measure.widths == pytest.approx(widths)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("us-standrd", 'did you mean "us-standard"?'),
        ("[52mm]", "mapping"),
        ("''", "mapping"),
        ("{column: 52mm}", '"gutter" is missing'),
        ("{column: 52, gutter: 4mm}", "such as 3mm"),
        ("{column: 5mm, gutter: 4mm}", "20mm"),
        ("{column: 52mm, gutter: 400mm}", "50mm"),
        ("{widths: []}", "1 to 16 widths"),
        ("{widths: [50mm, 50mm]}", "each larger"),
    ],
)
def test_a_measure_that_can_t_be_read_is_told_at_its_place(text, said):
    measure, (problem, *_) = read(PaperMeasure(), text)
    assert measure is None
    assert problem.startswith("daily.yaml:1:")
    assert said in problem


def test_a_table_with_a_gutter_is_told():
    _, (problem,) = read(PaperMeasure(), "{widths: [50mm], gutter: 4mm}")
    assert '"gutter"' in problem


def test_a_table_never_grows_beyond_what_can_be_drawn():
    assert max(even_measure(900, 50).widths) <= 1000
    assert even_measure(900, 50).widths


@pytest.mark.parametrize(("text", "depth"), [("as-needed", inf), ("160mm", 160), ("6in", 152.4)])
def test_a_depth_is_read(text, depth):
    found, problems = read(Depth(), text)
    assert (found, problems) == (pytest.approx(depth), [])


@pytest.mark.parametrize(
    ("text", "said"), [("deep", "as-needed"), ("160", "160mm"), ("5mm", "20mm"), ("[]", "20mm")]
)
def test_a_depth_that_can_t_be_read_is_told(text, said):
    depth, (problem,) = read(Depth(), text)
    assert depth is None
    assert said in problem


@pytest.mark.parametrize(
    ("columns", "measure", "width", "wide"),
    [(None, None, 108.0, 108), (2, even_measure(52, 4), None, 108), (1, Measure((49,)), None, 49)],
)
def test_a_width_is_told_one_way_or_the_other(columns, measure, width, wide):
    assert picture_width(columns, measure, width) == wide


@pytest.mark.parametrize(
    ("columns", "measure", "width", "key"),
    [
        (None, None, None, "columns"),
        (2, None, None, "columns"),
        (None, even_measure(52, 4), None, "columns"),
        (2, None, 108.0, "width"),
        (None, even_measure(52, 4), 108.0, "width"),
        (3, Measure((49, 102)), None, "columns"),
    ],
)
def test_too_little_and_too_much_are_told_at_the_key(columns, measure, width, key):
    with pytest.raises(NoWidth) as error:
        picture_width(columns, measure, width)
    assert error.value.key == key


def test_measures_of_a_command_line():
    assert measure_of("us-standard") is MEASURES["us-standard"]
    assert measure_of("52mm, 4mm").over(2) == 108
    assert measure_of("2.0625in,0.125in").over(2) == pytest.approx(107.95)


@pytest.mark.parametrize("text", ["", "52mm", "52,4", "5mm,4mm", "52mm,-1mm", "52mm,4mm,3mm", "us"])
def test_other_words_of_a_command_line_are_refused(text):
    with pytest.raises(NoWidth, match="expected"):
        measure_of(text)
