"""`reglet check --out`: results in order, whole, and gone on with after a stop."""

import csv
import json
import os
import signal
import subprocess
import sys
import time

import pytest

from layout.command import main
from layout.output.results import PART, RUN
from tests.support.checkout import ROOT

ONE = "12343412214343.1"
MANY = "1" + "." * 15
NONE = "11" + "." * 14
BEGIN = "import layout.start, sys; sys.exit(layout.start.main())"
ENDINGS = [".jsonl", ".csv"]
DAILY = (ROOT / "books/daily/bank/creeks.txt").read_text().splitlines()


def bank_of(folder, lines, name="marsh.txt"):
    path = folder / name
    path.write_text("\n".join(lines) + "\n")
    return path


def checked(bank, ending, *words):
    out = bank.with_name(f"out{ending}")
    code = main(["check", str(bank), "--out", str(out), *map(str, words)])
    return code, out


def rows(out):
    text = out.read_text()
    if out.suffix == ".csv":
        return list(csv.DictReader(text.splitlines()))
    return [json.loads(line) for line in text.splitlines()]


@pytest.mark.parametrize("ending", ENDINGS)
def test_every_line_has_its_result_in_order(tmp_path, capsys, ending):
    bank = bank_of(tmp_path, [f"{ONE} 4.5 ebb", "", MANY, "Slack Water", f"low {NONE}", ONE])
    code, out = checked(bank, ending)
    found = rows(out)
    assert code == 2
    assert [each["verdict"] for each in found] == ["one", "many", "unreadable", "none", "one"]
    assert [each.get("kept") or "" for each in found] == ["4.5 ebb", "", "", "low", ""]
    assert "expected 256, 81, 36 or 16" in str(found[2]["errors"])
    assert "5 checked: 1 many, 1 none, 2 one, 1 unreadable" in capsys.readouterr().err
    assert sorted(path.name for path in tmp_path.glob("out*")) == [out.name]
    if ending == ".csv":
        assert [each["line"] for each in found] == ["1", "3", "4", "5", "6"]
        assert found[0]["answer"] == ONE.replace(".", "2")


def test_columns_of_a_table_are_kept(tmp_path):
    bank = bank_of(tmp_path, ["rank,puzzle,name", f'7,{ONE},"Low, ""ebb"""'], "marsh.csv")
    (row,) = rows(checked(bank, ".jsonl")[1])
    assert row["kept"] == {"rank": "7", "name": 'Low, "ebb"'}
    (row,) = rows(checked(bank, ".csv")[1])
    assert json.loads(row["kept"]) == {"rank": "7", "name": 'Low, "ebb"'}


def test_a_lone_half_of_a_letter_is_kept(tmp_path):
    bank = bank_of(tmp_path, [f'{{"puzzle": "{ONE}", "by": "\\ud800ä"}}'], "marsh.jsonl")
    for ending in ENDINGS:
        code, out = checked(bank, ending)
        assert code == 0
        (row,) = rows(out)
        kept = row["kept"] if ending == ".jsonl" else json.loads(row["kept"])
        assert kept == {"by": "\ud800ä"}


@pytest.mark.parametrize("workers", [1, 2])
@pytest.mark.parametrize("ending", ENDINGS)
@pytest.mark.parametrize("torn", [0, 1, 20])
def test_a_run_goes_on_behind_the_last_line_that_is_whole(tmp_path, capsys, ending, torn, workers):
    bank = bank_of(tmp_path, [ONE, MANY, NONE, "x"] * 10)
    code, out = checked(bank, ending, "--jobs", 1)
    whole = out.read_bytes()
    run_file = stopped_run(bank, out, whole, torn)
    capsys.readouterr()
    assert checked(bank, ending, "--jobs", workers) == (code, out)
    assert out.read_bytes() == whole
    err = capsys.readouterr().err
    assert " were done before; this run goes on" in err
    assert "40 checked: 10 many, 10 none, 10 one, 10 unreadable" in err
    assert not run_file.exists()


@pytest.mark.parametrize("ending", ENDINGS)
def test_what_a_disk_made_of_the_end_is_cut_off(tmp_path, ending):
    bank = bank_of(tmp_path, [ONE, MANY, NONE, "x"] * 10)
    code, out = checked(bank, ending)
    whole = out.read_bytes()
    stopped_run(bank, out, whole, 0)
    part = out.with_name(out.name + PART)
    part.write_bytes(part.read_bytes() + b"\0" * 100_000 + b"\n")
    assert checked(bank, ending) == (code, out)
    assert out.read_bytes() == whole


def stopped_run(bank, out, whole, torn, after=20):
    """Leaves what a run leaves that is killed after some lines; the file that says of what."""
    run_file = out.with_name(out.name + RUN)

    def no_move(part, path):
        raise KeyboardInterrupt

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("layout.output.results.os.replace", no_move)
        main(["check", str(bank), "--out", str(out), "--quiet"])
    part = out.with_name(out.name + PART)
    assert part.read_bytes() == whole
    lines = whole.splitlines(keepends=True)
    part.write_bytes(b"".join(lines[:after]) + lines[after][:torn])
    return run_file


def test_a_bank_that_changed_is_begun_anew(tmp_path, capsys):
    bank = bank_of(tmp_path, [ONE] * 10)
    _, out = checked(bank, ".jsonl")
    stopped_run(bank, out, out.read_bytes(), 0, 5)
    bank_of(tmp_path, [MANY] * 10)
    capsys.readouterr()
    assert checked(bank, ".jsonl")[0] == 1
    assert {each["verdict"] for each in rows(out)} == {"many"}
    assert "before" not in capsys.readouterr().err


def test_another_ending_or_what_is_read_is_refused(tmp_path, capsys):
    bank = bank_of(tmp_path, ["puzzle", ONE], "marsh.csv")
    assert main(["check", str(bank), "--out", str(tmp_path / "a.txt")]) == 2
    assert "expected FILE.jsonl or FILE.csv" in capsys.readouterr().err
    assert main(["check", str(bank), "--out", str(bank)]) == 2
    assert "it is what is read" in capsys.readouterr().err
    assert bank.read_text() == f"puzzle\n{ONE}\n"


def test_json_beside_a_file_tells_how_many(tmp_path, capsys):
    bank = bank_of(tmp_path, [ONE, MANY, ONE])
    assert checked(bank, ".jsonl", "--json", "--same")[0] == 1
    document = json.loads(capsys.readouterr().out)
    assert document.pop("reglet")
    assert document.pop("out").endswith("out.jsonl")
    assert document == {"checked": 3, "verdicts": {"many": 1, "one": 2}, "same": 1}


@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="kills without a word")
@pytest.mark.parametrize("ending", ENDINGS)
def test_a_run_that_is_killed_on_the_way_ends_as_one_that_was_not(tmp_path, ending):
    lines = [line for line in DAILY if line and not line.startswith("#")]
    bank = bank_of(tmp_path, [*lines, "x", *lines, MANY] * 8)
    words = ["check", str(bank), "--jobs", "2", "--same", "--grade", "--quiet"]
    plain, out = tmp_path / f"plain{ending}", tmp_path / f"killed{ending}"
    assert main([*words, "--no-cache", "--out", str(plain)]) == 2
    part = tmp_path / f"killed{ending}{PART}"
    kills = 0
    for least in (2000, 15_000, 40_000):
        with subprocess.Popen(
            [sys.executable, "-c", BEGIN, *words, "--out", str(out)],
            env={**os.environ, "PYTHONPATH": str(ROOT)},
        ) as run:
            while run.poll() is None and size(part) < least:
                time.sleep(0.002)
            if run.poll() is None:
                run.kill()
                kills += 1
        done = part.read_bytes() if part.exists() else b""
        assert plain.read_bytes().startswith(done)
    assert kills
    assert main([*words, "--out", str(out)]) == 2
    assert out.read_bytes() == plain.read_bytes()
    assert not part.exists()


def size(path):
    try:
        return path.stat().st_size
    except OSError:
        return 0
