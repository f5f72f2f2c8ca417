"""Files written whole or not at all."""

import errno
import os
import stat

import pytest

from layout import output
from layout.output import OutputError, write_all_whole, write_whole


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


@pytest.mark.parametrize("step", ["fsync", "replace", "chmod"])
@pytest.mark.parametrize(
    "error", [OSError(errno.ENOSPC, "No space left on device"), KeyboardInterrupt()]
)
def test_a_write_that_fails_leaves_the_earlier_file_and_nothing_beside_it(
    file, monkeypatch, step, error
):
    def fail(*_):
        raise error

    monkeypatch.setattr(output.os, step, fail)
    with pytest.raises((OutputError, KeyboardInterrupt)) as raised:
        write_whole(file, b"half a bo")
    assert file.read_bytes() == b"the earlier book"
    assert alone(file)
    if isinstance(error, OSError):
        assert str(raised.value) == f"can't write {file}: no space left on device"


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
    return {each.name: each.read_bytes() for each in folder.iterdir()}


def test_several_files_take_their_places_together(folder):
    written = write_all_whole(folder, SEASON, ["0.svg", "gone.svg"])
    assert written == [folder / name for name, _ in SEASON]
    assert held(folder) == dict(SEASON)


def test_a_new_folder_for_several_files(tmp_path):
    write_all_whole(tmp_path / "deep" / "build", SEASON)
    assert held(tmp_path / "deep" / "build") == dict(SEASON)


@pytest.mark.parametrize("calls", range(1, 6))
@pytest.mark.parametrize("error", [OSError(errno.ENOSPC, "No space left"), KeyboardInterrupt()])
def test_several_files_are_written_all_or_none(folder, monkeypatch, calls, error):
    earlier, replace, left = held(folder), os.replace, [calls]

    def fail_once(source, target):
        left[0] -= 1
        if left[0] == 0:
            raise error
        replace(source, target)

    monkeypatch.setattr(output.os, "replace", fail_once)
    with pytest.raises((OutputError, KeyboardInterrupt)):
        write_all_whole(folder, SEASON, ["0.svg"])
    assert held(folder) == earlier


def test_nothing_is_written_where_the_making_of_a_file_fails(tmp_path):
    def files():
        yield SEASON[0]
        raise ValueError("no such puzzle")

    with pytest.raises(ValueError, match="no such puzzle"):
        write_all_whole(tmp_path / "deep" / "build", files())
    assert list(tmp_path.iterdir()) == []


def test_a_folder_in_the_way_of_one_of_several_files(folder):
    (folder / "2.svg").mkdir()
    with pytest.raises(OutputError, match=r"2\.svg: it is a folder"):
        write_all_whole(folder, SEASON)
    assert (folder / "1.svg").read_bytes() == b"earlier one"
    assert len(list(folder.iterdir())) == 3
