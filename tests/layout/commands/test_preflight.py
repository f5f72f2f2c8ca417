"""`reglet preflight`: its table, its JSON, its exit codes, and files that are none."""

import json
import zlib

import pytest

from layout.command import main
from layout.preflight.checks.finding import CHECKS
from tests.support.spoiling import finished, spoiled


def told(capsys, *words):
    code = main(["preflight", *map(str, words)])
    out, err = capsys.readouterr()
    assert "Traceback" not in err
    return code, out, err


def drop_trim(pdf):
    del pdf.pages[8].TrimBox


@pytest.fixture
def book(tmp_path):
    path = tmp_path / "book.pdf"
    path.write_bytes(finished())
    return path


def test_a_clean_book_has_a_line_for_each_check(book, capsys):
    code, out, err = told(capsys, book)
    assert code == 0
    assert [line.split("  ")[0] for line in out.splitlines()] == list(CHECKS)
    assert out.count(" clean ") == len(CHECKS)
    assert "20 pages, 0 findings" in err


def test_what_is_found_is_told_by_page_and_label(book, capsys):
    book.write_bytes(spoiled(drop_trim))
    code, out, err = told(capsys, book)
    assert code == 1
    assert f"{book.as_posix()}: page 9 (3): boxes: the trim box is missing" in out
    assert f"{book.as_posix()}: 20 pages, " in err
    code, out, err = told(capsys, book, "--json", "--quiet")
    facts = json.loads(out)
    assert (code, err) == (1, "")
    assert (facts["pages"], facts["claims"], facts["checks"]["fonts"]) == (20, [], 0)
    assert facts["checks"]["boxes"] == sum(each["check"] == "boxes" for each in facts["findings"])
    missing = {"check": "boxes", "page": 9, "label": "3", "message": "the trim box is missing"}
    assert missing in facts["findings"]


def test_large_print_asks_for_large_letters(book, capsys):
    code, out, _ = told(capsys, book, "--large-print")
    assert code == 1
    assert "letters under 18 pt" in out


def bomb():
    """A few kilobytes whose packed objects are far more than can be read."""
    packed = zlib.compress(bytes(200 * 2**20), 9)
    head = f"/Type /ObjStm /N 1 /First 4 /Filter /FlateDecode /Length {len(packed)}"
    return b"%PDF-1.5\n1 0 obj\n<< " + head.encode() + b" >>\nstream\n" + packed + b"\nendstream\n"


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "no PDF"),
        (b"%PDF-1.4\n", "no PDF"),
        (b"title: Reed\n", "no PDF"),
        (bomb(), "packed to more than can be read"),
        (None, "found no file, expected a PDF"),
    ],
)
def test_what_is_no_pdf_is_refused(data, words, tmp_path, capsys):
    path = tmp_path / "other.pdf"
    if data is not None:
        path.write_bytes(data)
    code, out, err = told(capsys, path)
    assert (code, out) == (2, "")
    assert words in err
    assert err.startswith(f"{path.as_posix()}:1:1: ")
