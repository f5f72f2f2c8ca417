"""A puzzle that no worker process survives: it is named, it is not printed, the rest goes on."""

import json
import os
from contextlib import nullcontext
from dataclasses import fields
from datetime import date
from typing import Any

import pytest

from layout.command import main
from layout.jobs.column.day_files import DayTask, undrawn
from layout.jobs.common.choosing import ANY, choose
from layout.jobs.common.making import Making
from layout.jobs.common.proving import MayNotBePrinted, prove_all
from layout.jobs.common.walking import walk_all
from layout.pages.column.column import ColumnDay
from tests.support.boards import plain
from verify.budget import Budget
from verify.check import check
from verify.manifest.bank_line import BankLine
from verify.manifest.find import Found
from verify.puzzle import Puzzle
from verify.reading.node import Place
from verify.walk.report.grade import Band
from verify.work import FEW


class Deadly(Puzzle):
    """A puzzle that ends the process that it is handed to."""

    __slots__ = ()

    def __reduce__(self):
        return os._exit, (1,)


def quiet(label, total):
    return nullcontext(lambda done: None)


@pytest.fixture
def deadly():
    one = plain(1)
    return Deadly(**{field.name: getattr(one, field.name) for field in fields(one)})


@pytest.fixture
def puzzles(deadly):
    return [plain(1)] * FEW + [deadly, plain(1)]


def test_check_tells_it_as_undecided_and_why(puzzles):
    *findings, lost, last = check(puzzles, Budget(), 2)
    assert {finding.verdict for finding in (*findings, last)} == {"one"}
    assert (lost.verdict, lost.printable) == ("undecided", False)
    assert "broke off twice" in lost.problems[0].message


def test_a_manifest_that_was_not_even_read_is_told_by_its_name(tmp_path):
    class DeadlyFound(Found):
        __slots__ = ()

        def __reduce__(self):
            return os._exit, (1,)

    items: list[Puzzle | Found] = [
        *[plain(1)] * FEW,
        DeadlyFound(tmp_path / "heron.yaml", "low/heron.yaml", False),
    ]
    *_, lost = check(items, Budget(), 2)
    assert (lost.file, lost.id, lost.verdict) == ("low/heron.yaml", "heron", "undecided")


def test_a_line_of_a_bank_is_told_by_its_number_and_the_rest_goes_on():
    class DeadlyLine(BankLine):
        __slots__ = ()

        def __reduce__(self):
            return os._exit, (1,)

    cells = "12343412214343.1"
    lines = [BankLine(Place("marsh.txt", n, 1), f"marsh-{n}", cells) for n in range(1, 61)]
    lines[40] = DeadlyLine(Place("marsh.txt", 41, 1), "marsh-41", f"{cells} ebb")
    findings = list(check(iter(lines), Budget(), 2))
    assert [each.place and each.place.line for each in findings] == list(range(1, 61))
    assert [n for n, each in enumerate(findings) if each.verdict != "one"] == [40]
    assert (findings[40].verdict, findings[40].kept) == ("undecided", "ebb")


def test_check_prints_why_and_ends_with_one(monkeypatch, capsys, deadly, tmp_path):
    (tmp_path / "a.yaml").write_text("kind: sudoku\nsize: 4\n")
    monkeypatch.setattr("verify.check.items_of", lambda found: [*[plain(1)] * FEW, deadly])
    assert main(["check", str(tmp_path), "--jobs", "2"]) == 1
    assert "the work on it broke off twice" in capsys.readouterr().out
    assert main(["check", str(tmp_path), "--jobs", "2", "--json"]) == 1
    *_, lost = json.loads(capsys.readouterr().out)["puzzles"]
    assert "broke off twice" in lost["errors"][0]["message"]


@pytest.mark.parametrize("step", [prove_all, walk_all])
def test_a_job_names_it_and_is_refused(step, puzzles, deadly):
    with pytest.raises(MayNotBePrinted) as refused:
        step(puzzles, Making(None, 2, quiet), lambda done: None)
    (line,) = refused.value.lines
    assert line.startswith(f"{deadly.file}: {deadly.id}: ")
    assert "memory" in line


def test_a_column_does_not_choose_it(puzzles):
    with pytest.raises(MayNotBePrinted, match="memory"):
        choose([ANY] * 26, puzzles, set(), 2)


def test_a_day_that_was_not_drawn_is_named(deadly):
    day = ColumnDay("Daily Grid", date(2027, 1, 4), 1, deadly, Band.CALM, (1,))
    printed: Any = None  # nobody asks how
    (misfit,) = undrawn(DayTask(day, printed, {}, printed))
    assert deadly.id in misfit.message
