"""Files written whole or not at all."""

import errno
import os
import stat

import pytest

from layout import output
from layout.output import OutputError, write_whole


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
