"""`reglet new --rule`: stubs that Python, the linters and the house take as they are."""

import ast
import json
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from layout.command import main
from layout.commands.new_rule import LONGEST_NAME, rule_stubs, why_no_name
from layout.commands.new_rule_texts import ROOMS
from layout.language.words import languages
from tests.support.checkout import ROOT
from verify.board import Board
from verify.manifest.yaml_text import tree_of
from verify.reading.problems import Problems
from verify.reading.reader import Reader
from verify.rules import BY_NAME, RULES

NAMES = ["slack-line", "ox", "silt-of-seven-creeks", "move", "warning"]
"""Short and as long as can be; the last two are words that a class must not have."""


PARTS = ("clauses", "holds", "strikes", "moved", "facets", "make", "draw", "says", "survives")


def test_the_longest_name_is_among_the_names():
    assert max(map(len, NAMES)) == LONGEST_NAME
    assert [why_no_name(name) for name in NAMES] == [None] * len(NAMES)


def written(folder, name, room):
    """The new files of a rule, in a folder."""
    for stub in rule_stubs(name, room):
        if stub.is_new:
            path = folder / stub.path
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(stub.text, encoding="utf-8")


def test_linters_have_nothing_to_say(tmp_path):
    shutil.copy(ROOT / "pyproject.toml", tmp_path)
    for room in ROOMS:
        for name in NAMES:
            written(tmp_path, f"{name}", room)
            for path in tmp_path.rglob("*.py"):
                ast.parse(path.read_text(encoding="utf-8"))
        for job in (["check", "-q"], ["format", "--check", "-q"]):
            ruff = [sys.executable, "-m", "ruff", *job, "--no-cache", str(tmp_path)]
            done = subprocess.run(ruff, capture_output=True, text=True, check=False)
            assert done.returncode == 0, done.stdout + done.stderr


def stub_of(name, room, start):
    (stub,) = (stub for stub in rule_stubs(name, room) if str(stub.path).startswith(start))
    return stub.text


def rule_of(name, room):
    """The rule of a stub."""
    scope = {"__name__": "stub"}
    exec(stub_of(name, room, "verify/rules/" + room), scope)
    return scope["RULE"]


@pytest.mark.parametrize("room", ROOMS)
@pytest.mark.parametrize("name", NAMES)
def test_a_stub_reads_draws_and_says_its_marks(name, room):
    rule = rule_of(name, room)
    problems = Problems()
    marks = tree_of(ROOMS[room].written, "stub.yaml", problems)
    constraints = rule.read(marks, Reader(Board(4, 4, 4, (2, 2)), problems))
    assert not problems.found
    assert constraints
    (saying,) = rule.says(constraints)
    assert saying.key == name
    assert bool(rule.draw(Board(4, 4, 4), constraints)) == (room != "houses")
    text = stub_of(name, room, "verify/rules/" + room)
    assert all(part in text for part in PARTS)


@pytest.mark.parametrize("room", ROOMS)
def test_the_stub_of_a_test_holds_once_the_rule_is_listed(room, monkeypatch):
    scope = {}
    exec(stub_of("slack-line", room, "tests/verify"), scope)
    test = scope["test_what_can_not_be_read_is_told_in_its_place"]
    (cases,) = (mark.args[1] for mark in test.pytestmark)
    for case in cases:
        with pytest.raises(AssertionError):
            test(*case)
    monkeypatch.setitem(BY_NAME, "slack-line", rule_of("slack-line", room))
    for case in cases:
        test(*case)


def test_every_file_of_a_rule_that_stands_has_a_stub():
    """What a rule has, a new one is told of."""
    told = {str(stub.path) for stub in rule_stubs("thermometer", "lines")}
    holding = {
        str(path.relative_to(ROOT))
        for folder in ("verify/rules", "tests/support/rules", "tests/verify/rules", "styles/words")
        for path in (ROOT / folder).rglob("*")
        if path.suffix in (".py", ".yaml")
        if path.stem in ("thermometer", "test_thermometer", *languages())
    }
    assert holding | {"verify/rules/__init__.py"} <= told


def new(*words):
    return main(["new", *map(str, words)])


def test_stubs_are_shown_with_what_they_are_for(capsys):
    assert new("--rule", "slack-line", "--room", "cells") == 0
    out = capsys.readouterr().out
    for stub in rule_stubs("slack-line", "cells"):
        assert f"==> {stub.path} " in out
        assert stub.purpose in out
        assert stub.text in out


def checkout(folder):
    (folder / "verify" / "rules").mkdir(parents=True)
    (folder / "verify" / "rules" / "__init__.py").touch()
    gallery = folder / "books" / "gallery" / "puzzles" / "lines"
    gallery.mkdir(parents=True)
    (gallery / "07-thermometer.yaml").touch()
    return folder


def test_new_files_are_written_into_a_checkout_and_never_over_others(tmp_path, capsys):
    folder = checkout(tmp_path)
    assert new("--rule", "slack-line", "--into", folder, "--json") == 0
    told = json.loads(capsys.readouterr().out)
    own = [each for each in told if each["new"]]
    assert {path for path in folder.rglob("*slack*") if path.is_file()} == {
        folder / each["path"] for each in own
    }
    for each in own:
        assert (folder / each["path"]).read_text(encoding="utf-8") == each["text"]
    assert "books/gallery/puzzles/lines/08-slack-line.yaml" in {each["path"] for each in own}
    first = folder / own[0]["path"]
    first.write_text("mine", encoding="utf-8")
    (folder / own[1]["path"]).unlink()
    assert new("--rule", "slack-line", "--into", folder) == 2
    assert "is there already" in capsys.readouterr().err
    assert first.read_text(encoding="utf-8") == "mine"
    assert not (folder / own[1]["path"]).exists()


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ([], "expected the name of a manifest, or --rule"),
        (["heron", "--rule", "slack-line"], "expected the name of a manifest, or --rule"),
        (["heron", "--room", "lines"], "go with --rule"),
        (["heron", "--into", "."], "go with --rule"),
        (["--rule", "Slack Line"], "small letters in words joined by dashes"),
        (["--rule", "../up"], "small letters in words joined by dashes"),
        (["--rule", "x" * (LONGEST_NAME + 1)], f"at most {LONGEST_NAME} characters"),
        (["--rule", "class"], "small letters"),
        (["--rule", RULES[0].name], "a name that no rule has"),
        (["--rule", "slack-line", "--into", "nowhere"], "expected a checkout"),
    ],
)
def test_what_can_not_be_used_is_told(words, expected, capsys, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert new(*words) == 2
    assert expected in capsys.readouterr().err
    assert not list(Path(tmp_path).iterdir())
