"""`reglet check --same`: puzzles that are others in disguise, in one bank and in another."""

import json

import pytest

from layout.command import main
from tests.support.checkout import ROOT
from verify.disguise.forms import forms
from verify.manifest.bank import read_bank
from verify.proof.verdict import prove

CREEKS = list(read_bank(ROOT / "books/daily/bank/creeks.txt"))[:4]


def line_of(puzzle):
    return "".join(map(str, puzzle.givens))


def disguise_of(puzzle):
    return line_of(forms(puzzle, prove(puzzle).answers[0], 2)[1])


@pytest.fixture
def banks(tmp_path):
    first, second, third, fourth = CREEKS
    texts = {
        "ebb": [line_of(first), line_of(second), disguise_of(first), line_of(first), "." * 81],
        "low": [disguise_of(second), line_of(third), line_of(fourth), "." * 81],
    }
    for name, lines in texts.items():
        (tmp_path / f"{name}.txt").write_text("\n".join(lines))
    return tmp_path


def same(capsys, *words):
    code = main(["check", *map(str, words), "--json"])
    out, err = capsys.readouterr()
    found = [each.get("same", "").rpartition("/")[2] for each in json.loads(out)["puzzles"]]
    return code, found, err


def test_a_puzzle_in_disguise_names_the_first_of_its_kind(banks, capsys):
    code, found, err = same(capsys, banks / "ebb.txt", "--same")
    assert (code, found) == (1, ["", "", "ebb.txt:1", "ebb.txt:1", ""])
    assert "; 2 in disguise the same as another" in err


def test_puzzles_of_another_bank_count_as_earlier_ones(banks, capsys):
    _, found, err = same(capsys, banks / "low.txt", "--same", banks / "ebb.txt")
    assert found == ["ebb.txt:2", "", "", ""]
    assert "the other bank: 5 checked: 1 many, 4 one" in err


def test_without_the_option_nothing_is_told(banks, capsys):
    assert same(capsys, banks / "ebb.txt")[1] == [""] * 5


def test_words_tell_it_behind_the_verdict(banks, capsys):
    main(["check", str(banks / "ebb.txt"), "--same"])
    third = capsys.readouterr().out.splitlines()[2]
    assert third.endswith(f": one, in disguise the same as {(banks / 'ebb.txt').as_posix()}:1")


def test_manifests_are_named_by_their_files(tmp_path, capsys):
    for name in ("heron", "ibis"):
        (tmp_path / f"{name}.yaml").write_text(
            "kind: sudoku\nsize: 4\ngivens: |\n  1 2 3 4\n  3 4 1 2\n  2 1 4 3\n  . . . .\n"
        )
    assert same(capsys, tmp_path, "--same")[1] == ["", "heron.yaml"]


def test_a_missing_other_bank_is_told(banks, capsys):
    assert main(["check", str(banks / "ebb.txt"), "--same", str(banks / "flow.txt")]) == 2
    assert "no such file" in capsys.readouterr().err
