"""The walks of a book, read back from its PDF."""

import json
from dataclasses import replace
from io import BytesIO

import pytest
from pypdf import PdfReader

from layout.command import main
from layout.language.words import read_words
from layout.pages.common.design import Design
from layout.pages.common.format import page_format
from layout.pages.common.misfit import Misfits
from layout.pages.walk.walk_grid import walk_grid
from layout.pages.walk.walk_pages import count_pages
from layout.style.style import read_style
from layout.telling.telling import tell_walk
from tests.support.books import JOB, SIX_BY_NINE, book_of, manifest, printed, write_job
from verify.manifest.read import puzzle_from_text
from verify.rules import BY_NAME


@pytest.fixture(scope="module", params=["en-GB", "de"])
def made(request):
    texts = [BY_NAME[name].example for name in ("thermometer", "skyscraper", "sandwich")]
    book = book_of([("Low Water", "", texts, 1), ("High", "", [manifest(1)], 2)])
    puzzles = list(book.puzzles())
    book = replace(book, walks=(puzzles[2], puzzles[0]))
    return book, *printed(book, language=request.param)


def page_of(laid, pdf, anchor):
    return pdf.labels().index(laid.labels[anchor])


def test_walks_stand_between_puzzles_and_answers_in_the_order_of_the_job(made):
    book, pdf, laid = made
    order = ["puzzle-reed-4", "walks", "walk-reed-3", "walk-reed-1", "answers"]
    pages = [page_of(laid, pdf, anchor) for anchor in order]
    assert pages == sorted(set(pages))
    assert page_of(laid, pdf, "walks") % 2 == 0
    for numbered in book.walks:
        text = pdf.text(page_of(laid, pdf, numbered.walk_anchor))
        assert numbered.puzzle.title in text
        assert str(numbered.number) in text.split()


def test_a_chapter_begins_a_page_and_names_the_page_of_its_puzzle(made):
    book, pdf, laid = made
    for numbered in book.walks:
        page = page_of(laid, pdf, numbered.walk_anchor)
        assert pdf.text(page).split().count(laid.labels[numbered.puzzle_anchor]) >= 1
        reader = PdfReader(BytesIO(pdf.data))
        targets = [
            reader.get_page_number(note.get_object()["/Dest"][0].get_object())
            for note in reader.pages[page].get("/Annots", [])
        ]
        assert page_of(laid, pdf, numbered.puzzle_anchor) in targets


def test_contents_and_outline_lead_to_the_part_and_to_each_walk(made):
    book, pdf, laid = made
    reader = PdfReader(BytesIO(pdf.data))
    flat = [entry for entry in reader.outline if not isinstance(entry, list)]
    at = next(
        i
        for i, entry in enumerate(reader.outline)
        if not isinstance(entry, list)
        and reader.get_destination_page_number(entry) == page_of(laid, pdf, "walks")
    )
    chapters = reader.outline[at + 1]
    assert [entry.title.split("\u00a0")[0] for entry in chapters] == ["3", "1"]
    assert len(flat) > 3
    contents = " ".join(pdf.text(i) for i in range(page_of(laid, pdf, "contents") + 2))
    for numbered in book.walks:
        assert laid.labels[numbered.walk_anchor] in contents.split()


def stands_alone(char, chars):
    """Whether it is a figure, and nothing on its line stands close before or after it."""
    row = [each for each in chars if abs(each.origin[1] - char.origin[1]) < 0.01 and each != char]
    return char.text.isdecimal() and not any(
        each.right > char.left - 0.8 and each.left < char.right + 0.8 for each in row
    )


def test_every_paragraph_has_its_number_once(made):
    book, pdf, laid = made
    start, end = page_of(laid, pdf, "walk-reed-3"), page_of(laid, pdf, "walk-reed-1")
    assert end - start == count_pages("walk-reed-3", laid.labels)
    telling = tell_walk(book.walks[0].puzzle, book.walks[0].path, read_words("en"))
    hung = [
        char.text
        for page in range(start, end)
        for char in pdf.chars(page)
        if char.font.endswith("Spectral-SemiBold")
        and char.text.isdecimal()
        and stands_alone(char, pdf.chars(page))
    ]
    assert hung == [str(each.number) for each in telling.paragraphs]


def test_a_book_without_walks_has_no_such_part():
    book = book_of([("Low Water", "", [manifest(1)], 1)])
    _, laid = printed(book)
    assert "walks" not in laid.labels


def test_cells_too_small_for_marks_are_told():
    puzzle = puzzle_from_text(BY_NAME["boxes"].example)
    wide = replace(puzzle, board=replace(puzzle.board, rows=60, columns=60))
    style, words = read_style("paperback"), read_words("en")
    layout = page_format(SIX_BY_NINE, style.page, 0)
    design = Design(layout, style.page, style.board, words, "en")
    with pytest.raises(Misfits) as told:
        walk_grid(wide, design)
    assert "cells of 1.9 mm" in str(told.value)


@pytest.mark.parametrize(
    ("ids", "told"),
    [
        ("[reed-1, red-2]", 'unknown puzzle "red-2"; did you mean "reed-2"?'),
        ("[reed-1, reed-1]", 'the walk of "reed-1" is listed already'),
    ],
)
def test_an_id_that_no_puzzle_has_is_told_at_its_place(tmp_path, capsys, ids, told):
    text = JOB.replace("{per-page: 4}", f"{{per-page: 4}}\n  walk: {ids}")
    path = write_job(tmp_path, text)
    line = next(i for i, row in enumerate(text.splitlines(), 1) if "walk:" in row)
    assert main(["make", str(path)]) == 2
    err = capsys.readouterr().err
    assert told in err
    assert f"book.yaml:{line}:18: " in err
    assert not (tmp_path / "build").exists()


def test_a_job_prints_the_walks_that_it_lists(tmp_path):
    text = JOB.replace("{per-page: 4}", "{per-page: 4}\n  walk: [reed-2]")
    assert main(["make", str(write_job(tmp_path, text)), "--quiet"]) == 0
    reader = PdfReader(tmp_path / "build" / "book.pdf")
    assert any(page.extract_text().startswith("Walks") for page in reader.pages)


def made_with(tmp_path, capsys, more):
    text = JOB.replace("{per-page: 4}", f"{{per-page: 4}}\n  walk: [reed-2, reed-4]\n  {more}")
    path = write_job(tmp_path, text)
    code = main(["make", str(path), "--json"])
    return code, capsys.readouterr(), text


def test_the_summary_and_the_json_say_how_many_pages_each_walk_takes(tmp_path, capsys):
    code, told, _ = made_with(tmp_path, capsys, "walk-level: every")
    assert code == 0
    assert "; walks: reed-2 2 pages, reed-4 2 pages" in told.err
    pages = {each["id"]: each.get("walk_pages") for each in json.loads(told.out)["puzzles"]}
    assert pages == dict.fromkeys(pages) | {"reed-2": 2, "reed-4": 2}


@pytest.mark.parametrize(
    ("more", "told"),
    [
        ("walk-level: all", 'unknown level "all"'),
        ("walk-pages: 0", "expected a whole number from 1 to 99"),
        ("walk-pencil-marks: some", 'unknown pencil marks "some"'),
    ],
)
def test_what_a_job_may_not_say_of_walks_is_told_at_its_place(tmp_path, capsys, more, told):
    code, said, text = made_with(tmp_path, capsys, more)
    line = next(i for i, row in enumerate(text.splitlines(), 1) if more in row)
    assert code == 2
    assert f"book.yaml:{line}:" in said.err
    assert told in said.err


def test_a_walk_that_can_not_be_so_short_is_told_at_the_limit(tmp_path, capsys):
    more = "walk-pages: 1"
    job = JOB.replace("{per-page: 4}", f"{{per-page: 4}}\n  walk: [steps]\n  {more}")
    path = write_job(tmp_path, job.replace("trim: 6x9in", "trim: 95x140mm"))
    (tmp_path / "low" / "steps.yaml").write_text(BY_NAME["skyscraper"].example)
    assert main(["make", str(path)]) == 2
    line = next(i for i, row in enumerate(job.splitlines(), 1) if more in row)
    err = capsys.readouterr().err
    assert f"book.yaml:{line}:" in err
    assert "pages when the least is told; the most is 1" in err
