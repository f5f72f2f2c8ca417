"""One day's column: its width in every format, its order, its words, and what it refuses."""

from dataclasses import replace
from datetime import date
from io import BytesIO
from itertools import cycle, product

import pypdf
import pytest
from PIL import Image

from layout.jobs.column.measure import MEASURES, even_measure
from layout.language.words import languages
from layout.pages.column.column import SHOW, Previous
from layout.pages.common.misfit import Misfits
from layout.picture.items import Fill, Stroke, Text
from layout.writers.pdf import pdf_of_picture
from layout.writers.raster import pixels, png_of_picture, tiff_of_picture
from layout.writers.svg import svg_of_picture
from tests.support.books import manifest, rule_examples
from tests.support.columns import CLASSIC, SMALL, day_of, flat, picture_of, printed_column
from tests.support.drawn import POINT, STYLES, svg_of
from tests.support.drawn_marks import LEFT, TOP, with_marks
from verify.manifest.read import puzzle_from_text
from verify.walk.report.grade import Band

WIDTHS = [52.0, 108.0, 164.0, *MEASURES["us-standard"].widths[:3], even_measure(49, 4).over(2)]
FOUR = manifest(1)


@pytest.mark.parametrize("width", WIDTHS)
def test_all_formats_are_as_wide_as_the_columns(width):
    """To a tenth of a millimetre, and raster images to the pixel."""
    picture = picture_of(day_of(), width)
    root = svg_of(svg_of_picture(picture))
    assert float(root.get("width").removesuffix("mm")) == pytest.approx(width, abs=0.01)
    assert float(root.get("viewBox").split()[2]) == pytest.approx(width, abs=0.01)
    box = pypdf.PdfReader(BytesIO(pdf_of_picture(picture))).pages[0].trimbox
    assert float(box.width) * POINT == pytest.approx(width, abs=0.01)
    for make in (png_of_picture, tiff_of_picture):
        image = Image.open(BytesIO(make(picture, 300)))
        assert image.size == (pixels(width, 300), pixels(picture.height, 300))
        assert image.width / image.info["dpi"][0] * 25.4 == pytest.approx(width, abs=0.1)


@pytest.mark.parametrize("width", WIDTHS)
def test_nothing_lies_outside_and_the_ink_runs_from_edge_to_edge(width):
    picture = picture_of(day_of(note="Answers stand here on the next day."), width)
    image = Image.open(BytesIO(png_of_picture(picture, 300, one_bit=True)))
    ink = image.convert("L").point([255 - level for level in range(256)])
    assert ink.getbbox() == (0, 0, *image.size)
    pdf = printed_column(picture)
    for char in pdf.chars(0):
        assert char.left > -0.1
        assert char.right < width + 0.1
        assert 0 < char.top < char.bottom < picture.height
    assert pdf.overlaps(0) == []
    assert pdf.words_over_boards(0) == []


def test_every_rule_has_its_place():
    """By turns in one column and in two, in the languages that there are."""
    looks = cycle(product((52.0, 108.0), languages()))
    for example, (width, language) in zip(rule_examples(), looks, strict=False):
        day = replace(day_of(), puzzle=puzzle_from_text(example))
        pdf = printed_column(picture_of(day, width, language=language))
        assert pdf.overlaps(0) == [], example
        assert max(char.right for char in pdf.chars(0)) < width + 0.1, example


@pytest.mark.parametrize("style", STYLES)
def test_every_style(style):
    pdf = printed_column(picture_of(day_of(SMALL, FOUR), 200.0, style))
    assert pdf.overlaps(0) == []


def line_of(pdf, words):
    """The baseline of the first line that holds some words, without their spaces."""
    found = [row[0].origin[1] for text, row in pdf.lines(0) if words.replace(" ", "") in text]
    return found[0]


def test_a_narrow_column_reads_in_the_order_shown():
    pdf = printed_column(picture_of(day_of()))
    said = ["Daily Grid", "Monday, 4 January 2027", "by Ida Marsh", "Each row", "Answer to"]
    heights = [line_of(pdf, words) for words in said]
    assert heights == sorted(heights)
    assert line_of(pdf, "No. 123") == line_of(pdf, "Monday")
    assert line_of(pdf, "Steady") == line_of(pdf, "by Ida Marsh")
    big, small = pdf.boards(0)
    assert line_of(pdf, "by Ida Marsh") < big.top < big.bottom < line_of(pdf, "Each row")
    assert line_of(pdf, "Each row") < small.top
    assert big.right - big.left == pytest.approx(52, abs=0.6)


def test_another_order():
    pdf = printed_column(picture_of(day_of(), show=("number", "rules", "grid", "heading")))
    heights = [line_of(pdf, words) for words in ("No. 123", "Each row", "Daily Grid")]
    assert heights == sorted(heights)
    (board,) = pdf.boards(0)
    assert line_of(pdf, "Each row") < board.top < board.bottom < line_of(pdf, "Daily Grid")


def test_a_wide_column_has_words_and_the_earlier_answer_beside_the_grid():
    pdf = printed_column(picture_of(day_of(), 108.0))
    big, small = pdf.boards(0)
    assert small.left > big.right
    assert small.bottom == pytest.approx(big.bottom, abs=0.1)
    rules = next(row for text, row in pdf.lines(0) if "Eachrow" in text)
    words = [char for char in rules if char.left > big.right]
    assert "".join(char.text for char in words).startswith("Eachrow")


def test_the_grid_and_the_earlier_answer_hold_their_digits():
    pdf = printed_column(picture_of(day_of()))
    big, small = pdf.boards(0)
    puzzle, answer = day_of().puzzle, day_of().previous.answer
    assert pdf.grid(0, big, 9) == list(puzzle.rows_of(puzzle.givens))
    assert pdf.grid(0, small, 6) == list(day_of().previous.puzzle.rows_of(answer))


@pytest.mark.parametrize("item", [item for item in SHOW if item != "grid"])
def test_each_item_may_be_left_out(item):
    said = {
        "heading": "Daily Grid",
        "date": "4 January",
        "number": "No. 123",
        "constructor": "Ida Marsh",
        "grade": "Steady",
        "rules": "Each row",
        "previous-answer": "Answer to",
    }
    shown = printed_column(picture_of(day_of(), show=[each for each in SHOW if each != item]))
    text = shown.text(0).replace("\n", " ")
    assert {words for words in said.values() if words not in text} == {said[item]}


def test_what_the_day_has_not_is_left_out():
    day = day_of(CLASSIC.replace("constructor: Ida Marsh\n", ""), previous="", grade=Band.UNGRADED)
    text = printed_column(picture_of(day)).text(0)
    assert "by" not in text
    assert "Ungraded" not in text
    assert "Answer" not in text


def test_german():
    day = day_of(date=date(2027, 3, 4), grade=Band.STIFF)
    text = printed_column(picture_of(day, language="de")).text(0).replace("\n", " ")
    for words in ("Donnerstag, 4. März 2027", "Nr. 123", "Zäh", "von Ida Marsh"):
        assert words in text
    assert "Lösung von" in text


def test_the_note_stands_last():
    pdf = printed_column(picture_of(day_of(note="The lock opens at nine.")))
    assert line_of(pdf, "The lock opens") == max(row[0].origin[1] for _, row in pdf.lines(0))


@pytest.mark.parametrize(("width", "depth"), [(52.0, 150.0), (52.0, 300.0), (108.0, 90.0)])
def test_a_depth_is_held_to(width, depth):
    picture = picture_of(day_of(), width, depth=depth)
    assert picture.height == depth
    root = svg_of(svg_of_picture(picture))
    assert root.get("height") == f"{depth:g}mm"


def test_a_small_depth_takes_a_smaller_grid():
    asked = picture_of(day_of(), 108.0).height - 12
    picture = picture_of(day_of(), 108.0, depth=asked)
    big, _ = printed_column(picture).boards(0)
    usual, _ = printed_column(picture_of(day_of(), 108.0)).boards(0)
    assert big.right - big.left < usual.right - usual.left - 5
    assert picture.height == asked


def test_a_depth_that_is_too_small_is_refused_with_the_one_it_takes():
    with pytest.raises(Misfits, match=r"needs a depth of ([\d.]+) mm, 50 mm are given") as error:
        picture_of(day_of(), depth=50.0)
    (misfit,) = error.value.found
    assert misfit.path == ("depth",)
    needed = float(misfit.message.split(" mm")[0].split()[-1])
    assert picture_of(day_of(), depth=needed).height == needed
    with pytest.raises(Misfits):
        picture_of(day_of(), depth=needed - 0.2)


@pytest.mark.parametrize("width", [40.0, 44.9])
def test_a_column_too_narrow_for_the_grid_is_refused(width):
    with pytest.raises(Misfits, match="cells of 4") as error:
        picture_of(day_of(), width)
    (misfit,) = error.value.found
    assert misfit.puzzle == day_of().puzzle
    needed = float(misfit.message.split(" mm")[-2].split()[-1])
    assert picture_of(day_of(), needed).width == needed


def test_a_column_too_narrow_for_the_earlier_answer_is_refused_too():
    with pytest.raises(Misfits, match="the grid of the answer, 9 columns wide"):
        picture_of(day_of(FOUR, CLASSIC), 26.0)


def test_words_too_deep_for_the_room_beside_the_grid_stand_below_it():
    words = "The keeper counts the punts. " * 40
    text = CLASSIC.replace("kind: sudoku", f'kind: sudoku\nwords: "{words.strip()}"')
    pdf = printed_column(picture_of(day_of(text), 85.0))
    big, small = pdf.boards(0)
    assert line_of(pdf, "The keeper") > big.bottom
    assert small.top > big.bottom


def test_a_first_day_without_an_earlier_answer_has_its_rules_at_the_top():
    pdf = printed_column(picture_of(day_of(previous=""), 108.0))
    (board,) = pdf.boards(0)
    assert line_of(pdf, "Each row") < board.top + 5


def test_an_earlier_answer_too_large_to_stand_beside_the_grid_stands_below():
    rows = "\n".join("  " + " ".join("." * 16) for _ in range(16))
    wide = puzzle_from_text(f"kind: sudoku\nsize: 16\ngivens: |\n{rows}\n")
    full = [cell % 16 + 1 for cell in range(256)]
    earlier = Previous(122, wide, tuple(full), date(2027, 1, 2))
    big, small = printed_column(picture_of(replace(day_of(), previous=earlier), 90.0)).boards(0)
    assert small.top > big.bottom


def test_a_heading_too_long_is_refused():
    with pytest.raises(Misfits, match="too long for a column of 52 mm"):
        picture_of(day_of(heading="The Almanac of Tides and Punts " * 9))


def test_a_clue_takes_no_room_on_the_side_where_there_is_none():
    """Nine columns and one strip of clues, but not two, have a place in one column."""
    puzzle = with_marks(day_of().puzzle, [TOP(0, "24"), LEFT(3, "7")])
    picture = picture_of(replace(day_of(), puzzle=puzzle), 52.0)
    big, _ = printed_column(picture).boards(0)
    assert big.right == pytest.approx(52, abs=0.3)
    assert big.left > 3


@pytest.mark.parametrize("width", WIDTHS)
def test_newsprint_is_set_in_solid_black_and_lines_hold(width):
    """Lines of half a point and more, words of seven points and more, tints of 10 to 50 %."""
    picture = picture_of(day_of(SMALL, CLASSIC), width)
    for item, _, _ in flat(picture.items):
        if isinstance(item, Stroke):
            assert item.grey == 0
            assert item.width >= 0.5 * POINT - 1e-9
        if isinstance(item, Fill):
            assert item.grey in (0, 1) or 0.1 <= 1 - item.grey <= 0.5
        if isinstance(item, Text):
            assert item.grey == 0
    words = [char for char in printed_column(picture).chars(0) if not char.text.isdigit()]
    assert min(char.size for char in words) >= 7 * POINT - 1e-6


def test_the_picture_says_what_it_is():
    root = svg_of(svg_of_picture(picture_of(day_of())))
    assert root[0].text == "Daily Grid, Monday, 4\u00a0January 2027, No.\u00a0123"
    assert "8 in column 1" in str(root[1].text)
    assert root.get("role") == "img"


def test_the_same_day_gives_the_same_bytes():
    one, other = (svg_of_picture(picture_of(day_of(), 108.0)) for _ in range(2))
    assert one == other


def board_of(picture):
    """The grid of the day: the widest square of the picture."""
    return max(printed_column(picture).boards(0), key=lambda each: each.right - each.left)


@pytest.mark.parametrize(("width", "depth"), [(108.0, 160.0), (108.0, 200.0), (164.0, 140.0)])
def test_in_a_depth_that_is_held_the_grid_is_as_large_as_in_any_arrangement(width, depth):
    sides = {}
    for arrange in ("best", "stacked", "beside"):
        picture = picture_of(day_of(), width, depth=depth, arrange=arrange)
        assert picture.height == depth
        board = board_of(picture)
        sides[arrange] = board.right - board.left
    assert sides["best"] == pytest.approx(max(sides.values()), abs=1)
    assert sides["stacked"] > 1.2 * sides["beside"] or width == 164


@pytest.mark.parametrize("depth", [160.0, float("inf")])
def test_words_stand_where_they_are_wanted(depth):
    """Below the grid, or to its right."""
    for arrange in ("stacked", "beside"):
        picture = picture_of(day_of(), 108.0, depth=depth, arrange=arrange)
        board = board_of(picture)
        chars = [char for char in printed_column(picture).chars(0) if char.text.isalpha()]
        after = [char for char in chars if char.top > board.top]
        beside = [char for char in after if char.left > board.right and char.top < board.bottom]
        assert after
        assert bool(beside) == (arrange == "beside")


def test_nothing_stands_beside_a_grid_in_a_column_too_narrow_for_it():
    with pytest.raises(Misfits) as raised:
        picture_of(day_of(), 52.0, arrange="beside")
    (found,) = raised.value.found
    assert "nothing has room beside the grid in 52 mm" in found.message
    assert found.path == ("arrange",)
