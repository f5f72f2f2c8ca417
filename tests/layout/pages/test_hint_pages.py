"""The hints of a finished book: their place in it, their links, what they keep to themselves."""

import re
from dataclasses import replace
from io import BytesIO

import pytest
from pypdf import PdfReader

from layout.pages.common.format import Trim
from tests.support.books import GRID, OPEN, book_of, manifest, printed, rule_examples, targets
from tests.support.drawn import STYLES

NAMES_OF_PLACES = r"\br\s?\d+c\d+\b|\b(row|column|page)\s\d+\b|puzzles \d+ to \d+"


def hinted_book(per_page=1, count=6, hints=2, texts=None):
    texts = texts or [manifest(n, f"Reed {n + 1}") for n in range(count)]
    return replace(book_of([("Low Water", "", texts, per_page)]), hints=hints)


@pytest.fixture(scope="module")
def made():
    book = hinted_book(texts=rule_examples()[::3])
    return book, *printed(book)


def index_of(pdf, label):
    return pdf.labels().index(label)


def test_they_stand_between_puzzles_and_answers(made):
    book, pdf, laid = made
    labels = laid.labels
    at = [index_of(pdf, labels[name]) for name in ("section-1", "hints", "answers")]
    assert at == sorted(at)
    assert at[1] % 2 == 0
    last_puzzle = max(index_of(pdf, labels[each.puzzle_anchor]) for each in book.puzzles())
    pages = [index_of(pdf, labels[each.hints_anchor]) for each in book.puzzles()]
    assert last_puzzle < at[1] <= pages[0]
    assert pages == sorted(pages)
    assert pages[-1] < at[2]


def test_each_puzzle_has_its_number_and_title_there(made):
    book, pdf, laid = made
    for each in book.puzzles():
        text = pdf.text(index_of(pdf, laid.labels[each.hints_anchor]))
        label = laid.labels[each.puzzle_anchor]
        assert re.search(rf"^{each.number}\b", text, re.MULTILINE)
        assert each.puzzle.title in text
        assert re.search(rf"page {label}\b", text)


def test_puzzle_and_hints_lead_to_each_other(made):
    book, pdf, laid = made
    reader = PdfReader(BytesIO(pdf.data))
    for each in list(book.puzzles())[::4]:
        puzzle = index_of(pdf, laid.labels[each.puzzle_anchor])
        hints = index_of(pdf, laid.labels[each.hints_anchor])
        assert f"hints on page {laid.labels[each.hints_anchor]}" in pdf.text(puzzle)
        assert hints in targets(reader, puzzle)
        assert puzzle in targets(reader, hints)


def test_contents_and_outline_name_them(made):
    pdf = made[1]
    reader = PdfReader(BytesIO(pdf.data))
    titles = [entry.title for entry in reader.outline if not isinstance(entry, list)]
    assert titles[titles.index("Hints") + 1] == "Answers"
    front = pdf.labels().index("1")
    assert any(re.search(r"^\d+\s+Hints", pdf.text(at), re.MULTILINE) for at in range(front))


def test_pages_of_hints_hold_no_digit_but_numbers_of_places_and_pages(made):
    book, pdf, laid = made
    pages = {index_of(pdf, laid.labels[each.hints_anchor]) for each in book.puzzles()}
    for at in pages:
        told = re.sub(NAMES_OF_PLACES, "", pdf.text(at))
        for each in book.puzzles():
            told = re.sub(rf"^{each.number}\b", "", told, flags=re.MULTILINE)
        told = re.sub(rf"^{pdf.label(at)}$", "", told, flags=re.MULTILINE)
        assert not re.search(r"\d", told), told


@pytest.mark.parametrize("per_page", [1, 2])
def test_without_hints_nothing_speaks_of_them(per_page):
    pdf, laid = printed(hinted_book(per_page, hints=0))
    assert not any(name.startswith("hints") for name in laid.labels)
    assert all("ints" not in pdf.text(at) for at in range(len(pdf)))


def test_a_puzzle_without_a_step_has_no_hints_and_says_so_nowhere():
    full = manifest(4, "Full").replace("1..4", "1234").replace("..1.", "3412")
    full = full.replace("2...", "2341").replace("...3", "4123")
    pdf, laid = printed(hinted_book(texts=[full, manifest(1)]))
    puzzles = [at for at in range(len(pdf)) if "answer on page" in pdf.text(at)]
    assert ["hints on page" in pdf.text(at) for at in puzzles] == [False, True]
    assert "hints-reed-1" not in laid.labels


@pytest.mark.parametrize("per_page", [1, 2])
@pytest.mark.parametrize("style", STYLES)
def test_nothing_runs_over_in_any_style(style, per_page):
    trim = Trim(210, 297, 3.0) if style in ("large-print", "classroom") else Trim(120, 180, 3.0)
    long = [manifest(n, f"The Heron That Would Not Leave the Lock {n}") for n in range(8)]
    pdf, laid = printed(hinted_book(per_page, hints=3, texts=long), style, trim)
    for at in range(len(pdf)):
        assert pdf.overlaps(at) == [], pdf.text(at)
        for char in pdf.chars(at):
            assert 0 < char.left < char.right < trim.width
    assert index_of(pdf, laid.labels["hints"]) < index_of(pdf, laid.labels["answers"])


def test_a_page_too_small_for_the_introduction_keeps_it_apart():
    pdf, laid = printed(hinted_book(), "large-print", Trim(120, 150, 3.0))
    opener = index_of(pdf, laid.labels["hints"])
    first = index_of(pdf, laid.labels["hints-reed-1"])
    said = " ".join(pdf.text(at) for at in range(opener, first)).replace("\n", " ")
    assert "says where to look" in said
    assert "the fifth column from the left" in said
    for at in range(opener, index_of(pdf, laid.labels["answers"])):
        assert all(char.bottom < 150 for char in pdf.chars(at))


def test_where_an_answer_s_title_has_no_room_beside_it_its_page_stands_under_the_grid():
    pdf, laid = printed(hinted_book(hints=0), "large-print", Trim(120, 150, 3.0))
    at = index_of(pdf, laid.labels["answer-reed-4"])
    feet = [board.bottom for board in pdf.boards(at)]
    tops = {text: row[0].top for text, row in pdf.lines(at) if text.startswith("page")}
    assert list(tops) == ["page6page7", "page8page9"]
    assert all(any(foot < top < foot + 8 for foot in feet) for top in tops.values())
    assert pdf.overlaps(at) == []


def test_the_columns_of_the_last_page_are_about_equally_deep():
    pdf, laid = printed(hinted_book(count=10))
    at = index_of(pdf, laid.labels["hints-reed-1"])
    feet = {}
    for char in pdf.chars(at)[:-4]:
        if char.bottom < 200:
            side = char.left > pdf.trim.width / 2
            feet[side] = max(feet.get(side, 0), char.origin[1])
    assert len(feet) == 2
    assert abs(feet[False] - feet[True]) < 25


def test_where_no_puzzle_has_hints_nothing_leads_to_them():
    solved = manifest(0)
    for row, filled in zip(OPEN, GRID, strict=True):
        solved = solved.replace(f"  {row}", f"  {filled}")
    pdf, laid = printed(hinted_book(texts=[solved]))
    assert "hints" not in laid.labels
    assert "Hints" not in {entry.title for entry in laid.document.outline}
    assert not any("Hints" in pdf.text(at) for at in range(len(pdf)))


def test_hints_in_german():
    pdf, laid = printed(hinted_book(), language="de")
    text = pdf.text(index_of(pdf, laid.labels["hints-reed-1"]))
    assert "Seite" in text
    assert any("Hinweise auf Seite" in pdf.text(at) for at in range(len(pdf)))
