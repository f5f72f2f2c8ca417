"""The ledger: read as it was written, and every contradiction at its line."""

import os
from contextlib import suppress
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layout.jobs.column.ledger import (
    FILE_NAME,
    HEAD,
    Ledger,
    LedgerEntry,
    Published,
    checksum,
    ledger_text,
    read_ledger,
)
from verify.reading.problems import Unreadable


def entry(day, number, puzzle, files):
    named = tuple(Published(name, checksum(data)) for name, data in files.items())
    return LedgerEntry(date(2027, 1, day), number, puzzle, "calm", f"form of {puzzle}", named)


ENTRIES = (
    entry(4, 7, "heron", {"4.svg": b"four", "4.pdf": b"four in pdf"}),
    entry(5, 8, "eel, smoked", {"5.svg": b"five"}),
)


@pytest.fixture
def folder(tmp_path):
    for name, data in (("4.svg", b"four"), ("4.pdf", b"four in pdf"), ("5.svg", b"five")):
        (tmp_path / name).write_bytes(data)
    (tmp_path / FILE_NAME).write_text(ledger_text(ENTRIES), newline="")
    return tmp_path


def problems(folder):
    with pytest.raises(Unreadable) as raised:
        read_ledger(folder)
    return [(problem.place.line, problem.message) for problem in raised.value.problems]


def plain(ledger: Ledger):
    return ledger_text(ledger.entries)


def test_a_ledger_is_read_as_it_was_written(folder):
    ledger = read_ledger(folder)
    assert plain(ledger) == ledger_text(ENTRIES)
    assert [file.line for each in ledger.entries for file in each.files] == [2, 3, 4]


def test_a_folder_without_a_ledger(tmp_path):
    assert read_ledger(tmp_path / "build").entries == ()


def test_a_missing_file_is_no_contradiction(folder):
    (folder / "4.pdf").unlink()
    assert len(read_ledger(folder).entries) == 2


def test_a_changed_file_is_told_at_its_line(folder):
    (folder / "4.pdf").write_bytes(b"another")
    ((line, message),) = problems(folder)
    assert line == 3
    assert "4.pdf is not the file that was published on 2027-01-04" in message


@pytest.mark.parametrize(
    ("old", "new", "line", "expected"),
    [
        ("date,number", "day,number", 1, 'expected "date,number,puzzle'),
        ("2027-01-05", "2027-02-30", 4, "expected a date such as"),
        ("2027-01-05", "2027-01-03", 4, "2027-01-03 stands behind 2027-01-04"),
        ("2027-01-05,8", "2027-01-05,eight", 4, "expected the number of a puzzle"),
        ("2027-01-05,8", "2027-01-05", 4, "found 10 fields"),
        ("5.svg", "../5.svg", 4, "expected the name of a file in the folder"),
        ("5.svg", "4.svg", 4, "4.svg stands in line 2 already"),
        ("calm,5", "Calm 1,5", 4, "expected a grade"),
        (
            "form of heron,,,,\n2027-01-05",
            "form of eel,,,,\n2027-01-05",
            3,
            "line 2 tells another puzzle",
        ),
        ('smoked",,,,', 'smoked",12x4,,,', 4, "expected the cells of a line"),
        ('smoked",,,,', 'smoked",,,,teal', 4, "expected a look"),
        ("form of eel, smoked", "form of heron", 4, "is the puzzle of 2027-01-04 in line 2 again"),
        (checksum(b"five"), "5" * 63, 4, "expected a checksum"),
        (checksum(b"five"), "5" * 64, 4, "5.svg is not the file"),
        ('"form of eel', '"form" of eel', 4, "found 1 fields"),
    ],
)
def test_a_ledger_edited_by_hand(folder, old, new, line, expected):
    text = (folder / FILE_NAME).read_text()
    assert old in text
    (folder / FILE_NAME).write_text(text.replace(old, new, 1))
    found = problems(folder)
    assert any(at == line and expected in message for at, message in found), found


def test_an_empty_ledger_is_told(tmp_path):
    (tmp_path / FILE_NAME).write_text("")
    assert problems(tmp_path)[0][0] == 1


FIELDS = st.text(st.characters(codec="utf-8"), max_size=8)


@given(st.lists(st.lists(FIELDS, min_size=6, max_size=8).map(",".join), max_size=5))
def test_any_text_is_read_or_told(tmp_path_factory, lines):
    folder = tmp_path_factory.mktemp("ledger")
    text = "\n".join([",".join(HEAD), *lines])
    (folder / FILE_NAME).write_text(text, encoding="utf-8", newline="")
    with suppress(Unreadable):
        assert len(read_ledger(folder).entries) <= len(lines)


def test_a_ledger_that_is_a_link_is_refused_without_showing_what_is_there(tmp_path):
    (tmp_path / "secret").write_text("root:x:0")
    folder = tmp_path / "build"
    folder.mkdir()
    (folder / FILE_NAME).symlink_to(tmp_path / "secret")
    assert problems(folder) == [(1, "found a link, expected a file")]


def test_a_day_file_that_is_a_pipe_is_not_waited_for(folder):
    (folder / "5.svg").unlink()
    os.mkfifo(folder / "5.svg")
    assert "5.svg is not the file" in problems(folder)[0][1]


def test_lines_end_as_rfc_4180_says_and_older_ledgers_are_read_on(folder):
    path = folder / FILE_NAME
    data = path.read_bytes()
    assert data.count(b"\r\n") == data.count(b"\n") == 4
    path.write_bytes(data.replace(b"\r\n", b"\n").replace(b",calm,", b",gentle,"))
    assert {each.grade for each in read_ledger(folder).entries} == {"gentle"}


def test_a_ledger_that_an_earlier_version_hid_is_told(tmp_path):
    (tmp_path / ".making.abc" / "old").mkdir(parents=True)
    (tmp_path / ".making.abc" / "old" / FILE_NAME).write_text("")
    assert "put it back" in problems(tmp_path)[0][1]
