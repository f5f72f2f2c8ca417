"""Books and columns whose puzzles are composed when they are made."""

import csv
import json

import jsonschema
import pytest
import yaml

from layout.command import main
from layout.jobs.column.ledger import FILE_NAME
from layout.jobs.schema import schema_text

BOOK = """\
job: book
title: Two Tides
trim: A5
sections:
  - {title: By hand, puzzles: [a-hand.yaml]}
  - title: Small
    puzzles: {compose: [{size: 4, count: 1}, {size: 6, grade: calm, count: 1, seed: 3}]}
    per-page: 2
  - {title: Smaller, puzzles: {compose: {size: 4, count: 1, seed: 2}}}
output: {pdf: build/book.pdf}
"""

HAND = "title: By Hand\nkind: latin\nsize: 2\ngivens: |\n  1 .\n  . .\n"

COLUMN = """\
job: column
title: Slack Water
width: 60mm
puzzles: {compose: [{size: 4, count: 1}, {size: 6, grade: calm, count: 3}]}
schedule: {from: 2027-03-01, issues: 4, days: mon-sun, grades: {mon-sun: calm}}
specials:
  - {days: wed, puzzles: {compose: {kind: thermometer, size: 6, count: 1}}}
output: {folder: build, name: "{date}-{id}", formats: [txt]}
"""


def told(capsys, *words):
    code = main(["make", *map(str, words), "--json"])
    out, err = capsys.readouterr()
    return code, json.loads(out) if out else {}, err


@pytest.fixture
def book(tmp_path):
    (tmp_path / "a-hand.yaml").write_text(HAND, encoding="utf-8")
    path = tmp_path / "book.yaml"
    path.write_text(BOOK, encoding="utf-8")
    return path


def test_sections_of_a_book_are_composed(book, capsys):
    jsonschema.validate(yaml.safe_load(BOOK), json.loads(schema_text()))
    code, document, err = told(capsys, book)
    assert code == 0, err
    ids = ["a-hand", "classic-4-001", "classic-6-calm-001", "classic-4-002"]
    assert [each["id"] for each in document["puzzles"]] == ids
    assert document["puzzles"][2]["grade"]["band"] == "calm"
    printed = (book.parent / "build" / "book.pdf").read_bytes()
    finished = str(book.parent / "build" / "book.pdf")
    assert main(["preflight", finished, "--against", str(book)]) == 0
    capsys.readouterr()
    assert told(capsys, book)[0] == 0
    assert (book.parent / "build" / "book.pdf").read_bytes() == printed


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("    per-page: 2\n", "    count: 2\n", "book.yaml:8:12: found count beside compose"),
        ("size: 4, count: 1}, {", "size: 7, count: 1}, {", "book.yaml:7:32: found size 7"),
        (
            "output: {pdf",
            "output: {certificates: proofs, pdf",
            "book.yaml:10:24: found certificates of puzzles that are composed",
        ),
        ("size: 4, count: 1}, {", "size: 4, count: 1, givens: 1}, {", "book.yaml:7:25: "),
    ],
)
def test_what_can_not_be_composed_is_told_in_its_place(book, capsys, old, new, said):
    book.write_text(BOOK.replace(old, new), encoding="utf-8")
    code, _, err = told(capsys, book)
    assert code == 2
    assert said in err


def test_days_of_a_column_are_composed_and_recalled(tmp_path, capsys):
    path = tmp_path / "daily.yaml"
    path.write_text(COLUMN, encoding="utf-8")
    code, document, err = told(capsys, path)
    assert code == 0, err
    ids = ["classic-4-001", "classic-6-calm-001", "thermometer-6-001", "classic-6-calm-002"]
    assert [each["id"] for each in document["days"]] == ids
    made = {each.name: each.read_bytes() for each in (tmp_path / "build").glob("*.txt")}
    with (tmp_path / "build" / FILE_NAME).open(newline="") as file:
        assert [row["puzzle"] for row in csv.DictReader(file)] == ids
    (tmp_path / "build" / sorted(made)[2]).unlink()
    path.write_text(COLUMN.replace("issues: 4", "issues: 5"), encoding="utf-8")
    code, document, err = told(capsys, path)
    assert code == 0, err
    assert [each["published"] for each in document["days"]] == [True] * 4 + [False]
    assert document["days"][4]["id"] == "classic-6-calm-003"
    again = {each.name: each.read_bytes() for each in (tmp_path / "build").glob("*.txt")}
    assert again == made | {name: data for name, data in again.items() if name not in made}
    assert len(again) == 5
