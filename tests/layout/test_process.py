"""`reglet` as a process: streams that are closed or full, odd words, signals at any moment."""

import errno
import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from tests.support.checkout import ROOT

RUN = [sys.executable, "-c", "import sys; from layout.start import main; sys.exit(main())"]
FULL = "/dev/full"
MANIFEST = "title: Flussmündung \u2013 Ĳ\nkind: latin\nsize: 1\ngivens: .\n"
NO_SPACE = os.strerror(errno.ENOSPC).lower()

posix = pytest.mark.skipif(os.name == "nt", reason="file descriptors and signals of POSIX")
pytestmark = posix


@pytest.fixture
def puzzle(tmp_path):
    (tmp_path / "mündung.yaml").write_text(MANIFEST, encoding="utf-8")
    return "mündung.yaml"


def reglet(folder, *words, redirect="", **environment):
    """A run through the shell, which alone can close a stream; its code, output and messages."""
    return subprocess.run(
        ["/bin/sh", "-c", f'exec "$@" {redirect}', "sh", *RUN, *words],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(ROOT), **environment},
        capture_output=True,
        text=True,
        errors="surrogateescape",
    )


def assert_calm(done):
    for sign in ("Traceback", "a defect in", "Exception ignored"):
        assert sign not in done.stderr + done.stdout


ANSWERING = [
    ("--help",),
    ("--version",),
    ("rules",),
    ("rules", "cage", "--json"),
    ("check", "mündung.yaml"),
    ("check", "mündung.yaml", "--json"),
    ("walk", "mündung.yaml"),
    ("new", "heron", "--json"),
    ("draw", "mündung.yaml", "-o", "look.svg", "--json"),
]


@pytest.mark.skipif(not Path(FULL).exists(), reason="no device that is always full")
@pytest.mark.parametrize("words", ANSWERING)
def test_an_answer_that_does_not_get_through_is_told(puzzle, tmp_path, words):
    done = reglet(tmp_path, *words, redirect=f">{FULL}")
    assert_calm(done)
    assert done.returncode == 2
    assert done.stderr.splitlines()[-1] == f"reglet: can't write to standard output: {NO_SPACE}"


@pytest.mark.parametrize("words", ANSWERING)
def test_an_answer_to_a_closed_output_is_told(puzzle, tmp_path, words):
    done = reglet(tmp_path, *words, redirect=">&-")
    assert_calm(done)
    assert done.returncode == 2
    assert done.stderr.splitlines()[-1] == "reglet: standard output is closed"


@pytest.mark.parametrize("redirect", ["2>&-", f"2>{FULL}"])
@pytest.mark.parametrize("words", [ANSWERING[5], ("new", "heron"), ("check", "heron"), ("chekc",)])
def test_messages_that_nobody_can_read_change_nothing_else(puzzle, tmp_path, words, redirect):
    heard = reglet(tmp_path, *words)
    (tmp_path / "heron.yaml").unlink(missing_ok=True)
    done = reglet(tmp_path, *words, redirect=redirect)
    assert_calm(done)
    assert (done.returncode, done.stdout[:60]) == (heard.returncode, heard.stdout[:60])


def test_with_both_streams_closed_the_exit_code_is_left(puzzle, tmp_path):
    assert reglet(tmp_path, "rules", redirect=">&- 2>&-").returncode == 2
    assert reglet(tmp_path, "new", "heron", redirect=">&- 2>&- <&-").returncode == 0
    assert (tmp_path / "heron.yaml").exists()


def test_what_an_output_cannot_say_is_escaped(puzzle, tmp_path):
    done = reglet(tmp_path, "check", puzzle, PYTHONIOENCODING="ascii")
    assert_calm(done)
    assert (done.returncode, done.stdout) == (
        0,
        "m\\xfcndung.yaml: m\\xfcndung: one\n",
    )


def test_json_stays_json_where_an_output_knows_ascii_alone(puzzle, tmp_path):
    done = reglet(tmp_path, "check", puzzle, "--json", PYTHONIOENCODING="ascii")
    assert json.loads(done.stdout)["puzzles"][0]["title"] == "Flussmündung \u2013 Ĳ"


@pytest.mark.parametrize(
    "words",
    [
        ("new", "."),
        ("new", ""),
        ("new", "/"),
        ("new", ".."),
        ("new", "two\nlines"),
        ("new", "\x1b[2Jheron"),
        ("new", "h" * 300),
        ("check", "h" * 100_000),
        ("check", "two\nlines\x1b[2J.yaml"),
        ("check", os.fsdecode(b"h\xff.yaml")),
        ("walk", os.fsdecode(b"h\xff.yaml")),
        ("make", "\x07\n.yaml"),
        ("make", "."),
        ("draw", "mündung.yaml", "-o", "\x1b[2J.bmp"),
        ("draw", "mündung.yaml", "-o", "no\nfolder.svg/x.svg", "--style", "\x1b[2J"),
        ("rules", "\x1b[2J\ncage"),
        ("\x1b[2J\n",),
        ("check", "--jobs", "\x1b[2J\n", "x"),
    ],
)
def test_odd_words_are_told_on_one_line_that_a_terminal_can_show(puzzle, tmp_path, words):
    done = reglet(tmp_path, *words)
    assert_calm(done)
    assert done.returncode == 2
    assert done.stderr.endswith("\n")
    (line,) = done.stderr.splitlines()
    assert line.isprintable()
    assert len(line) < 2500


def test_a_job_that_lists_its_own_folder_is_told_where(tmp_path):
    job = (
        "job: worksheet\ntitle: Low\npage: A4\nstyle: classroom\npuzzles: ['.']\n"
        "per-page: 1\nkey: none\noutput: {pdf: build/low.pdf}\n"
    )
    (tmp_path / "job.yaml").write_text(job)
    done = reglet(tmp_path, "make", "job.yaml")
    assert_calm(done)
    assert done.returncode == 2
    assert done.stderr.startswith("job.yaml:5:")


@pytest.mark.parametrize(
    "environment",
    [{"COLUMNS": "0"}, {"COLUMNS": "1"}, {"TERM": "dumb"}, {"NO_COLOR": "1"}, {"LC_ALL": "C"}],
)
def test_a_strange_terminal_gets_the_same_answers(puzzle, tmp_path, environment):
    for words in (("--help",), ("check", "--help"), ("check", puzzle)):
        done = reglet(tmp_path, *words, **environment)
        assert_calm(done)
        assert done.returncode == 0


def test_without_a_home_and_in_a_folder_that_is_gone(tmp_path):
    gone = tmp_path / "gone"
    gone.mkdir()
    run = f'cd {gone} && rmdir {gone} && unset HOME && exec "$@"'
    done = subprocess.run(
        ["/bin/sh", "-c", run, "sh", *RUN, "check", "heron.yaml"],
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
    )
    assert_calm(done)
    assert (done.returncode, done.stderr) == (2, "heron.yaml:1:1: no such file or folder\n")


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM])
@pytest.mark.parametrize("after", [0.0, 0.03, 0.1])
def test_a_signal_at_any_moment_is_told_in_one_line(tmp_path, number, after):
    """Counted from the moment at which our own code has begun; before, Python speaks."""
    begin = "import layout.start, sys; print(flush=True); sys.exit(layout.start.main())"
    words = ["check", "books/saltmarsh/puzzles", "books/gallery/puzzles", "--quiet"]
    with subprocess.Popen(
        [sys.executable, "-c", begin, *words],
        cwd=ROOT,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
    ) as process:
        process.stdout.readline()
        time.sleep(after)
        os.killpg(process.pid, number)
        _, err = process.communicate(timeout=30)
    assert (process.returncode, err) == (130, "reglet: interrupted; no file was changed\n")
