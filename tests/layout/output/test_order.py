"""What the disk knows before each further step, so that a kill at any place can be made good."""

import os
import shutil
from pathlib import Path

import pytest

from layout.output import journal, write
from layout.output.files import OutputError, settle, write_durably
from layout.output.folder_lock import LOCK
from layout.output.journal import JOURNAL, UNDOING
from layout.output.write import outputs_in

EARLIER = {name: f"earlier {name}" for name in ("a.svg", "b.svg", "gone.svg", "ledger.csv")}
NEW = {name: f"new {name}" for name in ("a.svg", "b.svg", "c.svg", "ledger.csv")}


@pytest.fixture
def folder(tmp_path):
    folder = tmp_path / "build"
    folder.mkdir()
    for name, text in EARLIER.items():
        (folder / name).write_text(text)
    return folder


def run(folder):
    with outputs_in([folder], "daily.yaml", print) as outputs:
        texts = ((folder / name, text.encode(), None) for name, text in NEW.items())
        outputs.write_all(texts, [folder / "gone.svg"])


def texts(folder):
    return {each.name: each.read_text() for each in folder.iterdir() if each.name != LOCK}


class Noted:
    """What is asked of the system, in order: `(what, name)`."""

    def __init__(self, monkeypatch):
        self.steps = []
        for owner, name, named in (
            (os, "replace", 1),
            (os, "link", 1),
            (shutil, "rmtree", 0),
        ):
            self._note(monkeypatch, owner, name, named)
        for owner in (journal, write):
            self._note(monkeypatch, owner, "settle", 0)
        self._note_removals(monkeypatch)

    def _note(self, monkeypatch, owner, name, named):
        call = getattr(owner, name)

        def noted(*arguments, **more):
            if name != "rmtree" or Path(arguments[named]).exists():
                self.steps.append((name, self._short(arguments[named])))
            return call(*arguments, **more)

        monkeypatch.setattr(owner, name, noted)

    def _note_removals(self, monkeypatch):
        unlink = Path.unlink

        def noted(path, **more):
            if path.exists():
                self.steps.append(("unlink", self._short(path)))
            unlink(path, **more)

        monkeypatch.setattr(Path, "unlink", noted)

    @staticmethod
    def _short(path):
        """The name of a file or folder; of a run's own folder, where it is."""
        return "beside" if Path(path).name.startswith(".making.") else Path(path).name


def test_each_step_is_on_the_disk_before_the_next(folder, monkeypatch):
    noted = Noted(monkeypatch)
    run(folder)
    assert noted.steps == [
        ("settle", "beside"),
        ("link", "0.old"),
        ("link", "1.old"),
        ("link", "3.old"),
        ("link", "4.old"),
        ("settle", "beside"),
        ("replace", JOURNAL),
        ("settle", "beside"),
        ("replace", "a.svg"),
        ("replace", "b.svg"),
        ("replace", "c.svg"),
        ("replace", "ledger.csv"),
        ("unlink", "gone.svg"),
        ("settle", "build"),
        ("unlink", JOURNAL),
        ("rmtree", "beside"),
    ]


def test_what_was_moved_last_is_put_back_first(folder, monkeypatch):
    """A ledger never names what is there no more."""
    noted, unlink = Noted(monkeypatch), Path.unlink

    def fails(path, **more):
        if path.name == "gone.svg":
            raise OSError(5, "Input/output error")
        unlink(path, **more)

    monkeypatch.setattr(Path, "unlink", fails)
    with pytest.raises(OutputError, match="input/output error"):
        run(folder)
    undone = noted.steps[noted.steps.index(("replace", UNDOING)) :]
    assert undone == [
        ("replace", UNDOING),
        ("replace", "gone.svg"),
        ("replace", "ledger.csv"),
        ("unlink", "c.svg"),
        ("replace", "b.svg"),
        ("replace", "a.svg"),
        ("unlink", UNDOING),
        ("rmtree", "beside"),
    ]
    assert texts(folder) == EARLIER


def test_a_place_that_holds_a_file_is_never_without_one(folder, monkeypatch):
    replace = os.replace
    seen = []

    def looked(source, target):
        seen.append({name for name in EARLIER if (folder / name).exists()})
        replace(source, target)

    monkeypatch.setattr(os, "replace", looked)
    run(folder)
    assert len(seen) == 1 + len(NEW)
    assert all(names == EARLIER.keys() for names in seen)


def test_bytes_have_left_the_program_when_the_disk_is_asked_to_keep_them(tmp_path, monkeypatch):
    seen = []
    monkeypatch.setattr(os, "fsync", lambda _: seen.append((tmp_path / "x").read_bytes()))
    write_durably(tmp_path / "x", b"whole")
    assert seen == [b"whole"]


@pytest.mark.skipif(not hasattr(os, "O_DIRECTORY"), reason="folders can't be asked there")
def test_a_folder_is_settled_and_let_go(tmp_path, monkeypatch):
    """Also where the disk says that it knows no such thing."""
    asked, left, close = [], [], os.close

    def fsync(handle):
        asked.append((handle, os.fstat(handle).st_ino))
        raise OSError(22, "Invalid argument")

    def closed(handle):
        left.append(handle)
        close(handle)

    monkeypatch.setattr(os, "fsync", fsync)
    monkeypatch.setattr(os, "close", closed)
    settle(tmp_path)
    ((handle, which),) = asked
    assert which == tmp_path.stat().st_ino
    assert left == [handle]


def test_a_journal_is_whole_before_it_has_its_name(folder, monkeypatch):
    """The next run could not believe half of one, and would have to be helped by hand."""
    replace, before = os.replace, []

    def looked(source, target):
        if Path(target).name == JOURNAL:
            before.append(Path(target).exists())
        replace(source, target)

    monkeypatch.setattr(os, "replace", looked)
    run(folder)
    assert before == [False]
