"""A column whose bank is sorted, pruned and grows: what is out is known by its form."""

import csv
import io
import json

import pytest

from layout.command import main
from layout.jobs.column.ledger import EARLIER_HEAD, FILE_NAME
from tests.support.seasons import JOB, small_bank, write_column

LONGER = ("issues: 4", "issues: 6")


@pytest.fixture
def job(tmp_path):
    """Four days are out; the days to come print the answer of the fourth."""
    path = write_column(tmp_path)
    bank = path.parent / "bank" / "eel.txt"
    bank.write_text("".join(f"{line}\t\t\tIda Marsh\n" for line in small_bank(6)))
    assert main(["make", str(path), "--quiet"]) == 0
    path.write_text(JOB.replace(*LONGER))
    return path


def made(job, capsys):
    code = main(["make", str(job), "--json", "--jobs", "1"])
    out, err = capsys.readouterr()
    return code, json.loads(out), err


def held(job):
    return {path.name: path.read_bytes() for path in (job.parent / "build").glob("2027*")}


def rewrite_bank(job, change):
    bank = job.parent / "bank" / "eel.txt"
    bank.write_text("\n".join(change(bank.read_text().splitlines())))


def forget_lines(job):
    """Makes the ledger that of an earlier version."""
    path = job.parent / "build" / FILE_NAME
    rows = list(csv.DictReader(io.StringIO(path.read_text())))
    with path.open("w", newline="") as file:
        writer = csv.DictWriter(file, EARLIER_HEAD, extrasaction="ignore")
        writer.writeheader()
        writer.writerows(rows)


def given(lines):
    """What the ledger must hold of the days that were made of some lines."""
    return [line.split("\t")[0].replace("0", ".") for line in lines]


def ledger(job):
    text = (job.parent / "build" / FILE_NAME).read_text()
    return list(csv.DictReader(io.StringIO(text)))


CHANGES = {
    "sorted": lambda lines: sorted(lines),
    "turned round": lambda lines: lines[::-1],
    "pruned": lambda lines: lines[4:],
    "grown": lambda lines: [lines[5], "# new ones", lines[4], *lines],
}


@pytest.mark.parametrize("change", CHANGES.values(), ids=CHANGES)
def test_a_bank_may_be_sorted_pruned_and_grow(job, capsys, change):
    before, fresh = held(job), set(given(small_bank(6)[4:]))
    rewrite_bank(job, change)
    code, facts, _ = made(job, capsys)
    assert code == 0
    assert {name: held(job)[name] for name in before} == before
    assert {row["cells"] for row in ledger(job)[4:]} == fresh
    assert {row["constructor"] for row in ledger(job)} == {"Ida Marsh"}
    assert [day["published"] for day in facts["days"]] == [True] * 4 + [False] * 2


@pytest.mark.parametrize("change", CHANGES.values(), ids=CHANGES)
def test_a_lost_file_is_made_of_the_ledger(job, capsys, change):
    before = held(job)
    lost = job.parent / "build" / "2027-02-27-eel-2.svg"
    lost.unlink()
    rewrite_bank(job, change)
    assert made(job, capsys)[0] == 0
    assert held(job)[lost.name] == before[lost.name]


def test_what_is_out_is_not_even_proved_again(job, capsys, monkeypatch):
    seen = []

    def look_at(item, know_it):
        seen.append(item.text)
        return ()

    monkeypatch.setattr("layout.jobs.common.choosing.look_at", look_at)
    made(job, capsys)
    assert [text.split("\t")[0] for text in seen] == list(small_bank(6)[4:])


@pytest.mark.parametrize("change", ["turned round", "grown"])
def test_the_ledger_of_an_earlier_version_is_read_on(job, capsys, change):
    before = held(job)
    forget_lines(job)
    (job.parent / "build" / "2027-02-27-eel-2.svg").unlink()
    rewrite_bank(job, CHANGES[change])
    assert made(job, capsys)[0] == 0
    assert {name: held(job)[name] for name in before} == before
    assert [row["cells"] != "" for row in ledger(job)] == [False] * 4 + [True] * 2


@pytest.mark.parametrize(
    ("lines", "expected"),
    [
        ((0, 1, 2, 4, 5), '"eel-4" is not the puzzle that was published on 2027-03-02'),
        ((4, 5), 'found no puzzle "eel-4" in the job, expected that of 2027-03-02'),
    ],
)
def test_a_puzzle_that_is_nowhere_is_told(job, capsys, lines, expected):
    forget_lines(job)
    rewrite_bank(job, lambda bank: [bank[number] for number in lines])
    code, _, err = made(job, capsys)
    assert code == 2
    assert f"{FILE_NAME}:5:1: {expected}" in err
