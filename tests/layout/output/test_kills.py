"""Runs that are killed, interrupted, or started twice: nothing published is lost or changed."""

import json
import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from layout import interrupts
from layout.jobs.column.ledger import FILE_NAME
from layout.output import journal
from layout.output.files import OutputError
from layout.output.folder_lock import LOCK
from layout.output.journal import JOURNAL, UNDOING
from layout.output.write import outputs_in, write_whole
from tests.support.checkout import ROOT
from tests.support.seasons import write_column

ASKING = pytest.mark.parametrize("number", interrupts.ASKING)


@pytest.mark.parametrize(("kind", "step"), [("season", 3), ("from", 4), ("worksheet", 6)])
def test_a_run_killed_at_any_place_is_finished_by_the_next(kind, step):
    """Each step-th place; all of them by hand: `python -m tests.support.kills from`."""
    words = [sys.executable, "-m", "tests.support.kills", kind, str(step)]
    done = subprocess.run(words, cwd=ROOT, capture_output=True, text=True, check=True)
    places, faults = json.loads(done.stdout)
    assert places > 20
    assert faults == []


def test_two_runs_started_together_publish_no_puzzle_twice(tmp_path):
    job = write_column(tmp_path)
    words = [sys.executable, "-c", "from layout.command import main; raise SystemExit(main())"]
    runs = [
        subprocess.Popen([*words, "make", str(job)], cwd=ROOT, stderr=subprocess.PIPE, text=True)
        for _ in range(2)
    ]
    message = [run.communicate()[1] for run in runs]
    codes = [run.returncode for run in runs]
    assert 0 in codes
    refused = [text for text, code in zip(message, codes, strict=True) if code]
    assert all("is in use by another run" in text for text in refused)
    lines = (tmp_path / "build" / FILE_NAME).read_text().splitlines()
    assert len(lines) == len(set(lines)) == 5


@pytest.fixture
def folder(tmp_path):
    for name in ("a.svg", "b.svg", "ledger.csv"):
        (tmp_path / name).write_text(f"earlier {name}")
    return tmp_path


FILES = ("a.svg", "b.svg", "c.svg", "ledger.csv")


def run(folder, before=lambda name: None):
    """A run that writes all files; `before` is called as each is made."""
    said = []

    def made():
        for name in FILES:
            before(name)
            yield folder / name, f"new {name}".encode(), None

    with outputs_in([folder], "daily.yaml", said.append) as outputs:
        outputs.write_all(made())
    return said


def texts(folder):
    return {each.name: each.read_text() for each in folder.iterdir() if each.name != LOCK}


EARLIER = {name: f"earlier {name}" for name in ("a.svg", "b.svg", "ledger.csv")}
NEW = {name: f"new {name}" for name in FILES}


@ASKING
def test_a_signal_while_files_are_made_leaves_all_as_it_was(listening, folder, number):
    with pytest.raises(KeyboardInterrupt):
        run(folder, lambda name: os.kill(os.getpid(), number) if name == "c.svg" else None)
    assert interrupts.message() == "interrupted; no file was changed"
    assert texts(folder) == EARLIER


@ASKING
@pytest.mark.parametrize("name", FILES)
def test_a_signal_while_files_are_moved_waits_and_the_message_is_true(
    listening, folder, monkeypatch, number, name
):
    replace = os.replace

    def signalled(source, target):
        if Path(target).name == name:
            os.kill(os.getpid(), number)
            os.kill(os.getpid(), number)
        replace(source, target)

    monkeypatch.setattr(os, "replace", signalled)
    with pytest.raises(KeyboardInterrupt):
        run(folder)
    assert interrupts.message() == "interrupted; files that were finished are in their places"
    assert texts(folder) == NEW


@ASKING
def test_a_signal_while_one_file_is_moved_waits_and_the_message_is_true(
    listening, folder, monkeypatch, number
):
    replace = os.replace

    def signalled(source, target):
        os.kill(os.getpid(), number)
        replace(source, target)

    monkeypatch.setattr(os, "replace", signalled)
    with pytest.raises(KeyboardInterrupt):
        write_whole(folder / "a.svg", b"new a.svg")
    assert interrupts.message() == "interrupted; files that were finished are in their places"
    assert texts(folder) == EARLIER | {"a.svg": "new a.svg"}


def failing_at(name, monkeypatch, calls):
    """Moves fail at a file; `calls` is called before each move that follows."""
    replace, failed = os.replace, []

    def fails(source, target):
        if failed:
            calls()
        elif Path(target).name == name:
            failed.append(name)
            raise OSError(28, "No space left on device")
        replace(source, target)

    monkeypatch.setattr(os, "replace", fails)


@ASKING
@pytest.mark.parametrize("name", FILES)
def test_signals_while_a_failed_run_is_undone_wait_for_its_end(
    listening, folder, monkeypatch, number, name
):
    failing_at(name, monkeypatch, lambda: os.kill(os.getpid(), number))
    with pytest.raises(OutputError, match="no space left"):
        run(folder)
    assert texts(folder) == EARLIER


@pytest.mark.parametrize("calls", range(1, 5))
def test_an_undoing_that_fails_in_turn_is_gone_on_with_by_the_next_run(folder, monkeypatch, calls):
    left = [calls]

    def fail_again():
        left[0] -= 1
        if left[0] == 0:
            raise OSError(5, "Input/output error")

    failing_at("ledger.csv", monkeypatch, fail_again)
    with pytest.raises(OutputError):
        run(folder)
    monkeypatch.undo()
    said = run(folder)
    assert texts(folder) == NEW
    assert len(said) == (1 if left[0] <= 0 else 0)
    assert all("earlier run" in sentence for sentence in said)


@pytest.mark.parametrize("calls", range(2, 5))
def test_what_was_put_back_already_stays_where_putting_back_is_gone_on_with(
    folder, monkeypatch, calls
):
    left = [calls]

    def fail_again():
        left[0] -= 1
        if left[0] == 0:
            raise OSError(5, "Input/output error")

    failing_at("ledger.csv", monkeypatch, fail_again)
    with pytest.raises(OutputError):
        run(folder)
    monkeypatch.undo()
    mend(folder)
    assert texts(folder) == EARLIER


def mend(folder):
    """A run that finishes what an earlier one left, and writes nothing."""
    with outputs_in([folder], "daily.yaml", lambda sentence: None):
        pass


def test_putting_back_takes_nothing_away_that_the_run_never_put_there(folder, monkeypatch):
    beside = killed_before_its_moves(folder, monkeypatch)
    (beside / JOURNAL).rename(beside / UNDOING)
    (folder / "c.svg").write_text("drawn by hand")
    mend(folder)
    assert texts(folder) == EARLIER | {"c.svg": "drawn by hand"}


def test_a_file_that_was_to_go_and_was_changed_since_stays(folder, monkeypatch):
    def write_none():
        with outputs_in([folder], "daily.yaml", print) as outputs:
            outputs.write_all([], [folder / "b.svg"])

    killed_before_its_moves(folder, monkeypatch, write_none)
    (folder / "b.svg").unlink()
    (folder / "b.svg").write_text("drawn by hand")
    with pytest.raises(OutputError, match="another stands there now"):
        mend(folder)
    assert texts_but_beside(folder) == EARLIER | {"b.svg": "drawn by hand"}


def killed_before_its_moves(folder, monkeypatch, work=None):
    """A run that wrote its journal and then was no more."""

    def die(*arguments):
        raise SystemExit

    with monkeypatch.context() as patched:
        patched.setattr(journal.UnderWay, "_finish_or_undo", die)
        with pytest.raises(SystemExit):
            work() if work else run(folder)
    (beside,) = folder.glob(".making.*")
    return beside


def test_a_signal_while_an_earlier_run_is_finished_waits(listening, folder, monkeypatch):
    killed_before_its_moves(folder, monkeypatch)
    replace = os.replace

    def signalled(source, target):
        os.kill(os.getpid(), signal.SIGINT)
        replace(source, target)

    monkeypatch.setattr(os, "replace", signalled)
    with pytest.raises(KeyboardInterrupt):
        mend(folder)
    assert texts(folder) == NEW


def test_a_run_in_two_folders_is_finished_in_both(folder, monkeypatch):
    """A column's ledger may stand in another folder than its issues."""
    other = folder / "ledgers"
    other.mkdir()
    (other / "ledger.csv").write_text("earlier ledger")

    def write_both():
        with outputs_in([folder, other], "daily.yaml", print) as outputs:
            outputs.write_all(
                [(folder / "a.svg", b"new a", None), (other / "ledger.csv", b"new ledger", None)]
            )

    killed_before_its_moves(folder, monkeypatch, write_both)
    with outputs_in([folder, other], "daily.yaml", print):
        pass
    assert (folder / "a.svg").read_text() == "new a"
    assert (other / "ledger.csv").read_text() == "new ledger"


def test_the_next_run_says_what_it_finished(folder, monkeypatch):
    killed_before_its_moves(folder, monkeypatch)
    assert texts_but_beside(folder) == EARLIER
    (sentence,) = run(folder)
    assert sentence == f"{folder}: finished what an earlier run was killed at (files: 4)"
    assert texts(folder) == NEW


def test_what_a_dead_process_left_is_finished_and_not_cleared_away(folder, monkeypatch):
    beside = killed_before_its_moves(folder, monkeypatch)
    with subprocess.Popen([sys.executable, "-c", ""]) as child:
        child.wait()
    beside.rename(folder / beside.name.replace(str(os.getpid()), str(child.pid)))
    mend(folder)
    assert texts(folder) == NEW


def texts_but_beside(folder):
    return {each.name: each.read_text() for each in folder.iterdir() if each.name[0] != "."}


@pytest.mark.parametrize("name", ["b.svg", "c.svg"])
def test_a_file_that_somebody_put_there_since_is_not_written_over(folder, monkeypatch, name):
    beside = killed_before_its_moves(folder, monkeypatch)
    (folder / name).unlink(missing_ok=True)
    (folder / name).write_text("drawn by hand")
    with pytest.raises(OutputError, match="another stands there now") as raised:
        run(folder)
    assert str(beside) in str(raised.value)
    assert texts_but_beside(folder) == EARLIER | {name: "drawn by hand"}


@pytest.mark.parametrize("text", ["", "{", "[1]", '[{"number": 0}]', "[[]]", "null"])
@pytest.mark.parametrize("name", [JOURNAL, UNDOING])
def test_a_journal_that_is_none_is_told_and_nothing_is_touched(folder, monkeypatch, text, name):
    beside = killed_before_its_moves(folder, monkeypatch)
    (beside / JOURNAL).unlink()
    (beside / name).write_text(text)
    with pytest.raises(OutputError, match=r"can't read .*json, which an earlier run left"):
        run(folder)
    assert texts_but_beside(folder) == EARLIER


@pytest.mark.parametrize("number", [1, -1, "0", "../0", None])
def test_a_journal_names_its_own_files_alone(folder, monkeypatch, number):
    beside = killed_before_its_moves(folder, monkeypatch)
    moves = json.loads((beside / JOURNAL).read_text())
    moves[0]["number"] = number
    (beside / JOURNAL).write_text(json.dumps(moves))
    with pytest.raises(OutputError, match="which an earlier run left"):
        mend(folder)
    assert texts_but_beside(folder) == EARLIER


def test_a_journal_in_a_folder_that_is_a_link_is_no_run(folder, monkeypatch):
    beside = killed_before_its_moves(folder, monkeypatch)
    elsewhere = beside.rename(folder.parent / f"{folder.name}-elsewhere")
    beside.symlink_to(elsewhere)
    mend(folder)
    assert texts_but_beside(folder) == EARLIER
    assert (elsewhere / JOURNAL).exists()


@pytest.mark.parametrize("place", ["../a.svg", "/tmp/a.svg", "deep/a.svg", "..", ""])
def test_a_journal_leads_to_no_other_folder(folder, monkeypatch, place):
    beside = killed_before_its_moves(folder, monkeypatch)
    moves = json.loads((beside / JOURNAL).read_text())
    moves[0]["place"] = place
    (beside / JOURNAL).write_text(json.dumps(moves))
    with pytest.raises(OutputError, match="which an earlier run left"):
        run(folder)
    assert not (folder.parent / "a.svg").exists()


def no_links(*arguments):
    raise OSError(1, "Operation not permitted")


def test_files_are_copied_where_a_disk_has_no_second_names(folder, monkeypatch):
    monkeypatch.setattr(os, "link", no_links)
    killed_before_its_moves(folder, monkeypatch)
    mend(folder)
    assert texts(folder) == NEW


def test_copies_are_put_back_like_second_names(folder, monkeypatch):
    monkeypatch.setattr(os, "link", no_links)
    failing_at("ledger.csv", monkeypatch, lambda: None)
    with pytest.raises(OutputError):
        run(folder)
    assert texts(folder) == EARLIER
