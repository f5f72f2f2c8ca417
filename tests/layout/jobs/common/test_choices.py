"""Banks and lines of banks in books and worksheets, and puzzles that are chosen from them."""

import json
from pathlib import Path

import pytest

from layout.command import main
from tests.support.seasons import small_bank
from verify.disguise.forms import forms
from verify.manifest.bank import bank_from_lines, cells_in_line
from verify.proof.verdict import prove
from verify.puzzle import Puzzle

BANK = small_bank(8)

BOOK = """\
job: book
title: Small Water
trim: A5
sections:
{sections}
output: {{pdf: build/book.pdf}}
"""

SHEET = """\
job: worksheet
title: Small Water
{puzzles}
output: {{pdf: build/sheet.pdf, key: build/key.pdf}}
"""


@pytest.fixture
def folder(tmp_path):
    (tmp_path / "eel.txt").write_text("\n".join(["# eels", *BANK]))
    return tmp_path


def book(folder: Path, *sections: str) -> Path:
    path = folder / "book.yaml"
    told = [f"  - {{title: Ebb {number}, {each}}}" for number, each in enumerate(sections)]
    path.write_text(BOOK.format(sections="\n".join(told)))
    return path


def made(capsys, path, *words):
    code = main(["make", str(path), "--json", *words])
    out, err = capsys.readouterr()
    assert "Traceback" not in err
    return code, [each["id"] for each in json.loads(out).get("puzzles", ())], err


def ids(*numbers):
    return [f"eel-{number}" for number in numbers]


def test_a_book_of_lines(folder, capsys):
    job = book(folder, "puzzles: [eel.txt#7, 'eel.txt#2-4']", "puzzles: ['eel.txt#8-9']")
    assert made(capsys, job)[:2] == (0, ids(7, 2, 3, 4, 8, 9))


def test_a_line_has_its_own_id_and_credits(folder, capsys):
    (folder / "eel.csv").write_text(f"puzzle,id,title\n{BANK[0]},heron,Slack Water\n")
    assert made(capsys, book(folder, "puzzles: [eel.csv]"))[:2] == (0, ["heron"])


def test_sections_choose_from_one_bank_and_none_gets_what_another_has(folder, capsys):
    job = book(
        folder,
        "puzzles: [eel.txt], count: 2, grades: calm",
        "puzzles: ['eel.txt#2-3']",
        "puzzles: [eel.txt], count: 2",
    )
    assert made(capsys, job)[:2] == (0, ids(4, 5, 2, 3, 6, 7))


def test_a_disguise_is_not_chosen(folder, capsys):
    (first,) = bank_from_lines(BANK[:1])
    assert isinstance(first, Puzzle)
    other = forms(first, prove(first).answers[0], 2)[1]
    (folder / "eel.txt").write_text("\n".join([BANK[0], cells_in_line(other), *BANK[1:]]))
    job = book(folder, "puzzles: ['eel.txt#1']", "puzzles: [eel.txt], count: 1")
    assert made(capsys, job)[:2] == (0, ids(1, 3))
    code, found, err = made(capsys, book(folder, "puzzles: ['eel.txt#1-3']"))
    assert (code, found) == (0, ids(1, 2, 3))
    assert err.count("in disguise") == 1
    assert "book.yaml:5:30: eel-2 is eel-1 in disguise (" in err


def test_no_more_is_walked_than_is_needed(folder, capsys):
    (folder / "eel.txt").write_text("\n".join([*BANK, *["." * 16] * 500, "not even cells"]))
    job = book(folder, "puzzles: [eel.txt], count: 8")
    assert made(capsys, job, "--jobs", "1")[0] == 0
    code, _, err = made(capsys, book(folder, "puzzles: [eel.txt], count: 9"), "--jobs", "1")
    assert code == 1
    assert err.count("many answers") == 50


def test_a_draft_shows_the_first_ones(folder, capsys):
    job = book(folder, "puzzles: [eel.txt], count: 2, grades: steep")
    assert made(capsys, job, "--draft")[0] == 0


def test_manifests_that_no_line_uses_are_told_where_asked(folder, capsys):
    low = folder / "low"
    low.mkdir()
    for name in ("heron", "ebb-10", "ebb-2"):
        (low / f"{name}.yaml").write_text("kind: latin\nsize: 1\ngivens: 1\n")
    words = ["make", str(book(folder, "puzzles: [low/h*.yaml]")), "--json"]
    assert main([*words, "--unused", str(low)]) == 0
    out, err = capsys.readouterr()
    assert json.loads(out)["unused"] == [str(low / f"ebb-{number}.yaml") for number in (2, 10)]
    assert f"low/ebb-2.yaml: no line of {folder / 'book.yaml'} uses it" in err
    assert main(words) == 0
    assert "unused" not in json.loads(capsys.readouterr().out)


@pytest.mark.parametrize(
    ("sections", "expected"),
    [
        (["puzzles: ['eel.txt#20']"], "5:30: found #20, expected lines of "),
        (["puzzles: ['eel.txt#8-12']"], "whose last is 9"),
        (["puzzles: ['eel.txt#8-2']"], "found #8-2, expected the earlier line first"),
        (["puzzles: ['eel.txt#2-4', 'eel.txt#4-5']"], "eel.txt is listed already in line 5"),
        (["puzzles: [eel.txt]", "puzzles: ['eel.txt#3']"], "eel.txt is listed already in line 5"),
        (["puzzles: ['a.yaml#1']"], "found #1 behind"),
        (["puzzles: [eel.txt], grades: calm"], 'the key "count" is missing'),
        (["puzzles: [eel.txt], count: 9"], "found 8 puzzles to choose from, expected at least 9"),
        (
            ["puzzles: [eel.txt], count: 3, grades: [steep, severe]"],
            "too few puzzles to choose from; short are: steep or severe by 3 of 3",
        ),
        (["puzzles: [eel.txt], count: 3, grades: [steap]"], 'did you mean "steep"?'),
        (["puzzles: [none.txt]"], "found no puzzle in "),
    ],
)
def test_what_can_not_be_chosen_is_told_at_its_place(folder, capsys, sections, expected):
    (folder / "a.yaml").write_text("kind: sudoku\nsize: 4\n")
    (folder / "none.txt").write_text("# none\n")
    code, _, err = made(capsys, book(folder, *sections))
    assert code == 2
    assert expected in err
    assert "book.yaml:" in err
    assert not (folder / "build" / "book.pdf").exists()


def test_a_worksheet_chooses_too(folder, capsys):
    path = folder / "sheet.yaml"
    path.write_text(SHEET.format(puzzles="puzzles: [eel.txt]\ncount: 3\ngrades: [calm, steady]"))
    assert main(["make", str(path), "--json"]) == 0
    (sheet,) = json.loads(capsys.readouterr().out)["sheets"]
    assert [each["id"] for each in sheet["puzzles"]] == ids(2, 3, 4)
