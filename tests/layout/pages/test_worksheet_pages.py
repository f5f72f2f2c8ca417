"""Worksheets as they come out: read back from the finished files."""

import re

import pytest
from pypdfium2 import raw

from layout.language.wording import young_words
from layout.language.words import languages, read_words
from layout.pages.worksheet.first_page import first_pages
from layout.pages.worksheet.handout_document import handout_design
from layout.picture.items import Text
from layout.style.style import read_style
from layout.telling.level import Level
from tests.support.books import POINT, manifest
from tests.support.worksheets import A4, JOB, LETTER, STICK, asked, made, printed, write_worksheet
from verify.manifest.read import puzzle_from_text, read_puzzle
from verify.rules import RULES

SIX = """\
title: Six posts
constructor: Wren Sallow
kind: sudoku
size: 6
givens: |
  . 6 2 | . 4 .
  . . 4 | . 3 .
  . . . | 6 5 .
  . 5 6 | . . .
  . 2 . | 3 . .
  . 3 . | 5 2 .
"""


def worksheet(tmp_path, manifests=None, **keys):
    """A job made in a folder, and its sheets read back."""
    made(write_worksheet(tmp_path, asked(JOB, **keys), manifests))
    return printed(tmp_path, "sheet.pdf", LETTER if keys.get("page") == "letter" else A4)


def only(**output):
    """Keys for a job without a key."""
    return {"key": "none", "output": "{pdf: build/sheet.pdf}", **output}


def grids(pdf, index, size=4):
    """What stands in the grids of a page, frames to work in left out."""
    found = [tuple(pdf.grid(index, board, size)) for board in pdf.boards(index)]
    return [grid for grid in found if any(set(row) != {"."} for row in grid)]


def digits(grid):
    return tuple(0 if char == "." else int(char) for row in grid for char in row)


@pytest.mark.parametrize(("page", "trim"), [("A4", A4), ("letter", LETTER)])
def test_pages_have_the_size_that_was_asked_for(tmp_path, page, trim):
    pdf = worksheet(tmp_path, page=page, **only())
    for each in pdf.pages:
        assert each.get_size() == pytest.approx((trim.width / POINT, trim.height / POINT), abs=0.01)


@pytest.mark.parametrize(
    ("per_page", "counts"), [(1, [1] * 7), (2, [2, 2, 2, 1]), (4, [4, 3]), (6, [6, 1])]
)
def test_so_many_puzzles_stand_on_a_page(tmp_path, per_page, counts):
    pdf = worksheet(tmp_path, [manifest(n) for n in range(7)], per_page=per_page, **only())
    assert [len(grids(pdf, index)) for index in range(len(pdf))] == counts


def test_the_head_says_what_the_job_says(tmp_path):
    text = worksheet(tmp_path, **only()).text(0)
    for said in ("Name", "Date", "Low water", "Class 4", "Fill every empty cell."):
        assert said in text
    other = worksheet(
        tmp_path, **only(name_line="false", date_line="false", instructions="Use a pencil.")
    )
    assert "Name" not in other.text(0)
    assert "Date" not in other.text(0)
    assert "Use a pencil." in other.text(0)


def level_lines(pdf, index):
    """Left, right and height from the top of the page's long level lines."""
    found = []
    for thing in pdf.pages[index].get_objects(max_depth=3):
        if thing.type == raw.FPDF_PAGEOBJ_PATH:
            left, bottom, right, top = (value * POINT for value in thing.get_bounds())
            if top - bottom < 0.4 and right - left > 25:
                found.append((left, right, pdf.trim.height - (top + bottom) / 2))
    return sorted(found, key=lambda line: (round(line[2]), line[0]))


@pytest.mark.parametrize("style", ["classroom", "large-print", "paperback"])
def test_a_child_can_write_on_the_lines(tmp_path, style):
    """At least 8 mm stay free over a line, and a first name and a family name have room."""
    pdf = worksheet(tmp_path, style=style, per_page=1, **only())
    name, date = level_lines(pdf, 0)[:2]
    assert name[2] == pytest.approx(date[2], abs=0.1)
    assert name[1] - name[0] > 80
    assert date[1] - date[0] > 25
    for line in (name, date):
        above = [
            char
            for char in pdf.chars(0)
            if line[0] < char.centre[0] < line[1] and line[2] - 8 < char.bottom < line[2] + 0.5
        ]
        assert above == []
        assert line[2] > 8 + 6


@pytest.mark.parametrize(
    ("style", "per_page"),
    [*(("classroom", count) for count in (1, 2, 4, 6)), *(("large-print", n) for n in (1, 2))],
)
def test_nothing_overlaps_or_leaves_the_page(tmp_path, style, per_page):
    texts = [manifest(0), STICK, manifest(1), manifest(2)]
    pdf = worksheet(tmp_path, texts, per_page=per_page, style=style, reader="young", **only())
    for index in range(len(pdf)):
        assert pdf.overlaps(index) == []
        assert pdf.words_over_boards(index) == []
        for char in pdf.chars(index):
            assert 6 < char.left < char.right < pdf.trim.width - 6
            assert 6 < char.top < char.bottom < pdf.trim.height - 6


@pytest.mark.parametrize("style", ["classroom", "large-print"])
def test_a_puzzle_on_a_page_of_its_own_has_room_to_work(tmp_path, style):
    pdf = worksheet(tmp_path, [SIX], per_page=1, style=style, **only())
    assert "room to work" in pdf.text(0)


def test_forms_are_named_and_differ_and_the_key_answers_each(tmp_path):
    texts = [manifest(1), STICK]
    pdf = worksheet(tmp_path, texts, forms=3)
    key = printed(tmp_path, "key.pdf")
    assert [re.findall("Form [A-C]", pdf.text(index))[0] for index in range(3)] == [
        "Form A",
        "Form B",
        "Form C",
    ]
    asked_for = [tuple(grids(pdf, index)) for index in range(3)]
    answers = grids(key, 0)
    assert len(answers) == 6
    assert len(set(asked_for)) == 3
    for at in range(2):
        assert len({tuple(answers[form * 2 + at]) for form in range(3)}) == 3
    for form, page in enumerate(asked_for):
        for at, givens in enumerate(page):
            check_answer(digits(givens), digits(answers[form * 2 + at]))
    assert re.findall("Form [A-C]", key.text(0)) == ["Form A", "Form B", "Form C"]


def check_answer(givens, answer):
    """The answer keeps the givens, and each row, column and box holds 1 to 4."""
    assert all(given in (0, digit) for given, digit in zip(givens, answer, strict=True))
    for house in (*rows(answer), *zip(*rows(answer), strict=True), *boxes(answer)):
        assert sorted(house) == [1, 2, 3, 4]


def rows(answer):
    return [answer[at : at + 4] for at in range(0, 16, 4)]


def boxes(answer):
    corners = (0, 2, 8, 10)
    return [(answer[at], answer[at + 1], answer[at + 4], answer[at + 5]) for at in corners]


def test_form_a_is_the_puzzle_as_it_was_written(tmp_path):
    pdf = worksheet(tmp_path, forms=2, **only())
    first = digits(grids(pdf, 0)[0])
    assert first == read_puzzle(tmp_path / "reeds" / "reed-1.yaml").givens


def test_the_key_can_be_the_last_page_or_be_left_out(tmp_path):
    last = worksheet(tmp_path, key="last-page", output="{pdf: build/sheet.pdf}")
    answers = grids(last, len(last) - 1)
    assert len(answers) == 3
    assert all("." not in row for grid in answers for row in grid)
    assert len(worksheet(tmp_path, **only())) == len(last) - 1


def test_small_digits_stand_in_every_open_cell_and_in_no_other(tmp_path):
    pdf = worksheet(tmp_path, [SIX], per_page=1, helpers="edges", **only())
    (board,) = [each for each in pdf.boards(0) if any("6" in row for row in pdf.grid(0, each, 6))]
    cell = (board.right - board.left) / 6
    small = {}
    for char in pdf.chars(0):
        if board.holds(char.centre) and char.bottom - char.top < 0.3 * cell:
            at = int((char.centre[1] - board.top) / cell), int((char.centre[0] - board.left) / cell)
            small.setdefault(at, []).append(char)
    givens = puzzle_from_text(SIX).givens
    assert set(small) == {divmod(at, 6) for at, given in enumerate(givens) if not given}
    for (row, column), chars in small.items():
        assert sorted(char.text for char in chars) == list("123456")
        for char in chars:
            assert (
                board.left + column * cell
                < char.left
                < char.right
                < board.left + (column + 1) * cell
            )
            assert board.top + row * cell < char.top < char.bottom < board.top + (row + 1) * cell
    assert pdf.overlaps(0) == []


def test_shapes_stand_for_digits_and_are_named(tmp_path):
    pdf = worksheet(tmp_path, [SIX], per_page=1, symbols="shapes", reader="young", **only())
    (board, *_) = pdf.boards(0)
    assert not any(board.holds(char.centre) for char in pdf.chars(0))
    for name in ("drop", "star", "fish", "boat", "leaf", "moon"):
        assert name in pdf.text(0)
    assert "the shapes drop, star, fish" in pdf.text(0)


def test_large_print_keeps_to_eighteen_points(tmp_path):
    keys = only(style="large-print", helpers="edges", first_page="true")
    pdf = worksheet(tmp_path, [manifest(1), STICK], per_page=1, **keys)
    small = {
        (char.text, round(char.size / POINT, 1))
        for index in range(1, len(pdf))
        for char in pdf.chars(index)
        if char.size / POINT < 17.95
    }
    assert small == set()
    assert {char.font.split("+")[-1].split("-")[0] for char in pdf.chars(1)} == {
        "AtkinsonHyperlegible"
    }


def test_the_first_page_works_an_example_of_each_rule(tmp_path):
    pdf = worksheet(tmp_path, [STICK], first_page="true", **only())
    text = pdf.text(0).replace("\n", " ")
    for said in ("How it works", "Rows, columns and boxes", "Thermometers", "r1c2", "goes to"):
        assert said in text
    full = [grid for grid in grids(pdf, 0) if all("." not in row for row in grid)]
    assert full
    check_answer((0,) * 16, digits(full[0]))
    assert "How it works" not in pdf.text(1)


@pytest.mark.parametrize("language", languages())
def test_young_readers_are_told_in_short_sentences(language):
    young = read_words(language).worksheet.young
    said = [young.cross_out, *(getattr(young.houses, name) for name in ("each", "using", "start"))]
    for each in (young.task, *young.says.values()):
        said += [each.one, each.many]
    for sentence in re.split(r"(?<=[.?!]) ", " ".join(said)):
        assert len(sentence.split()) <= 14, sentence


def test_german_sheets_speak_german(tmp_path):
    text = worksheet(tmp_path, [STICK], language="de", reader="young", forms=2, **only()).text(0)
    for said in ("Datum", "Fassung A", "Beginne am runden Ende", "Platz zum Rechnen"):
        assert said in text


def test_the_same_job_gives_the_same_bytes(tmp_path):
    keys = {"forms": 2, "ladder": 1, "helpers": "edges"}
    one, two = (
        (
            worksheet(tmp_path / name, **keys).data,
            (tmp_path / name / "build" / "key.pdf").read_bytes(),
        )
        for name in ("one", "two")
    )
    assert one == two


@pytest.mark.parametrize("style", ["classroom", "large-print"])
@pytest.mark.parametrize("language", languages())
def test_an_example_of_every_rule_has_room_on_a_page(style, language):
    words = young_words(read_words(language))
    design = handout_design(read_style(style), words, language, LETTER)
    pages = first_pages([puzzle_from_text(rule.example) for rule in RULES], Level.WHOLE, design)
    assert len(pages) > 10
    for items in pages:
        for item in items:
            if isinstance(item, Text):
                assert item.x >= 0
                assert item.x + sum(item.advances) * item.size <= design.measure + 1e-6
                assert item.y <= design.depth


def test_first_steps_are_told_in_words_to_first_timers(tmp_path):
    pdf = worksheet(tmp_path, [STICK], first_page="true", walk_level="first-timer", **only())
    text = pdf.text(0).replace("\n", " ")
    assert re.search(r"goes to row \d, column \d", text)
    assert not re.search(r"goes to r\d", text)
