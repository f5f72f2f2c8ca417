"""`reglet preflight`: its table, its JSON, its exit codes, and files that are none."""

import json
import zlib

import pytest

from layout.command import main
from layout.jobs.book import make_book
from layout.preflight.checks.finding import CHECKS, WITH_JOB
from tests.support.checkout import ROOT
from tests.support.spoiling import add, finished, page_with, say, spoiled, write_desk


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
    assert out.count(" clean ") == len(CHECKS) - len(WITH_JOB)
    assert "18 pages, 0 findings" in err


def test_what_is_found_is_told_by_page_and_label(book, capsys):
    book.write_bytes(spoiled(drop_trim))
    code, out, err = told(capsys, book)
    assert code == 1
    assert f"{book.as_posix()}: page 9 (3): boxes: the trim box is missing" in out
    assert f"{book.as_posix()}: 18 pages, " in err
    code, out, err = told(capsys, book, "--json", "--quiet")
    facts = json.loads(out)
    assert (code, err) == (1, "")
    assert (facts["pages"], facts["claims"], facts["checks"]["fonts"]) == (18, [], 0)
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


def misprint(pdf):
    say(pdf, page_with(pdf, "Two reeds"), "5", "3")


@pytest.fixture
def desk(tmp_path):
    return write_desk(tmp_path)


def test_a_book_is_held_against_its_job(book, desk, capsys):
    code, out, _ = told(capsys, book, "--against", desk)
    assert (code, out.count(" clean ")) == (0, len(CHECKS))
    book.write_bytes(spoiled(misprint))
    code, out, _ = told(capsys, book, "--against", desk, "--json")
    facts = json.loads(out)
    assert (code, set(facts["checks"])) == (1, set(CHECKS))
    assert [(each["check"], each["label"]) for each in facts["findings"]] == [("givens", "6")]
    assert "found 3 in r3c5, expected 5" in facts["findings"][0]["message"]


def test_a_puzzle_of_many_answers_is_told(book, desk, capsys):
    path = desk.parent / "thermometer.yaml"
    path.write_text(path.read_text().replace("    - r3c3 s\n", ""))
    code, out, err = told(capsys, book, "--against", desk)
    assert (code, out) == (1, "")
    assert "thermometer: many answers" in err


def test_only_books_are_held_against_a_job(book, tmp_path, capsys):
    job = tmp_path / "sheet.yaml"
    job.write_text((ROOT / "books/classroom/sluice.yaml").read_text(encoding="utf-8"))
    code, _, err = told(capsys, book, "--against", job)
    assert code == 2
    assert "found a job of another kind, expected job: book" in err


def test_make_refuses_a_book_that_prints_another_digit(desk, monkeypatch, capsys):
    data = spoiled(misprint)
    monkeypatch.setattr(make_book, "pdf_of_document", lambda *_: data)
    output = desk.parent / "book.pdf"
    output.write_bytes(b"the earlier file")
    code = main(["make", str(desk)])
    assert code == 2
    assert "“Two reeds”: found 3 in r3c5, expected 5" in capsys.readouterr().err
    assert output.read_bytes() == b"the earlier file"


def test_make_tells_what_it_doubts_of_a_book(desk, monkeypatch, capsys):
    data = spoiled(thin)
    monkeypatch.setattr(make_book, "pdf_of_document", lambda *_: data)
    assert main(["make", str(desk)]) == 0
    assert "book.pdf: page 9 (3): lines: a line thinner than 0.25 pt" in capsys.readouterr().err


def thin(pdf):
    add(pdf, pdf.pages[8], "0 G 0.1 w 150 150 m 250 150 l S")
