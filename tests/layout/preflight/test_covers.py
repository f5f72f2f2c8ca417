"""Covers and sheets are held to rules of their own: clean as made, and what is spoiled is named."""

from functools import cache
from io import BytesIO

import pikepdf
import pytest

from layout.command import main
from layout.language.words import read_words
from layout.pages.common.design import Design
from layout.pages.common.format import Trim, page_format
from layout.picture.document import Document, Info, Leaf
from layout.picture.items import Text
from layout.preflight.kinds import kind_of
from layout.preflight.preflight import Terms, preflight
from layout.preflight.reading.bars import bar_codes
from layout.preflight.reading.opening import read_bytes
from layout.press.booklet import Folding, impose
from layout.press.cover import Cover, cover_document
from layout.press.source_pages import source_pages
from layout.press.wrap import Wrap
from layout.style.style import read_style
from layout.type.fonts import font
from layout.writers.pdf import pdf_of_document
from tests.support.spoiling import add, write_desk
from verify.manifest.read import puzzle_from_text
from verify.rules import RULES

TRIM = Trim(152.4, 228.6, 3.0)
ISBN = "979-4-1706-0345-1"
MORE = f"imprint: {{isbn: {ISBN}}}\ncover: {{words: Reeds.}}\n"


@cache
def cover():
    """A cover with a bar code, as it is made."""
    (rule,) = [each for each in RULES if each.name == "thermometer"]
    style, words = read_style("paperback"), read_words("en")
    design = Design(page_format(TRIM, style.page, 200), style.page, style.board, words, "en")
    told = Cover("Reeds", "", "Ida Marsh", "", "", ISBN, "Proved.", puzzle_from_text(rule.example))
    return pdf_of_document(cover_document(told, Wrap(TRIM, 10.0), design))


@cache
def sheets():
    """Six pages with a word on each, two to a side."""
    advances = font("Spectral Regular").advances("reed")
    word = Text(50.0, 50.0, "reed", "Spectral Regular", 5.0, advances)
    leaves = tuple(Leaf(105.0, 148.0, (word,), str(number), 3.0) for number in range(1, 7))
    with source_pages(pdf_of_document(Document(leaves, Info("Reeds")))) as source:
        return impose(source, Folding(None, 0.1), "Reeds", read_words("en")).data


def found(data, spoil=None):
    """What is found in a file after something was done to it."""
    with pikepdf.open(BytesIO(data)) as pdf:
        if spoil:
            spoil(pdf)
        spoiled = BytesIO()
        pdf.save(spoiled, deterministic_id=True)
    file = read_bytes(spoiled.getvalue(), "file.pdf")
    return [(each.check, each.words) for each in preflight(file, Terms())]


def code():
    """The bars of the cover."""
    (leaf,) = read_bytes(cover(), "cover.pdf").leaves
    (found_code,) = bar_codes(leaf)
    return found_code


def painted(content):
    def spoil(pdf):
        add(pdf, pdf.pages[0], f"q {content} Q")

    return spoil


def beside(modules):
    """A line across a place so many modules from the bars."""
    bars = code()
    x = bars.box.left + modules * bars.module
    return painted(f"0 G 1 w {x} {bars.box.bottom - 20} m {x} {bars.box.top + 20} l S")


def written(x, y):
    """A letter whose ink begins at a place, by the trim's lower left corner."""

    def spoil(pdf):
        page = pdf.pages[0]
        left, bottom = float(page.TrimBox[0]) + x, float(page.TrimBox[1]) + y
        name = next(iter(page.Resources.Font.keys()))
        add(pdf, page, f"0 g BT {name} 30 Tf 1 0 0 1 {left} {bottom} Tm <01> Tj ET")

    return spoil


def narrow(pdf):
    """The cover drawn at two thirds."""
    page = pdf.pages[0]
    page.contents_add(b".66 0 0 .66 40 40 cm ", prepend=True)


def run_two_bars_together(pdf):
    bars = code()
    x, y, _, top = bars.box
    add(pdf, pdf.pages[0], f"0 g {x + 93 * bars.module} {y} {bars.module} {top - y} re f")


def test_a_cover_and_sheets_are_clean():
    assert kind_of(read_bytes(cover(), "x")) == "cover"
    assert kind_of(read_bytes(sheets(), "x")) == "sheets"
    assert found(cover()) == found(sheets()) == []


def test_pictures_and_loose_leaves_have_neither_numbers_nor_a_back():
    """A list that would pass for contents is none there, and no knife comes near a picture."""
    lines = [
        Text(3.0, 20.0 + 9 * at, f"Part {at} 9", "Spectral Regular", 5.0, (0.3,) * 8)
        for at in range(3)
    ]
    alone = Document((Leaf(150.0, 100.0, tuple(lines), "1"),), Info("Reeds"))
    picture = read_bytes(pdf_of_document(alone), "x")
    assert kind_of(picture) == "picture"
    assert list(preflight(picture, Terms())) == []
    assert [each.check for each in preflight(picture, Terms(kind="leaves"))] == ["margin"]


def test_bars_are_read_as_the_number_and_at_their_size():
    assert code().digits == ISBN.replace("-", "")
    assert code().module / 72 * 25.4 == pytest.approx(0.33, abs=1e-3)


@pytest.mark.parametrize(
    ("spoil", "check", "words"),
    [
        (beside(-10), "bar code", "something is printed in the quiet zone at the left"),
        (beside(101), "bar code", "something is printed in the quiet zone at the right"),
        (narrow, "bar code", "the thinnest bar is 0.218 mm, expected 0.264 to 0.66 mm"),
        (run_two_bars_together, "bar code", "found an ISBN, and no bars that can be read"),
        (painted("0 g 0 29 900 20 re f"), "margin", "a ground ends at the bottom edge, before"),
        (written(200, 5), "margin", "pt from the bottom edge"),
    ],
)
def test_what_is_spoiled_on_a_cover_is_named(spoil, check, words):
    assert any(one == check and words in told for one, told in found(cover(), spoil))


@pytest.mark.parametrize("modules", [-12, 103])
def test_ink_beyond_the_quiet_zones_is_none_of_their_business(modules):
    assert found(cover(), beside(modules)) == []


def test_what_is_spoiled_on_sheets_is_named():
    ((check, words),) = found(sheets(), written(105 / 25.4 * 72 - 4, 200))
    assert (check, words) == ("margin", "letters lie over the fold")

    def lose_a_side(pdf):
        del pdf.pages[3]

    assert found(sheets(), lose_a_side) == [("sides", "found 3 sides, expected two for each sheet")]


def test_cover_and_sheets_are_held_against_their_book(tmp_path, capsys):
    job = write_desk(tmp_path)
    more = f"{MORE}output: {{pdf: book.pdf, cover: cover.pdf, booklet: sheets.pdf, signature: 16}}"
    told = job.read_text().replace("output:\n  pdf: book.pdf\n", more)
    job.write_text(told)
    files = [str(tmp_path / name) for name in ("cover.pdf", "sheets.pdf")]
    assert main(["preflight", files[0], "--against", str(job)]) == 2
    (tmp_path / "cover.pdf").write_bytes(cover())
    assert main(["preflight", files[0], "--against", str(job)]) == 2
    assert "make it first" in capsys.readouterr().err
    assert main(["make", str(job), "--quiet"]) == 0
    for file in files:
        assert main(["preflight", file, "--against", str(job)]) == 0
    # The cover of another book, of 166 pages.
    (tmp_path / "cover.pdf").write_bytes(cover())
    (tmp_path / "sheets.pdf").write_bytes(sheets())
    assert [main(["preflight", file, "--against", str(job)]) for file in files] == [1, 1]
    out = capsys.readouterr().out
    assert "spine: the cover leaves 10.0 mm for the spine, expected 1.1 mm for 18 pages" in out
    assert "sides: found 4 sides, expected 10 for 18 pages" in out
