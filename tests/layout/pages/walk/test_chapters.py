"""The pages of walks, read back: how large boards and letters are, and what stands together."""

from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from layout.language.words import read_words
from layout.pages.book.walk_document import walk_document
from layout.pages.common.book import WalkChoice
from layout.pages.common.design import Design
from layout.pages.common.format import Trim, page_format
from layout.pages.common.misfit import Misfits
from layout.pages.walk.walk_grid import GAP_ROWS, walk_grid
from layout.pages.walk.walk_pages import PrintedWalk, walk_pages
from layout.picture.items import Text
from layout.style.style import read_style
from layout.telling.level import Level
from layout.telling.telling import tell_walk
from layout.writers.pdf import pdf_of_document
from tests.support.books import Printed
from verify.manifest.read import puzzle_from_text, read_puzzle
from verify.rules import BY_NAME
from verify.walk.report.grade import grade
from verify.walk.told.path import told_path
from verify.walk.walk import walk

PUZZLES = Path(__file__).parents[4] / "books/saltmarsh/puzzles"
NAMES = ["low-water/03-crosswind", "the-flood/08-anchor", "slack-water/06-catch"]
TRIMS = {
    "A5": Trim(148, 210),
    "6x9in": Trim(152.4, 228.6),
    "letter": Trim(215.9, 279.4),
}


@cache
def printed_walk(name):
    puzzle = read_puzzle(PUZZLES / f"{name}.yaml")
    return PrintedWalk(puzzle, told_path(puzzle), grade(walk(puzzle, reasons=False)), "walk")


def chosen(name, **choice):
    return replace(printed_walk(name), choice=WalkChoice(**choice))


@cache
def read_back(name, trim, style="paperback", language="en", **choice):
    document = walk_document(
        chosen(name, **choice), read_style(style), read_words(language), TRIMS[trim]
    )
    return Printed(pdf_of_document(document), TRIMS[trim])


def grids(pdf, index):
    """The frames of the boards of a page, each as wide as its cells."""
    return [board for board in pdf.boards(index) if board.right - board.left > 40]


EVERY_PAGE = [
    (name, trim, style, language)
    for name in NAMES
    for trim, style in [
        ("A5", "paperback"),
        ("6x9in", "paperback"),
        ("letter", "paperback"),
        ("letter", "large-print"),
    ]
    for language in ("en", "de")
]


@pytest.mark.parametrize(("name", "trim", "style", "language"), EVERY_PAGE)
def test_boards_are_large_letters_not_small_and_no_page_has_words_alone(
    name, trim, style, language
):
    pdf = read_back(name, trim, style, language)
    least = read_style(style).page.least
    for index in range(len(pdf)):
        boards = grids(pdf, index)
        # The first page of large print may have no room for a board beside the title.
        assert boards or (index == 0 and style == "large-print"), f"page {index + 1}"
        for board in boards:
            assert board.right - board.left >= 60
        assert min(char.size for char in pdf.chars(index)) >= 0.98 * least


@pytest.mark.parametrize(("name", "trim", "style", "language"), EVERY_PAGE)
def test_words_stand_clear_of_boards_and_within_the_text_area(name, trim, style, language):
    pdf, sheet = read_back(name, trim, style, language), read_style(style)
    layout = page_format(TRIMS[trim], sheet.page, 0)
    words = sheet.page.faces.lesser_rules.roman
    for index in range(len(pdf)):
        for char in pdf.chars(index):
            assert layout.inside - 0.5 < char.left < char.right < TRIMS[trim].width - 8
            if char.font.endswith(words.replace(" ", "-")) and style == "paperback":
                assert not any(board.holds(char.centre) for board in grids(pdf, index))


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("trim", TRIMS)
def test_two_diagrams_stand_on_a_page(name, trim):
    pdf = read_back(name, trim)
    counts = [len(grids(pdf, index)) for index in range(len(pdf))]
    assert max(counts) == 2
    sheet = read_style("paperback")
    design = Design(
        page_format(TRIMS[trim], sheet.page, 300), sheet.page, sheet.board, read_words("en"), "en"
    )
    grid = walk_grid(printed_walk(name).puzzle, design)
    rows = grid.rows(grid.extent.height(grid.diagram))
    assert 2 * rows + GAP_ROWS <= grid.capacity


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("language", ["en", "de"])
def test_in_large_print_each_page_has_one_diagram_with_all_its_words(name, language):
    pdf = read_back(name, "letter", "large-print", language)
    telling = tell_walk(printed_walk(name).puzzle, printed_walk(name).walk, read_words(language))
    last = telling.paragraphs[-1].words.split()[-1]
    for index in range(1, len(pdf)):
        (board,) = grids(pdf, index)
        under = [char for char in pdf.chars(index) if char.top > board.bottom]
        # Words, more than the folio.
        assert len(under) > 20
    assert last in pdf.text(len(pdf) - 1)


@pytest.mark.parametrize("level", Level)
def test_every_number_hangs_left_of_its_words_once(level):
    path = chosen(NAMES[0], level=level)
    sheet, words = read_style("paperback"), read_words("en")
    design = Design(page_format(TRIMS["A5"], sheet.page, 0), sheet.page, sheet.board, words, "en")
    grid = walk_grid(path.puzzle, design)
    numbers = []
    for page in walk_pages(path, design):
        texts = [item for item in page.draw({}) if isinstance(item, Text)]
        for text in texts:
            if text.font == grid.voices.bold and text.text.isdecimal() and text.x < grid.x:
                numbers.append(int(text.text))
                (beside,) = [
                    other for other in texts if other.y == text.y and other.x in (grid.x, grid.hang)
                ]
                assert text.x + sum(text.advances) * text.size < beside.x
    telling = tell_walk(path.puzzle, path.walk, words, level)
    assert numbers == [each.number for each in telling.paragraphs]


def test_boards_with_clues_stand_beside_their_words_on_small_pages_too():
    puzzle = puzzle_from_text(BY_NAME["skyscraper"].example)
    sheet, words = read_style("paperback"), read_words("en")
    for trim in TRIMS.values():
        layout = page_format(trim, sheet.page, 0)
        grid = walk_grid(puzzle, Design(layout, sheet.page, sheet.board, words, "en"))
        assert not grid.stacked
        assert grid.diagram >= 60
        assert grid.x + grid.beside <= layout.measure + 1e-6


def test_names_of_cells_are_semibold():
    pdf = read_back(NAMES[0], "A5")
    found = 0
    for index in range(len(pdf)):
        for text, chars in pdf.lines(index):
            at = text.find("r4c5")
            if at >= 0:
                found += 1
                fonts = {char.font.split("+")[-1] for char in chars[at : at + 4]}
                assert fonts == {"Spectral-SemiBold"}
    assert found


@pytest.mark.parametrize("level", [Level.WHOLE, Level.EVERY])
def test_a_walk_takes_no_more_pages_than_it_may(level):
    whole = len(read_back(NAMES[2], "A5", level=level))
    for most in (2, whole - 1, whole + 1):
        pdf = read_back(NAMES[2], "A5", level=level, most_pages=most)
        # No more is left out than must be.
        assert len(pdf) == min(most, whole)


def test_what_can_not_be_told_on_so_few_pages_is_refused():
    path = chosen(NAMES[2], most_pages=1, limit=("back", "walk-pages"))
    sheet = read_style("large-print")
    with pytest.raises(Misfits) as told:
        walk_document(path, sheet, read_words("en"), TRIMS["A5"])
    (misfit,) = told.value.found
    assert misfit.path == ("back", "walk-pages")


def test_all_pencil_marks_are_as_large_as_letters_must_be():
    pdf = read_back(NAMES[0], "letter", every_mark=True)
    least = read_style("paperback").page.least
    few = read_back(NAMES[0], "letter")
    for index in range(len(pdf)):
        assert min(char.size for char in pdf.chars(index)) >= 0.98 * least
    counts = [sum(len(each.chars(i)) for i in range(len(each))) for each in (pdf, few)]
    assert counts[0] > counts[1] + 500


@pytest.mark.parametrize("name", NAMES)
def test_the_same_walk_is_the_same_to_the_byte(name):
    document = walk_document(
        printed_walk(name), read_style("paperback"), read_words("en"), TRIMS["A5"]
    )
    assert pdf_of_document(document) == read_back(name, "A5").data
