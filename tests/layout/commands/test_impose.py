"""`reglet impose`: any file's pages on sheets, its answers and exit codes."""

import json

import pypdfium2
import pytest

from layout.command import main
from layout.picture.document import Document, Info, Leaf
from layout.writers.pdf import pdf_of_document


@pytest.fixture
def pages(tmp_path):
    """A file of thirteen blank pages of A6."""
    path = tmp_path / "pages.pdf"
    leaves = tuple(Leaf(105.0, 148.0, (), str(number)) for number in range(1, 14))
    path.write_bytes(pdf_of_document(Document(leaves, Info("Tide Tables"))))
    return path


def told(capsys, *words):
    code = main(["impose", *map(str, words)])
    out, err = capsys.readouterr()
    assert "Traceback" not in err
    return code, out, err


def test_sheets_are_written_and_told(pages, tmp_path, capsys):
    output = tmp_path / "sheets.pdf"
    code, out, err = told(capsys, pages, "-o", output, "--signature", "8", "--json")
    assert code == 0
    assert json.loads(out) == {
        "written": str(output),
        "pages": 13,
        "sheets": 4,
        "gatherings": 2,
        "blanks": 3,
    }
    assert "13 pages on 4 sheets in 2 gatherings, 3 blank pages at the end" in err
    assert len(pypdfium2.PdfDocument(output)) == 8


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (("--signature", "10"), "found '10', expected a multiple of 4, such as 16"),
        (("--caliper", "2cm"), "found '2cm', expected 0mm to 1mm, such as 0.1mm"),
    ],
)
def test_options_out_of_bounds_are_refused(pages, tmp_path, capsys, words, message):
    code, _, err = told(capsys, pages, "-o", tmp_path / "sheets.pdf", *words)
    assert code == 2
    assert message in err


@pytest.mark.parametrize("data", [None, b"", b"%PDF-1.4 and no more"])
def test_what_is_no_file_of_pages_is_told(tmp_path, capsys, data):
    path = tmp_path / "pages.pdf"
    if data is not None:
        path.write_bytes(data)
    code, _, err = told(capsys, path, "-o", tmp_path / "sheets.pdf")
    assert code == 2
    assert "pages.pdf" in err
    assert not (tmp_path / "sheets.pdf").exists()


def test_the_file_that_is_read_is_never_written_over(pages, capsys):
    before = pages.read_bytes()
    code, _, _ = told(capsys, pages, "-o", pages)
    assert code == 2
    assert pages.read_bytes() == before
