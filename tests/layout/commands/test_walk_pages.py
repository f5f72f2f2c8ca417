"""`reglet walk --pages`: the finished file, read back."""

import re
from typing import Any

import pypdfium2
import pytest
from pypdf import PdfReader

from layout.command import main
from layout.language.words import read_words
from layout.pages.book.walk_document import walk_document
from layout.pages.common.format import Trim
from layout.pages.walk.walk_pages import PrintedWalk
from layout.picture.items import Group, Text
from layout.style.style import read_style
from layout.telling.telling import tell_walk
from tests.layout.commands.test_walk import MANY, NONE
from verify.manifest.read import puzzle_from_text
from verify.rules import BY_NAME
from verify.walk.report.grade import grade
from verify.walk.told.path import as_told, told_path
from verify.walk.walk import walk

SUMS = BY_NAME["sandwich"].example


@pytest.fixture
def pages(tmp_path, capsys):
    def run(text, *more):
        (tmp_path / "puzzle.yaml").write_text(text, encoding="utf-8")
        out = tmp_path / "walk.pdf"
        code = main(["walk", str(tmp_path / "puzzle.yaml"), "--pages", str(out), *more])
        told = capsys.readouterr()
        return code, out if out.exists() else None, told

    return run


def text_of(path):
    """All words, with single spaces."""
    pdf = pypdfium2.PdfDocument(path)
    words = " ".join(page.get_textpage().get_text_bounded() for page in pdf)
    return re.sub(r"\s+", " ", words.replace("\ufffe", "-"))


def telling_of(text, language="en"):
    puzzle = puzzle_from_text(text)
    return puzzle, tell_walk(puzzle, told_path(puzzle), read_words(language))


@pytest.mark.parametrize("language", ["en", "de"])
def test_head_and_paragraphs_stand_in_the_file(pages, language):
    code, path, told = pages(SUMS, "--language", language)
    puzzle, telling = telling_of(SUMS, language)
    words = text_of(path)
    assert (code, told.out) == (0, "")
    assert "walk.pdf: " in told.err
    assert words.startswith(puzzle.title)
    band = grade(walk(puzzle)).band.value
    assert read_words(language).grades.bands[band] in words
    last = telling.paragraphs[-1].number
    assert re.search(rf"\b{last} ", words)
    assert all(word in words for word in telling.summary.rstrip(".").split())


def test_sheets_are_a4_and_numbered(pages):
    _, path, _ = pages(SUMS)
    reader = PdfReader(path)
    assert [float(side) for side in reader.pages[0].mediabox[2:]] == pytest.approx(
        [595.28, 841.89], abs=0.01
    )
    for number, page in enumerate(reader.pages, start=1):
        assert str(number) in page.extract_text().split()
    assert reader.metadata.title == puzzle_from_text(SUMS).title


def test_another_trim_and_style(pages):
    _, path, _ = pages(SUMS, "--trim", "6x9in", "--style", "classroom")
    reader = PdfReader(path)
    assert [float(side) for side in reader.pages[0].mediabox[2:]] == pytest.approx([432, 648])
    resources: list[Any] = [page["/Resources"] for page in reader.pages]
    fonts = {str(font) for each in resources for font in each["/Font"].values()}
    assert fonts


def test_the_outline_leads_to_every_diagram_in_order(pages):
    _, path, _ = pages(SUMS)
    reader: Any = PdfReader(path)
    title, steps = reader.outline
    assert title.title == puzzle_from_text(SUMS).title
    numbers = [int(step.title.split("\u00a0")[1]) for step in steps]
    assert numbers == sorted(numbers)
    on = [reader.get_destination_page_number(step) for step in steps]
    assert on == sorted(on)


def test_every_paragraph_of_a_long_walk_is_told(pages):
    text = BY_NAME["skyscraper"].example
    _, path, _ = pages(text, "--trim", "6x9in")
    _, telling = telling_of(text)
    words = text_of(path)
    for paragraph in telling.paragraphs:
        assert paragraph.words.split(".")[0].split(",")[-1].split()[-1] in words
        assert re.search(rf"\b{paragraph.number}\s", words)


def test_two_runs_write_the_same_bytes(pages):
    _, path, _ = pages(SUMS)
    first = path.read_bytes()
    _, path, _ = pages(SUMS)
    assert path.read_bytes() == first


@pytest.mark.parametrize("text", [MANY, NONE])
def test_what_has_not_one_answer_is_not_written(pages, tmp_path, text):
    (tmp_path / "walk.pdf").write_bytes(b"old")
    code, path, told = pages(text)
    assert code == 1
    assert path.read_bytes() == b"old"
    assert "expected one answer" in told.err


def test_json_comes_with_the_pages(pages):
    code, path, told = pages(SUMS, "--json")
    assert code == 0
    assert path is not None
    assert '"steps"' in told.out


def test_a_letter_that_no_font_has_is_told(pages):
    code, path, told = pages(SUMS.replace("title: ", "title: \u0915 "))
    assert (code, path) == (2, None)
    assert "U+0915" in told.err


def test_a_walk_that_ends_early_says_so():
    puzzle = puzzle_from_text(SUMS)
    steps = [kept.step for kept in told_path(puzzle).steps]
    graded = grade(walk(puzzle))
    path = PrintedWalk(puzzle, as_told(puzzle, steps[:3]), graded, "walk")
    document = walk_document(path, read_style("paperback"), read_words("en"), Trim(210, 297))
    words = "".join(
        item.text
        for leaf in document.leaves
        for group in leaf.items
        if isinstance(group, Group)
        for item in group.items
        if isinstance(item, Text)
    )
    assert "Here the known techniques end; " in words


@pytest.mark.parametrize("option", [["--pages", "x.svg"], ["--trim", "A99", "--pages", "x.pdf"]])
def test_what_can_not_be_asked_for(tmp_path, option):
    (tmp_path / "p.yaml").write_text(SUMS)
    assert main(["walk", str(tmp_path / "p.yaml"), *option]) == 2


@pytest.mark.parametrize("style", ["paperback", "classroom", "newsprint", "large-print"])
def test_nothing_is_printed_outside_the_margins(pages, style):
    _, path, _ = pages(SUMS, "--style", style)
    for page in pypdfium2.PdfDocument(path):
        width, height = page.get_size()
        for thing in page.get_objects(max_depth=1):
            left, bottom, right, top = thing.get_bounds()
            assert left > 18
            assert bottom > 18
            assert right < width - 18
            assert top < height - 18


def test_the_most_pages_and_the_level_are_kept(pages):
    text = BY_NAME["skyscraper"].example
    counts = []
    for more in ([], ["--level", "every"], ["--level", "every", "--most-pages", "2"]):
        code, path, told = pages(text, "--trim", "A5", *more)
        assert code == 0
        counts.append(len(PdfReader(path).pages))
        assert f"walk.pdf: {counts[-1]} page" in told.err
    assert counts[1] > counts[0]
    assert counts[2] <= 2


def test_too_few_pages_are_told_as_the_option(pages):
    more = ("--trim", "95x140mm", "--most-pages", "1")
    code, path, told = pages(BY_NAME["skyscraper"].example, *more)
    assert (code, path) == (2, None)
    assert "reglet walk: argument --most-pages: the walk of " in told.err


@pytest.mark.parametrize("count", ["0", "-1", "x", "1000", "1.5"])
def test_numbers_of_pages_that_can_not_be_asked_for(tmp_path, count):
    (tmp_path / "p.yaml").write_text(SUMS)
    assert main(["walk", str(tmp_path / "p.yaml"), "--most-pages", count]) == 2


def test_all_pencil_marks_where_they_are_asked_for(pages):
    lengths = []
    for more in ((), ("--pencil-marks", "all")):
        _, path, _ = pages(SUMS, *more)
        lengths.append(len(text_of(path)))
    assert lengths[1] > 1.2 * lengths[0]
