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
            if top - bottom < 0.8 and right - left > 25:
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
    [
        *(("classroom", count) for count in (1, 2, 4, 6)),
        *(("large-print", n) for n in (1, 2)),
        ("wide-spaced", 4),
    ],
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
def test_a_puzzle_on_a_page_of_its_own_has_room_for_notes(tmp_path, style):
    pdf = worksheet(tmp_path, [SIX], per_page=1, style=style, **only())
    assert "notes" in pdf.text(0)


def test_forms_are_named_and_differ_and_the_key_answers_each(tmp_path):
    texts = [manifest(1), STICK]
    pdf = worksheet(tmp_path, texts, forms=3)
    key = printed(tmp_path, "key.pdf")
    sheets = range(0, 6, 2)  # each begins a leaf
    named = [re.findall("Form [A-C]", pdf.text(index))[0] for index in sheets]
    assert named == ["Form A", "Form B", "Form C"]
    asked_for = [tuple(grids(pdf, index)) for index in sheets]
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
    keys = only(style="large-print", helpers="edges", first_page="true", duplex="false")
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
    for said in ("Datum", "Fassung A", "Beginne am runden Ende", "Notizen"):
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


def test_first_timers_find_the_cells_by_letters(tmp_path):
    """Every cell that is spoken of has its letter, in that cell of the example."""
    pdf = worksheet(tmp_path, [STICK], first_page="true", walk_level="first-timer", **only())
    text = pdf.text(0).replace("\n", " ").replace("\u00a0", " ")
    assert "In its row only 3 is missing, so it goes there." in text
    assert not re.search(r"r\d+c\d", text)
    plain = pdf.boards(0)[0]
    assert pdf.grid(0, plain, 4)[0] == "12.4"
    (letter,) = [char for char in pdf.chars(0) if plain.holds(char.centre) and char.text.isalpha()][
        :1
    ]
    cell = (plain.right - plain.left) / 4
    at = (int((letter.centre[1] - plain.top) / cell), int((letter.centre[0] - plain.left) / cell))
    assert (letter.text, at) == ("a", (0, 2))


def test_examples_speak_the_language_of_the_sheet(tmp_path):
    """Its shapes and, for rows and boxes, its size."""
    keys = only(first_page="true", symbols="shapes", reader="young", language="de")
    pdf = worksheet(tmp_path, [SIX], **keys)
    text = pdf.text(0).replace("\n", " ")
    assert re.search("fehlt nur noch (Tropfen|Stern|Fisch|Boot|Blatt|Mond)", text)
    board = pdf.boards(0)[0]
    lines = {round(char.centre[0]) for char in pdf.chars(0) if board.holds(char.centre)}
    assert lines, "letters stand in it"
    assert not any(char.text.isdigit() for char in pdf.chars(0) if board.holds(char.centre))
    digits = worksheet(tmp_path / "digits", [SIX], **only(first_page="true"))
    assert digits.grid(0, digits.boards(0)[0], 6)[0] == "12.456"


@pytest.mark.parametrize(
    ("text", "size", "least"), [(manifest(1), 4, 29.9), (SIX, 6, 20.5)], ids=["4x4", "6x6"]
)
def test_a_board_by_itself_fills_the_page(tmp_path, text, size, least):
    """30 mm and 22 mm were asked for; under the head of a sheet 6x6 cells have 20.5 on A4."""
    pdf = worksheet(tmp_path, [text], per_page=1, helpers="edges", **only())
    board = max(pdf.boards(0), key=lambda each: each.right - each.left)
    assert (board.right - board.left) / size >= least
    cell = (board.right - board.left) / size
    small = [c for c in pdf.chars(0) if board.holds(c.centre) and c.bottom - c.top < 0.3 * cell]
    assert min(c.bottom - c.top for c in small) >= 0.08 * cell


def parts(pdf):
    """Which pages begin a part, by what stands on them; blank ones are empty."""
    return ["" if not pdf.text(index).strip() else "page" for index in range(len(pdf))]


def test_each_sheet_and_the_key_begin_a_leaf(tmp_path):
    keys = {"forms": 2, "key": "last-page", "output": "{pdf: build/sheet.pdf}"}
    pdf = worksheet(tmp_path, [manifest(1), STICK], **keys)
    assert parts(pdf) == ["page", "", "page", "", "page"]
    assert "Answers" in pdf.text(4)
    flat = worksheet(tmp_path, [manifest(1), STICK], duplex="false", **keys)
    assert parts(flat) == ["page"] * 3


def test_each_form_can_have_its_own_file(tmp_path):
    output = '{forms: "build/{form}.pdf", key: build/key.pdf}'
    made(write_worksheet(tmp_path, asked(JOB, forms=2, output=output), [STICK]))
    for form, other in ("AB", "BA"):
        text = printed(tmp_path, f"{form}.pdf").text(0)
        assert f"Form {form}" in text
        assert f"Form {other}" not in text
    assert sorted(each.name for each in (tmp_path / "build").glob("*.pdf")) == [
        "A.pdf",
        "B.pdf",
        "key.pdf",
    ]


def test_rungs_by_givens_have_more_of_them_and_other_answers(tmp_path):
    """Neutral dots on the sheets; the key says which is which."""
    ladder = "{by: givens, rungs: 3, step: 2}"
    pdf = worksheet(tmp_path, [STICK], ladder=ladder, duplex="false", per_page=1)
    key = printed(tmp_path, "key.pdf")
    givens = [digits(grids(pdf, index)[0]) for index in range(3)]
    counts = [sum(map(bool, grid)) for grid in givens]
    least = sum(map(bool, puzzle_from_text(STICK).givens))
    assert counts == [least + 4, least + 2, least]
    answers = [digits(grid) for grid in grids(key, 0)]
    assert len(set(answers)) == 3
    for grid, answer in zip(givens, answers, strict=True):
        check_answer(grid, answer)
    for index in range(3):
        foot = pdf.lines(index)[-1][0]
        assert foot.strip() == "•" * (index + 1)
        assert "given" not in pdf.text(index)
        assert f"{'•' * (index + 1)} {counts[index]} givens" in key.text(0)


def test_pupils_have_their_names_on_their_sheets_and_stand_in_the_key(tmp_path):
    names = ["Ada Reed", "Bo Marsh", "Cy Tern"]
    pdf = worksheet(tmp_path, [STICK], forms=2, pupils=str(names).replace("'", '"'), duplex="false")
    key = printed(tmp_path, "key.pdf").text(0)
    for index, (name, form) in enumerate(zip(names, "ABA", strict=True)):
        assert name in pdf.text(index)
        assert f"Form {form}" in pdf.text(index)
        assert re.search(rf"{name}\s+Form {form}", key.replace("\n", " "))


def test_a_key_says_so_loudly_and_sets_forms_side_by_side(tmp_path):
    """White on black, and several answers in a row."""
    worksheet(tmp_path, [STICK], forms=4)
    key = printed(tmp_path, "key.pdf")
    assert len(key) == 1
    tops = {round(each.top) for each in key.boards(0)}
    assert len(key.boards(0)) == 4
    assert len(tops) < 4
    (first, *_) = key.chars(0)
    page = key.pages[0].render(scale=2).to_numpy()
    around = page[int((first.top - 1.5) / POINT * 2), int(first.left / POINT * 2)]
    assert around.max() < 60


def test_strips_of_answers_can_be_cut_apart(tmp_path):
    worksheet(tmp_path, [STICK], forms=2, strips="true")
    key = printed(tmp_path, "key.pdf")
    assert "Answers to cut apart" in key.text(2)
    found = [digits(grid) for grid in grids(key, 2)]
    assert len(found) >= 4
    assert len(set(found)) == 2, "each form, and repeated to fill the page"
    assert set(found) == set(map(digits, grids(key, 0)))
    assert key.overlaps(2) == []


def test_slides_show_the_steps_of_the_first_sheet(tmp_path):
    """16 to 9; each puzzle begins with its title, and ends with a full grid."""
    output = "{pdf: build/sheet.pdf, slides: build/wall.pdf}"
    made(write_worksheet(tmp_path, asked(JOB, key="none", output=output), [STICK, SIX]))
    wall = printed(tmp_path, "wall.pdf")
    for page in wall.pages:
        width, height = page.get_size()
        assert width / height == pytest.approx(16 / 9, abs=0.01)
    titles = [index for index in range(len(wall)) if "Tide stick" in wall.text(index)]
    sixes = [index for index in range(len(wall)) if "Six posts" in wall.text(index)]
    assert titles[0] == 0
    assert sixes
    assert sixes[0] > 2
    assert len(wall) > sixes[0] + 2


def test_wide_letters_stand_apart_and_read_as_words(tmp_path):
    plain = worksheet(tmp_path / "a", [STICK], style="classroom", **only())
    wide = worksheet(tmp_path / "b", [STICK], style="wide-spaced", **only())

    def name(pdf):
        (line,) = [chars for text, chars in pdf.lines(0) if "Low" in text]
        return [char for char in line if char.text in "Lowater"][:8]

    near, far = name(plain), name(wide)
    assert "Low water" in wide.text(0)
    size = near[0].size
    assert far[0].size == pytest.approx(size)
    assert "".join(char.text for char in far) == "Lowwater"
    more = (far[7].left - far[0].left) - (near[7].left - near[0].left)
    assert more == pytest.approx(8 * 0.05 * size, rel=0.05)  # and one for the space between
