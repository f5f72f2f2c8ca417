"""The option `--seconds`: what it takes, and what comes of too few of them."""

import json

import pytest

from layout.command import main
from verify.rules import BY_NAME

COMMANDS = [["check", "x"], ["walk", "x"], ["draw", "x", "-o", "x.svg"], ["make", "x"]]


@pytest.mark.parametrize("text", ["0", "-1", "nan", "inf", "-inf", "1e99", "", "soon", "1000001"])
@pytest.mark.parametrize("command", COMMANDS)
def test_absurd_seconds_are_refused_in_one_line(command, text, capsys):
    assert main([*command, f"--seconds={text}"]) == 2
    err = capsys.readouterr().err
    assert err.count("\n") == 1
    assert f"found {text!r}, expected a number of seconds above 0" in err


@pytest.mark.parametrize("command", COMMANDS)
def test_help_tells_how_many_seconds_there_are(command, capsys):
    assert main([command[0], "--help"]) == 0
    assert "(default: 60)" in " ".join(capsys.readouterr().out.split())


@pytest.fixture
def gauge(tmp_path):
    path = tmp_path / "gauge.yaml"
    path.write_text(BY_NAME["cage"].example)
    return path


def test_a_puzzle_without_time_is_undecided(gauge, capsys):
    assert main(["check", str(gauge), "--seconds", "0.000001", "--quiet"]) == 1
    assert capsys.readouterr().out.strip().endswith(": undecided")


def test_a_walk_without_time_says_so(gauge, capsys):
    assert main(["walk", str(gauge), "--seconds", "0.000001", "--quiet", "--json"]) == 1
    told = capsys.readouterr()
    assert "its walk ends where 1e-06 seconds were over" in told.err
    assert json.loads(told.out)["finished"] is False


def test_a_job_without_time_writes_nothing(gauge, capsys):
    job = gauge.with_name("job.yaml")
    job.write_text(
        "job: book\ntitle: Tides\nstyle: paperback\ntrim: A5\n"
        "sections: [{title: Low, puzzles: [gauge.yaml]}]\noutput: {pdf: tides.pdf}\n"
    )
    assert main(["make", str(job), "--seconds", "0.000001", "--quiet"]) == 1
    assert "--seconds gives more" in capsys.readouterr().err
    assert not job.with_name("tides.pdf").exists()
