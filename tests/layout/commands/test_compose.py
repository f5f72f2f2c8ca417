"""`reglet compose` from the command line: files, messages, and what Ctrl-C leaves."""

import csv
import json
from dataclasses import replace

import pytest

from layout.command import main
from layout.commands import composing
from verify.compose.composed import search_for
from verify.compose.composing import Composing
from verify.manifest.bank import read_bank
from verify.manifest.read import read_puzzle

SKETCH = """\
title: Two Stalks
id: stalks
kind: sudoku
size: 4
rules:
  thermometer: [r1c2 s s]
want: {grade: calm, symmetry: half-turn}
"""


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "stalks.yaml").write_text(SKETCH, encoding="utf-8")
    return tmp_path


def test_one_puzzle_is_written_and_checks_as_it_is_told(folder, capsys):
    assert main(["compose", "stalks.yaml", "-o", "out.yaml", "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    (puzzle,) = told["puzzles"]
    assert told["written"] == ["out.yaml"]
    assert main(["check", "out.yaml", "--grade", "--json"]) == 0
    (checked,) = json.loads(capsys.readouterr().out)["puzzles"]
    for name in ("verdict", "title", "grade"):
        assert puzzle[name] == checked[name]
    assert puzzle["as_wanted"]


def test_many_are_numbered_and_the_same_from_the_same_seed(folder, capsys):
    for name in ("a", "b"):
        assert main(["compose", "stalks.yaml", "-o", name, "--count", "3", "--seed", "5"]) == 0
    files = sorted(path.name for path in (folder / "a").glob("*.yaml"))
    assert files == ["stalks-01.yaml", "stalks-02.yaml", "stalks-03.yaml"]
    for name in files:
        assert (folder / "a" / name).read_bytes() == (folder / "b" / name).read_bytes()
    second = read_puzzle(folder / "a" / "stalks-02.yaml")
    assert (second.title, second.id) == ("Two Stalks 2", "stalks-02")
    assert "a/stalks-02.yaml: one, calm, " in capsys.readouterr().out


def test_classic_puzzles_in_one_line(folder):
    words = ["compose", "--classic", "--size", "6", "--grade", "calm", "--count", "2", "-o", "six"]
    assert main(words) == 0
    puzzle = read_puzzle(folder / "six" / "classic-6-calm-02.yaml")
    assert (puzzle.title, puzzle.board.digits) == ("Calm 2", 6)


def shorter(commission, heard):
    """A search that gives up after two answers."""
    return search_for(replace(commission, most_answers=2), heard)


def test_the_nearest_is_written_and_told_as_such(folder, capsys, monkeypatch):
    monkeypatch.setattr(composing, "search_for", shorter)
    text = SKETCH.replace("calm", "severe")
    (folder / "stalks.yaml").write_text(text, encoding="utf-8")
    assert main(["compose", "stalks.yaml", "-o", "out.yaml"]) == 1
    said = capsys.readouterr().out
    assert "at the nearest, expected severe" in said
    assert "the nearest found\nstalks.yaml:7:15: found " in said
    assert read_puzzle(folder / "out.yaml").title == "Two Stalks"


@pytest.mark.parametrize("many", [[], ["--count", "2", "--jobs", "1"]])
def test_interrupted_what_was_found_is_kept(folder, capsys, monkeypatch, many):
    run = Composing.run
    calls = iter([False, True])

    def interrupted(search):
        if many and not next(calls):
            return run(search)
        run(search)
        raise KeyboardInterrupt

    monkeypatch.setattr(Composing, "run", interrupted)
    assert main(["compose", "stalks.yaml", "-o", "out" if many else "out.yaml", *many]) == 130
    told = capsys.readouterr()
    assert "1 written" in told.err
    left = [path for path in folder.rglob("*.yaml") if path.name != "stalks.yaml"]
    assert len(left) == 1
    assert read_puzzle(left[0]).title.startswith("Two Stalks")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["-o", "x.yaml"], "expected one of a sketch, --classic, and --series"),
        (
            ["stalks.yaml", "--classic", "-o", "x"],
            "expected one of a sketch, --classic, and --series",
        ),
        (["stalks.yaml", "-o", "x"], "expected a file ending in .yaml"),
        (["stalks.yaml", "-o", "x.yaml", "--grade", "calm"], "goes with --classic"),
        (["stalks.yaml", "-o", "stalks.yaml"], "it is what is read"),
        (["--classic", "--size", "400", "-o", "x"], "which have usual boxes"),
        (["--classic", "--size", "7", "-o", "x"], "which have usual boxes"),
        (["--classic", "--seed", "x", "-o", "x"], "expected a whole number"),
        (["missing.yaml", "-o", "x.yaml"], "missing.yaml"),
    ],
)
def test_what_can_not_be_used_is_told_and_nothing_is_written(folder, capsys, words, said):
    assert main(["compose", *words]) == 2
    assert said in capsys.readouterr().err
    assert [path.name for path in folder.iterdir()] == ["stalks.yaml"]
    assert (folder / "stalks.yaml").read_text(encoding="utf-8") == SKETCH


def test_a_budget_too_small_is_told(folder, capsys):
    assert main(["compose", "stalks.yaml", "-o", "x.yaml", "--seconds", "0.00001"]) == 1
    assert "stalks.yaml:7:15: found no puzzle in this time" in capsys.readouterr().out


def test_a_sketch_is_no_puzzle(folder, capsys):
    assert main(["check", "stalks.yaml"]) == 2
    assert "stalks.yaml:7:7: found a sketch, expected a puzzle" in capsys.readouterr().out


def test_a_series_is_written_with_its_ledger(folder, capsys):
    plan = (
        "puzzles:\n  - {kind: thermometer, size: 6, grade: calm, count: 2}\n"
        "  - {size: 4, count: 2, into: small/fours.txt}\n  - {size: 6, count: 1, into: small}\n"
    )
    (folder / "plan.yaml").write_text(plan, encoding="utf-8")
    assert main(["compose", "--series", "plan.yaml", "-o", "bank", "--json"]) == 0
    written = json.loads(capsys.readouterr().out)["written"]
    names = ["thermometer-6-calm-001.yaml", "thermometer-6-calm-002.yaml"]
    more = ["small/classic-6-001.yaml", "small/fours.txt", "ledger.csv"]
    assert written == [f"bank/{name}" for name in [*names, *more]]
    with (folder / "bank" / "ledger.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    banked = ["small/fours.txt#1", "small/fours.txt#2", "small/classic-6-001.yaml"]
    assert [row["file"] for row in rows] == names + banked
    assert {puzzle.board.digits for puzzle in read_bank(folder / "bank/small/fours.txt")} == {4}
    for row in rows[:2]:
        puzzle = read_puzzle(folder / "bank" / row["file"])
        assert (row["asked"], row["grade"], row["as-wanted"]) == ("calm", "calm", "yes")
        assert row["motif"] == puzzle.credits.theme
        assert int(row["givens"]) == sum(map(bool, puzzle.givens))
