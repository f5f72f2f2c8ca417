"""Files written whole or not at all."""

import errno
import os
import stat
import subprocess
import sys
from pathlib import Path

import pytest

from layout.output import files as output
from layout.output import write
from layout.output.files import OutputError, refuse_inputs
from layout.output.folder_lock import LOCK
from layout.output.write import outputs_in, write_whole


@pytest.fixture
def file(tmp_path):
    path = tmp_path / "book.pdf"
    path.write_bytes(b"the earlier book")
    return path


def alone(path):
    return [each.name for each in path.parent.iterdir()] == [path.name]


def test_the_new_takes_the_place_of_the_old(file):
    write_whole(file, b"the new book")
    assert file.read_bytes() == b"the new book"
    assert alone(file)


def test_folders_on_the_way_are_made(tmp_path):
    write_whole(tmp_path / "build" / "deep" / "x.svg", b"x")
    assert (tmp_path / "build" / "deep" / "x.svg").read_bytes() == b"x"


def test_a_file_is_readable_as_the_user_s_files_are(tmp_path):
    old = os.umask(0o027)
    try:
        write_whole(tmp_path / "x", b"x")
    finally:
        os.umask(old)
    assert stat.S_IMODE((tmp_path / "x").stat().st_mode) == 0o640


@pytest.mark.parametrize("step", ["fsync", "replace"])
@pytest.mark.parametrize(
    "error", [OSError(errno.ENOSPC, "No space left on device"), KeyboardInterrupt()]
)
def test_a_write_that_fails_leaves_the_earlier_file_and_nothing_beside_it(
    file, monkeypatch, step, error
):
    def fail(*_):
        raise error

    monkeypatch.setattr((output if step == "fsync" else write).os, step, fail)
    with pytest.raises((OutputError, KeyboardInterrupt)) as raised:
        write_whole(file, b"half a bo")
    assert file.read_bytes() == b"the earlier book"
    assert alone(file)
    if isinstance(error, OSError):
        assert str(raised.value) == f"can't write {file}: no space left on device"


@pytest.mark.parametrize(
    "name", ["book.pdf", "deep/../book.pdf", "soft.pdf", "hard.pdf", "Book.PDF"]
)
def test_what_is_read_is_not_written_however_it_is_spelled(file, name):
    (file.parent / "deep").mkdir()
    (file.parent / "soft.pdf").symlink_to(file)
    (file.parent / "hard.pdf").hardlink_to(file)
    with pytest.raises(OutputError, match="it is what is read"):
        refuse_inputs(file.parent / name, [file.parent / "other.pdf", file])
    refuse_inputs(file.parent / "other.pdf", [file])


def test_what_was_to_be_read_and_is_not_there_is_not_written_either(tmp_path):
    with pytest.raises(OutputError, match="it is what is read"):
        refuse_inputs(tmp_path / "deep" / ".." / "x.pdf", [tmp_path / "x.pdf"])


def test_one_file_is_checked_before_it_takes_its_place(file):
    def refuse(path):
        assert path.read_bytes() == b"the new book"
        assert file.read_bytes() == b"the earlier book"
        raise ValueError("no pages")

    with pytest.raises(ValueError, match="no pages"):
        write_whole(file, b"the new book", refuse)
    assert file.read_bytes() == b"the earlier book"
    assert alone(file)


def test_a_folder_is_no_file(tmp_path):
    with pytest.raises(OutputError, match="it is a folder"):
        write_whole(tmp_path, b"x")


def test_a_file_in_the_way_of_a_folder_is_told(file):
    with pytest.raises(OutputError, match="can't write"):
        write_whole(file / "inside.pdf", b"x")


def test_a_name_too_long_is_told(tmp_path):
    with pytest.raises(OutputError, match="name too long"):
        write_whole(tmp_path / ("x" * 300 + ".pdf"), b"x")


@pytest.mark.skipif(os.geteuid() == 0, reason="to root every folder can be written")
def test_a_read_only_folder_is_told(tmp_path):
    tmp_path.chmod(0o500)
    with pytest.raises(OutputError, match="permission denied"):
        write_whole(tmp_path / "x.pdf", b"x")


SEASON = [("1.svg", b"one"), ("2.svg", b"two"), ("ledger.csv", b"1, 2")]


@pytest.fixture
def folder(tmp_path):
    folder = tmp_path / "build"
    folder.mkdir()
    (folder / "1.svg").write_bytes(b"earlier one")
    (folder / "0.svg").write_bytes(b"earlier nought")
    return folder


def held(folder):
    found = {each.name: each.read_bytes() for each in folder.iterdir()}
    found.pop(LOCK, None)
    return found


def write_season(folder, files=SEASON, unwanted=()):
    said = []
    with outputs_in([folder], "daily.yaml", said.append) as outputs:
        written = outputs.write_all(
            ((folder / name, data, None) for name, data in files), [folder / n for n in unwanted]
        )
    return written, said


def test_several_files_take_their_places_together(folder):
    written, said = write_season(folder, unwanted=["0.svg", "gone.svg"])
    assert (written, said) == ([folder / name for name, _ in SEASON], [])
    assert held(folder) == dict(SEASON)


def test_a_file_that_is_written_is_not_taken_away_as_unwanted(folder):
    write_season(folder, unwanted=["1.svg", "0.svg"])
    assert held(folder) == dict(SEASON)


def test_a_new_folder_for_several_files(tmp_path):
    write_season(tmp_path / "deep" / "build")
    assert held(tmp_path / "deep" / "build") == dict(SEASON)


@pytest.mark.parametrize("calls", range(1, 5))
@pytest.mark.parametrize("error", [OSError(errno.ENOSPC, "No space left"), KeyboardInterrupt()])
def test_several_files_are_written_all_or_none(folder, monkeypatch, calls, error):
    earlier, replace, left = held(folder), os.replace, [calls]

    def fail_once(source, target):
        left[0] -= 1
        if left[0] == 0:
            raise error
        replace(source, target)

    monkeypatch.setattr(os, "replace", fail_once)
    with pytest.raises((OutputError, KeyboardInterrupt)):
        write_season(folder, unwanted=["0.svg"])
    assert left[0] <= 0
    assert held(folder) == earlier


def test_a_ledger_takes_its_place_after_all_other_files(folder, monkeypatch):
    order, replace = [], os.replace

    def noted(source, target):
        order.append(Path(target).name)
        replace(source, target)

    monkeypatch.setattr(os, "replace", noted)
    write_season(folder, unwanted=["0.svg"])
    assert [name for name in order if name in dict(SEASON)] == [name for name, _ in SEASON]


def test_nothing_is_written_where_the_making_of_a_file_fails(tmp_path):
    def files():
        yield SEASON[0]
        raise ValueError("no such puzzle")

    with pytest.raises(ValueError, match="no such puzzle"):
        write_season(tmp_path / "deep" / "build", files())
    assert list(tmp_path.iterdir()) == []


def test_a_folder_in_the_way_of_one_of_several_files(folder):
    (folder / "2.svg").mkdir()
    with pytest.raises(OutputError, match=r"2\.svg: it is a folder"):
        write_season(folder)
    assert (folder / "1.svg").read_bytes() == b"earlier one"
    assert {each.name for each in folder.iterdir()} == {"0.svg", "1.svg", "2.svg", LOCK}


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="there are no pipes with names")
def test_a_pipe_in_the_way_is_refused_and_never_waited_for(folder):
    os.mkfifo(folder / "2.svg")
    with pytest.raises(OutputError, match=r"2\.svg: it is a device or a pipe"):
        write_season(folder)
    with pytest.raises(OutputError, match="it is a device or a pipe"):
        write_whole(folder / "2.svg", b"x")


def test_a_file_is_checked_before_any_takes_its_place(folder):
    def refuse(path):
        raise ValueError(path.read_bytes())

    earlier = held(folder)
    with outputs_in([folder], "daily.yaml", print) as outputs:
        files = [(folder / "1.svg", b"one", None), (folder / "2.svg", b"two", refuse)]
        with pytest.raises(ValueError, match="two"):
            outputs.write_all(files)
    assert held(folder) == earlier


def test_a_second_run_in_a_folder_is_told_who_is_at_work_there(folder):
    earlier = held(folder)
    with outputs_in([folder], "daily.yaml", print):
        with pytest.raises(OutputError) as raised:
            write_season(folder)
        assert f"in use by another run: daily.yaml, process {os.getpid()}, since" in str(
            raised.value
        )
    assert held(folder) == earlier
    write_season(folder)


def test_a_long_name_of_a_job_is_told_in_part(folder):
    with outputs_in([folder], "d" * 5000, print):
        with pytest.raises(OutputError) as raised:
            write_season(folder)
        assert "d" * write.MOST_TOLD + ", process" in str(raised.value)
        assert "d" * (write.MOST_TOLD + 1) not in str(raised.value)


def leftover(folder, process, *names, suffix="abcdefgh"):
    beside = folder / f".making.{process}.{suffix}"
    beside.mkdir()
    for name in names:
        (beside / name).write_bytes(b"half a")
    return beside


def dead_process():
    """The number of a process that is no more."""
    child = subprocess.Popen([sys.executable, "-c", ""])
    child.wait()
    return child.pid


@pytest.mark.parametrize("name", ["season", "single"])
def test_what_dead_runs_left_is_taken_away_and_nothing_else(folder, name):
    gone = leftover(folder, dead_process(), "0.new", "job.txt")
    alive = leftover(folder, os.getppid(), "0.new")
    alike = [leftover(folder, dead_process(), suffix=end) for end in ("abc", "abcdefgh.kept")]
    nobody = leftover(folder, 9_999_999_999)
    if name == "season":
        write_season(folder)
    else:
        write_whole(folder / "1.svg", b"one")
    assert not gone.exists()
    assert all(each.exists() for each in (alive, *alike, nobody))


def test_a_process_of_somebody_else_is_alive(folder, monkeypatch):
    def not_allowed(process, number):
        raise PermissionError(1, "Operation not permitted")

    theirs = leftover(folder, 12345)
    monkeypatch.setattr(os, "kill", not_allowed)
    write_season(folder)
    assert theirs.exists()
