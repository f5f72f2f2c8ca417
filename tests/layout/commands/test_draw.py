"""`reglet draw`: formats, options, exit codes."""

import json
from io import BytesIO

import pypdfium2
import pytest
from PIL import Image

from layout.command import main
from tests.support.drawn import svg_of
from verify.rules import BY_NAME

ONE = "title: Ebb\nkind: sudoku\nsize: 4\ngivens: |\n  1 2 3 4\n  3 4 1 2\n  2 1 4 3\n  . . . .\n"
MANY = "kind: sudoku\nsize: 4\ngivens: |\n  1 2 3 4\n  3 4 1 2\n  . . . .\n  . . . .\n"
OTHER = ONE + "answer: |\n  1 2 3 4\n  3 4 1 2\n  2 1 4 3\n  3 4 2 1\n"
STAR = (
    ONE.replace("size: 4", "size: 4\nsymbols: ['★', B, C, D]")
    .replace("1", "★")
    .translate(str.maketrans("234", "BCD"))
    .replace("size: D", "size: 4")
)


@pytest.fixture
def folder(tmp_path):
    for name, text in {"one": ONE, "many": MANY, "other": OTHER, "star": STAR}.items():
        (tmp_path / f"{name}.yaml").write_text(text)
    return tmp_path


def drawn(folder, puzzle, name, *more):
    code = main(["draw", str(folder / puzzle), "-o", str(folder / name), *more])
    path = folder / name
    return code, path.read_bytes() if path.exists() else None


def refused(*words):
    return main(["draw", *map(str, words)])


def test_svg(folder):
    code, data = drawn(folder, "one.yaml", "one.svg", "--width", "60mm")
    assert code == 0
    root = svg_of(data)
    assert root.get("width") == "60mm"
    assert root[0].text == "Ebb"


def test_pdf(folder):
    code, data = drawn(folder, "one.yaml", "one.pdf", "--width", "2in")
    assert code == 0
    page = pypdfium2.PdfDocument(data)[0]
    assert page.get_size() == pytest.approx((144, 144), abs=0.01)
    assert len(page.get_textpage().get_text_range().split()) == 12


@pytest.mark.parametrize(
    ("name", "kind"), [("a.png", "PNG"), ("a.tiff", "TIFF"), ("a.tif", "TIFF"), ("a.PNG", "PNG")]
)
def test_images(folder, name, kind):
    code, data = drawn(folder, "one.yaml", name, "--width", "1in", "--dpi", "200")
    image = Image.open(BytesIO(data))
    assert (code, image.format, image.size) == (0, kind, (200, 200))
    assert image.info["dpi"] == pytest.approx((200, 200), abs=0.01)


NEWS = ("--style", "newsprint", "--columns", "2", "--measure")


@pytest.mark.parametrize(("measure", "width"), [("us-standard", 107.95), ("52mm,4mm", 108)])
def test_as_wide_as_a_paper_s_columns(folder, capsys, measure, width):
    code, data = drawn(folder, "one.yaml", "one.svg", *NEWS, measure, "--json")
    assert code == 0
    assert float(svg_of(data).get("width").removesuffix("mm")) == pytest.approx(width, abs=0.01)
    assert json.loads(capsys.readouterr().out)["width_mm"] == width


@pytest.mark.parametrize("name", ["a.png", "a.tiff"])
def test_one_bit_a_pixel(folder, name):
    _, data = drawn(folder, "one.yaml", name, "--width", "1in", "--dpi", "600", "--one-bit")
    image = Image.open(BytesIO(data))
    assert (image.mode, image.size) == ("1", (600, 600))


COLUMN = ("--show", "heading,date,number,grade,grid,rules", "--heading", "Daily Grid")
TOLD = ("--date", "2027-01-04", "--number", "12")


def test_a_column_of_one_day(folder):
    code, data = drawn(folder, "one.yaml", "one.pdf", *NEWS, "52mm,4mm", *COLUMN, *TOLD)
    assert code == 0
    text = pypdfium2.PdfDocument(data)[0].get_textpage().get_text_range().replace("\u00a0", " ")
    for words in ("Daily Grid", "Monday, 4 January 2027", "No. 12", "Calm", "Each row"):
        assert words in text


def test_a_column_in_german_and_of_a_depth(folder):
    more = ("--language", "de", "--depth", "90mm")
    code, data = drawn(folder, "one.yaml", "one.svg", *NEWS, "52mm,4mm", *COLUMN, *TOLD, *more)
    assert code == 0
    root = svg_of(data)
    assert root.get("height") == "90mm"
    assert "4.\u00a0Januar 2027" in str(root[0].text)


def test_the_answer_is_proved_and_filled_in(folder):
    code, data = drawn(folder, "one.yaml", "one.pdf", "--answer")
    assert code == 0
    assert sorted(
        "".join(pypdfium2.PdfDocument(data)[0].get_textpage().get_text_range().split())
    ) == sorted("1234" * 4)


@pytest.mark.parametrize(("puzzle", "words"), [("many.yaml", "many"), ("other.yaml", "r4c1 r4c2")])
def test_an_answer_that_is_not_the_only_one_is_not_drawn(folder, capsys, puzzle, words):
    (folder / "old.svg").write_bytes(b"old")
    code, data = drawn(folder, puzzle, "old.svg", "--answer")
    assert (code, data) == (1, b"old")
    assert words in capsys.readouterr().err


def test_a_puzzle_with_many_answers_is_drawn_only_as_a_draft(folder):
    assert drawn(folder, "many.yaml", "many.svg") == (1, None)
    code, data = drawn(folder, "many.yaml", "many.svg", "--draft")
    assert code == 0
    assert data.startswith(b"<?xml")
    assert drawn(folder, "many.yaml", "other.svg", "--draft", "--answer") == (1, None)


def test_json_is_one_document(folder, capsys):
    drawn(folder, "one.yaml", "one.svg", "--json")
    told = json.loads(capsys.readouterr().out)
    assert told == {"written": str(folder / "one.svg"), "width_mm": 100.0}


def test_style_by_name_and_by_file(folder):
    _, paperback = drawn(folder, "one.yaml", "a.svg")
    _, newsprint = drawn(folder, "one.yaml", "b.svg", "--style", "newsprint")
    (folder / "mine.yaml").write_text("like: newsprint\n")
    _, mine = drawn(folder, "one.yaml", "c.svg", "--style", str(folder / "mine.yaml"))
    assert paperback != newsprint == mine


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("one.yaml", "-o", "x.gif"), ".svg .pdf"),
        (("one.yaml", "-o", "x.svg", "--width", "60"), "10mm to 1000mm"),
        (("one.yaml", "-o", "x.svg", "--width", "9mm"), "10mm to 1000mm"),
        (("one.yaml", "-o", "x.png", "--dpi", "9"), "from 30 to 2400"),
        (("one.yaml",), "-o"),
        (("one.yaml", "-o", "x.svg", "--columns", "0"), "from 1"),
        (("one.yaml", "-o", "x.svg", "--heading", "Tide " * 50), "at most 200 characters"),
        (("one.yaml", "-o", "x.svg", "--date", "2027-02-29"), "2027-01-04"),
        (("one.yaml", "-o", "x.svg", "--show", "grid,rles"), '"rules"'),
        (("one.yaml", "-o", "x.svg", "--show", "rules"), "the grid among them"),
        (("one.yaml", "-o", "x.svg", "--show", "grid,rules,grid"), "once"),
    ],
)
def test_a_command_line_that_can_t_be_used(capsys, words, said):
    assert refused(*words) == 2
    err = capsys.readouterr().err
    assert said in err
    assert len(err.splitlines()) == 1


@pytest.mark.parametrize(
    ("puzzle", "name", "more", "said"),
    [
        ("absent.yaml", "x.svg", (), "absent.yaml"),
        ("one.yaml", "x.svg", ("--style", "paperbck"), '"paperback"'),
        ("one.yaml", "x.svg", ("--style", "absent.yaml"), "absent.yaml"),
        ("one.yaml", "x.svg", ("--dpi", "300"), "--dpi is for png and tiff"),
        ("star.yaml", "x.svg", (), "black star"),
        ("one.yaml", "x.png", ("--width", "1000mm", "--dpi", "2400"), "fewer dots"),
        ("one.yaml", "one.yaml/x.svg", (), "can't write"),
        ("one.yaml", "x.svg", ("--one-bit",), "--one-bit is for png and tiff"),
        ("one.yaml", "x.svg", ("--columns", "2"), "us-standard"),
        ("one.yaml", "x.svg", ("--measure", "52mm,4mm"), "columns"),
        ("one.yaml", "x.svg", (*NEWS, "52mm,4mm", "--width", "60mm"), "expected one of the two"),
        ("one.yaml", "x.svg", (*NEWS, "us-standrd"), '"us-standard"'),
        ("one.yaml", "x.svg", ("--columns", "7", "--measure", "us-standard"), "from 1 to 6"),
        ("one.yaml", "x.svg", ("--show", "grid,date"), "--date"),
        ("one.yaml", "x.svg", ("--show", "grid,number"), "--number"),
        ("one.yaml", "x.svg", ("--show", "heading,grid", "--heading", "Ebb ☂"), "umbrella"),
        ("one.yaml", "x.svg", ("--show", "grid", "--step", "1"), "without its answer"),
        ("one.yaml", "x.svg", ("--depth", "60mm"), "--show"),
        ("one.yaml", "x.svg", ("--show", "grid", "--answer"), "without its answer"),
        ("one.yaml", "x.svg", ("--show", "grid", "--language", "dee"), '"de"'),
        ("one.yaml", "x.svg", ("--show", "grid", "--width", "15mm"), "cells of 3.7 mm"),
        ("one.yaml", "x.svg", ("--show", "grid", "--depth", "20mm"), "needs a depth"),
    ],
)
def test_what_can_t_be_drawn_is_told_in_one_line(folder, capsys, puzzle, name, more, said):
    code, data = drawn(folder, puzzle, name, *more)
    err = capsys.readouterr().err
    assert (code, data) == (2, None)
    assert said in err
    assert len(err.splitlines()) == 1
    assert "Traceback" not in err


def test_a_step_shows_what_pushes_and_what_it_places(folder):
    (folder / "steps.yaml").write_text(BY_NAME["thermometer"].example)
    code, data = drawn(folder, "steps.yaml", "step.svg", "--step", "1")
    assert code == 0
    words = str(svg_of(data)[1].text)
    assert all(what in words for what in ("In rings: ", "Struck: ", "Placed: "))


def test_a_step_beyond_the_walk_is_told_with_the_last(folder, capsys):
    (folder / "steps.yaml").write_text(BY_NAME["thermometer"].example)
    count = 1
    while drawn(folder, "steps.yaml", "step.svg", "--step", str(count))[0] == 0:
        (folder / "step.svg").unlink()
        capsys.readouterr()
        count += 1
    assert count > 1
    told = (
        f"argument --step: found step {count}, expected at most {count - 1}; its walk has no more"
    )
    assert told in capsys.readouterr().err
    assert not (folder / "step.svg").exists()


@pytest.mark.parametrize("number", ["0", "-1", "x", "1.5", "99999999999"])
def test_a_number_that_no_step_has(folder, number):
    assert refused(folder / "one.yaml", "-o", folder / "x.svg", "--step", number) == 2


def test_a_step_and_the_answer_are_not_drawn_together(folder):
    assert refused(folder / "one.yaml", "-o", folder / "x.svg", "--step", "1", "--answer") == 2


def test_small_digits_to_cross_out(folder):
    _, plain = drawn(folder, "one.yaml", "one.pdf")
    code, helped = drawn(folder, "one.yaml", "helped.pdf", "--helpers", "edges")
    assert code == 0
    counts = [
        len(pypdfium2.PdfDocument(data)[0].get_textpage().get_text_range().split())
        for data in (plain, helped)
    ]
    assert counts[1] == counts[0] + 4 * 4
    assert refused(folder / "one.yaml", "-o", folder / "x.svg", "--helpers", "middle") == 2
    assert drawn(folder, "one.yaml", "x.svg", "--helpers", "edges", "--width", "10mm")[0] == 2


@pytest.mark.parametrize("target", ["p.svg", "link.svg", "hard.svg"])
def test_a_puzzle_is_never_written_over(folder, capsys, target):
    text = (folder / "one.yaml").read_bytes()
    (folder / "p.svg").write_bytes(text)
    (folder / "link.svg").symlink_to("p.svg")
    (folder / "hard.svg").hardlink_to(folder / "p.svg")
    assert main(["draw", str(folder / "p.svg"), "-o", str(folder / target)]) == 2
    assert "it is what is read" in capsys.readouterr().err
    assert (folder / "p.svg").read_bytes() == text


NARROW = ("--style", "newsprint", "--show", "constructor,grid,rules")


@pytest.mark.parametrize(
    ("puzzle", "options", "place"),
    [
        (ONE, ("--width", "30mm", "--depth", "31mm"), "reglet draw: argument --depth: "),
        (ONE, ("--width", "10mm"), "reglet draw: argument --width: "),
        (ONE, ("--columns", "9", "--measure", "us-standard"), "reglet draw: argument --columns: "),
        (ONE + "constructor: \u0915\n", ("--width", "60mm"), "reglet draw: one.yaml: "),
    ],
)
def test_what_does_not_fit_is_told_by_its_option_or_its_place(
    tmp_path, capsys, monkeypatch, puzzle, options, place
):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "one.yaml").write_text(puzzle, encoding="utf-8")
    assert refused("one.yaml", "-o", "x.svg", *NARROW, *options) == 2
    assert capsys.readouterr().err.startswith(place)


@pytest.mark.parametrize("output", ["loop.svg", "loop/x.svg", "lost/deep/x.svg", "file.svg/x.svg"])
def test_a_place_that_can_not_be_written_is_told_in_words(tmp_path, capsys, monkeypatch, output):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "one.yaml").write_text(ONE)
    (tmp_path / "file.svg").write_text("kept")
    for link, target in {"loop.svg": "loop.svg", "loop": "loop", "lost": "nowhere"}.items():
        (tmp_path / link).symlink_to(target)
    before = sorted(tmp_path.iterdir())
    assert refused("one.yaml", "-o", output) == 2
    expected = "is no folder" if "file" in output else "is a link that leads to nothing"
    assert capsys.readouterr().err.rstrip().endswith(expected)
    assert sorted(tmp_path.iterdir()) == before


NONE = (
    "kind: sudoku\nsize: 4\nrules:\n  thermometer: [r1c1 se, r3c3 e]\n"
    "givens: |\n  4...\n  ....\n  ....\n  ...2\n"
)


def test_a_conflict_is_shaded(folder):
    (folder / "none.yaml").write_text(NONE)
    code, data = drawn(folder, "none.yaml", "none.svg", "--conflict", "--width", "60mm")
    assert code == 0
    words = svg_of(data)[1].text or ""
    assert "In rings: r1c1. Where one looks: r1c1 r2c2." in words


def test_only_where_there_is_no_answer_is_there_a_conflict(folder, capsys):
    code, data = drawn(folder, "many.yaml", "many.svg", "--conflict")
    assert (code, data) == (1, None)
    assert "many, expected none" in capsys.readouterr().err


def test_a_column_shows_no_conflict(folder, capsys):
    words = ("--show", "grid", "--conflict")
    assert refused(folder / "one.yaml", "-o", folder / "a.svg", *words) == 2


def test_two_answers_stand_small_in_the_open_cells(folder):
    code, data = drawn(folder, "many.yaml", "many.pdf", "--draft", "--differs")
    assert code == 0
    text = pypdfium2.PdfDocument(data)[0].get_textpage().get_text_range()
    both = drawn(folder, "many.yaml", "many.svg", "--draft", "--differs")[1]
    looks = (svg_of(both)[1].text or "").split("Where one looks: ")[1].split(".")[0].split()
    # Numbers of rows and columns, eight givens, and each open cell once or twice.
    assert len(looks) == 4
    assert sum(map(str.isdecimal, text)) == 8 + 8 + (8 - len(looks)) + 2 * len(looks)


def test_answers_differ_only_in_a_draft_of_a_puzzle_that_has_many(folder, capsys):
    assert drawn(folder, "many.yaml", "a.svg", "--differs") == (2, None)
    assert "say so with --draft" in capsys.readouterr().err
    assert drawn(folder, "one.yaml", "a.svg", "--draft", "--differs") == (1, None)
    assert "one, expected many" in capsys.readouterr().err
