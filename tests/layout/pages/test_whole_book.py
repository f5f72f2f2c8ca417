"""A finished book, read back from its PDF: pages, numbers, references, digits."""

import re
from io import BytesIO

import pytest
from pypdf import PdfReader

from layout.language.words import read_words
from layout.pages.book.lessons import lessons
from layout.pages.common.format import page_format
from layout.style.style import read_style
from tests.support.books import (
    SIX_BY_NINE,
    book_of,
    manifest,
    printed,
    rule_examples,
    targets,
)

INTRO = """\
# At the lock

The creeks have drained, and the herons stand about like posts -- nothing moves *very* fast.

- a pencil
- an unhurried half hour
"""


@pytest.fixture(scope="module")
def made():
    book = book_of(
        [
            ("Low Water", INTRO, rule_examples(), 1),
            ("The Rising Tide", "", [manifest(n, f"Tide {n}") for n in range(5)], 2),
            ("High Water", "", [manifest(n, f"Gauge {n}") for n in range(5)], 4),
            ("Pools", INTRO * 12, [manifest(n, f"Pool {n}", "Jon Sedge") for n in range(7)], 6),
        ]
    )
    return book, *printed(book)


@pytest.fixture(scope="module")
def reader(made):
    return PdfReader(BytesIO(made[1].data))


def index_of(pdf, label):
    return pdf.labels().index(label)


def test_boxes_nest_and_have_their_sizes(reader):
    # ISO 32000-1, 14.11.2: the trim box lies in the bleed box, that in the media box
    for page in reader.pages:
        trim, bleed, media = page.trimbox, page.bleedbox, page.mediabox
        assert [float(side) for side in trim[2:]] == pytest.approx(
            [432 + 3 / 25.4 * 72, 648 + 3 / 25.4 * 72], abs=0.01
        )
        assert media.left <= bleed.left <= trim.left
        assert media.bottom <= bleed.bottom <= trim.bottom
        assert trim.right <= bleed.right <= media.right
        assert trim.top <= bleed.top <= media.top
        assert float(trim.left - bleed.left) == pytest.approx(3 / 25.4 * 72, abs=0.01)


def test_parts_open_on_rectos_and_blanks_are_blank(made):
    book, pdf, _ = made
    titles = ["Contents", "How to solve", "Answers", "Constructors"]
    titles += [section.title for section in book.sections]
    for title in titles:
        opens = [
            at
            for at in range(len(pdf))
            if pdf.lines(at) and first_words(pdf, at) == title.replace(" ", "")
        ]
        assert opens, title
        assert opens[0] % 2 == 0, title
    empty = [at for at in range(len(pdf)) if not pdf.chars(at)]
    assert empty
    for at in empty:
        assert not list(pdf.pages[at].get_objects())
    assert len(pdf) % 2 == 0


def first_words(pdf, at):
    lines = pdf.lines(at)
    return lines[0][0] if lines else ""


def test_labels_are_roman_and_then_arabic(made):
    _, pdf, _ = made
    labels = pdf.labels()
    begins = labels.index("1")
    assert begins % 2 == 0
    assert labels[:5] == ["i", "ii", "iii", "iv", "v"]
    assert labels[begins:] == [str(number + 1) for number in range(len(labels) - begins)]
    assert first_words(pdf, begins) == "Howtosolve"


def test_folios_stand_on_the_outer_edge(made):
    _, pdf, _ = made
    layout = page_format(SIX_BY_NINE, read_style("paperback").page, len(pdf))
    seen = {True: 0, False: 0}
    for at in range(len(pdf)):
        foot = [
            char for char in pdf.chars(at) if char.origin[1] == pytest.approx(layout.folio, abs=0.1)
        ]
        if not foot:
            continue
        recto = at % 2 == 0
        ordered = sorted(foot, key=lambda char: char.left)
        label = pdf.label(at)
        folio = ordered[-len(label) :] if recto else ordered[: len(label)]
        assert "".join(char.text for char in folio) == label
        left = layout.left(recto)
        if recto:
            assert folio[-1].right == pytest.approx(left + layout.measure, abs=0.6)
        else:
            assert folio[0].left == pytest.approx(left, abs=0.6)
        seen[recto] += 1
    assert min(seen.values()) > 5
    assert layout.inside > page_format(SIX_BY_NINE, read_style("paperback").page, 0).inside


def test_running_heads_are_mirrored(made):
    book, pdf, laid = made
    for numbered in book.sections[0].puzzles:
        at = index_of(pdf, laid.labels[numbered.puzzle_anchor])
        text, row = pdf.lines(at)[0]
        if at % 2:
            assert text == book.title.replace(" ", "")
            assert row[0].left < 40
        else:
            assert text == "LowWater"
            assert row[-1].right > 110


def test_contents_tell_true_pages(made):
    _, pdf, _ = made
    begins = next(at for at in range(len(pdf)) if first_words(pdf, at) == "Contents")
    ends = next(at for at in range(begins, len(pdf)) if first_words(pdf, at) == "Howtosolve")
    lines = [text for at in range(begins, ends) for text, _ in pdf.lines(at)]
    entries = [
        found.groups() for found in map(re.compile(r"(\d+) ?(.+)").fullmatch, lines) if found
    ]
    assert len(entries) >= 8
    titles = {title.strip() for _, title in entries}
    assert {"Howtosolve", "LowWater", "Pools", "Answers", "Constructors", "Cages"} <= titles
    for label, title in entries:
        there = "".join(text for text, _ in pdf.lines(index_of(pdf, label)))
        assert title in there, title


def test_puzzles_and_answers_name_each_others_pages(made):
    book, pdf, laid = made
    for numbered in book.puzzles():
        here, there = laid.labels[numbered.puzzle_anchor], laid.labels[numbered.answer_anchor]
        puzzle_page = pdf.text(index_of(pdf, here)).replace("\n", " ")
        answer_page = pdf.text(index_of(pdf, there)).replace("\n", " ")
        assert re.search(rf"answers? on pages? [\d, and]*\b{there}\b", puzzle_page)
        assert re.search(rf"page {here}\b", answer_page)
        assert numbered.puzzle.title in puzzle_page
        assert numbered.puzzle.title in answer_page
        assert re.search(rf"\b{numbered.number}\b", puzzle_page)


def test_every_digit_stands_in_its_cell(made):
    book, pdf, laid = made
    places = [("puzzle_anchor", "givens"), ("answer_anchor", "answer")]
    for anchor, what in places:
        pages = {}
        for numbered in book.puzzles():
            pages.setdefault(laid.labels[getattr(numbered, anchor)], []).append(numbered)
        for label, there in pages.items():
            at = index_of(pdf, label)
            boards = pdf.boards(at)
            assert len(boards) == len(there)
            for numbered in there:
                size = numbered.puzzle.board.columns
                grid = numbered.puzzle.givens if what == "givens" else numbered.answer
                wanted = numbered.puzzle.rows_of(grid)
                assert wanted in [pdf.grid(at, board, size) for board in boards]


def test_givens_and_filled_digits_have_different_fonts(made):
    book, pdf, laid = made
    numbered = book.sections[1].puzzles[0]
    at = index_of(pdf, laid.labels[numbered.answer_anchor])
    board = next(
        board
        for board in pdf.boards(at)
        if pdf.grid(at, board, 4) == numbered.puzzle.rows_of(numbered.answer)
    )
    fonts = {"given": set(), "filled": set()}
    cell = (board.right - board.left) / 4
    for char in pdf.chars(at):
        if board.holds(char.centre):
            x, y = char.centre
            index = int((y - board.top) / cell) * 4 + int((x - board.left) / cell)
            fonts["given" if numbered.puzzle.givens[index] else "filled"].add(char.font)
    assert len(fonts["given"]) == len(fonts["filled"]) == 1
    assert fonts["given"] != fonts["filled"]


def test_lessons_show_an_example_and_its_answer(made):
    book, pdf, laid = made
    titles = {lesson.anchor: lesson.title for lesson in lessons(book, read_words("en"))}
    for anchor in ("rule-thermometer", "rule-cage", "rule-rows-columns-boxes"):
        at = index_of(pdf, laid.labels[anchor])
        title = titles[anchor].replace(" ", "")
        # Lessons share pages: its own boards are the next ones under its title.
        (top,) = (row[0].origin[1] for text, row in pdf.lines(at) if text == title)
        puzzle, answer = [board for board in pdf.boards(at) if board.top > top][:2]
        size = 6 if len(pdf.grid(at, answer, 6)[0].replace(".", "")) == 6 else 4
        given, filled = pdf.grid(at, puzzle, size), pdf.grid(at, answer, size)
        assert all("." not in row and len(set(row)) == size for row in filled)
        pairs = [
            (a, b)
            for one, two in zip(given, filled, strict=True)
            for a, b in zip(one, two, strict=True)
        ]
        assert all(a in (".", b) for a, b in pairs)


def test_nothing_leaves_the_text_area(made):
    _, pdf, _ = made
    layout = page_format(SIX_BY_NINE, read_style("paperback").page, len(pdf))
    slack = 0.9  # what the side bearing of a glyph or the slant of an italic may reach over
    for at in range(len(pdf)):
        left = layout.left(at % 2 == 0)
        for char in pdf.chars(at):
            assert char.left > left - slack
            assert char.right < left + layout.measure + slack
            assert char.top > 6.35
            assert char.bottom < SIX_BY_NINE.height - 6.35
        for board in pdf.boards(at):
            assert board.left > left - 0.6
            assert board.right < left + layout.measure + 0.6
            assert board.bottom < SIX_BY_NINE.height - layout.foot + 0.6


def test_prose_of_facing_pages_shares_its_baselines(made):
    _, pdf, _ = made
    leading = read_style("paperback").page.faces.prose.leading
    pages = [at for at in range(len(pdf)) if "an unhurried half hour" in pdf.text(at)]
    assert len(pages) > 2
    offsets = {
        round(char.origin[1] % leading, 1) % round(leading, 1)
        for at in pages
        for char in pdf.chars(at)
        if abs(char.size - 10 * 25.4 / 72) < 0.01
        and "Spectral" in char.font
        and 30 < char.top < 195
    }
    assert len(offsets) <= 2  # one, or its neighbour by rounding


def test_metadata_outline_and_links(made, reader):
    book, pdf, laid = made
    assert reader.metadata.title == book.title
    assert reader.metadata.author == book.author
    titles = []

    def walk(entries):
        for entry in entries:
            if isinstance(entry, list):
                walk(entry)
            else:
                titles.append((entry.title, reader.get_destination_page_number(entry)))

    walk(reader.outline)
    found = dict(titles)
    assert found["Low Water"] == index_of(pdf, laid.labels["section-1"])
    first = book.sections[0].puzzles[0]
    assert found[f"1  {first.puzzle.title}"] == index_of(pdf, laid.labels[first.puzzle_anchor])
    assert {"Contents", "How to solve", "Answers", "Constructors"} <= set(found)
    for numbered in book.puzzles():
        here = index_of(pdf, laid.labels[numbered.puzzle_anchor])
        there = index_of(pdf, laid.labels[numbered.answer_anchor])
        assert there in targets(reader, here)
        assert here in targets(reader, there)


def test_index_names_every_page_of_a_constructor(made):
    book, pdf, laid = made
    text = pdf.text(index_of(pdf, laid.labels["constructors"]))
    line = next(line for line in text.split("\n") if line.startswith("Jon Sedge"))
    pages = {
        laid.labels[numbered.puzzle_anchor]
        for numbered in book.puzzles()
        if numbered.puzzle.credits.constructor == "Jon Sedge"
    }
    assert re.findall(r"\d+", line) == sorted(pages, key=int)


def test_all_fonts_are_embedded(reader):
    fonts = {}
    for page in reader.pages:
        for name, font in (page["/Resources"].get("/Font") or {}).items():
            fonts[name] = font.get_object()
    assert fonts
    for font in fonts.values():
        assert "/FontFile2" in font["/FontDescriptor"]


def test_the_same_book_gives_the_same_bytes(made):
    book, pdf, _ = made
    assert printed(book)[0].data == pdf.data
