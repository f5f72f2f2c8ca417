"""Grades kept beside the puzzles: never a wrong one, whatever becomes of the file."""

import os
import pickle
import signal
import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest

from layout.output.grades import NAME, KeptGrades, grades_beside
from tests.support.checkout import ROOT
from verify.walk.facts.step import Technique
from verify.walk.report.grade import Band, Grade

HARD = Grade(Band.STIFF, 4.7, Technique.NAKED_QUAD)
EASY = Grade(Band.CALM, 0.0, None)
LOST = Grade(Band.UNGRADED, None, Technique.DEEP_IF)
ONE, OTHER = b"1" * 32, b"2" * 32


def opened(folder: Path) -> KeptGrades:
    grades = grades_beside(folder, quiet=False)
    assert grades is not None
    return grades


@pytest.mark.parametrize("known", [HARD, EASY, LOST])
def test_what_is_kept_is_recalled_also_by_another_process_and_later(tmp_path, known):
    grades = opened(tmp_path)
    grades.keep(ONE, known)
    assert grades.recall(ONE) == known
    assert grades.recall(OTHER) is None
    assert pickle.loads(pickle.dumps(grades)).recall(ONE) == known
    grades.close()
    assert opened(tmp_path / "marsh.txt").recall(ONE) == known


@pytest.mark.parametrize(
    "change",
    [
        "UPDATE grades SET told = replace(told, 'stiff', 'steep')",
        "UPDATE grades SET told = replace(told, '4.7', '4.8')",
        "UPDATE grades SET digest = CAST('22222222222222222222222222222222' AS BLOB)",
        "UPDATE grades SET told = NULL",
    ],
)
def test_a_grade_that_was_changed_is_not_known(tmp_path, change):
    grades = opened(tmp_path)
    grades.keep(ONE, HARD)
    grades.close()
    with sqlite3.connect(tmp_path / NAME) as file:
        assert file.execute(change).rowcount == 1
    file.close()
    later = opened(tmp_path)
    assert (later.recall(ONE), later.recall(OTHER)) == (None, None)


@pytest.mark.parametrize("wreck", ["torn", "text", "strange"])
def test_a_broken_file_is_put_aside_with_a_word(tmp_path, capsys, wreck):
    grades = opened(tmp_path)
    for number in range(2000):
        grades.keep(number.to_bytes(32, "big"), HARD)
    grades.close()
    path = tmp_path / NAME
    if wreck == "torn":
        data = bytearray(path.read_bytes())
        data[4096 : len(data) - 4096] = b"\x55" * (len(data) - 8192)
        path.write_bytes(data)
    elif wreck == "text":
        path.write_text("a note by hand " * 100)
    else:
        path.unlink()
        with sqlite3.connect(path) as file:
            file.execute("CREATE TABLE grades (name TEXT)")
        file.close()
    anew = opened(tmp_path)
    assert "it was put aside as .reglet-grades.broken" in capsys.readouterr().err
    assert anew.recall(ONE) is None
    anew.keep(ONE, HARD)
    assert anew.recall(ONE) == HARD
    assert (tmp_path / f"{NAME}.broken").exists()


def test_a_folder_in_the_place_of_the_file_is_told_and_nothing_is_kept(tmp_path, capsys):
    (tmp_path / NAME).mkdir()
    assert grades_beside(tmp_path, quiet=False) is None
    assert "grades are not kept" in capsys.readouterr().err


WRITER = """
import sys
from pathlib import Path
from layout.output.grades import grades_beside
from verify.walk.report.grade import Band, Grade

grades = grades_beside(Path(sys.argv[1]), False)
for number in range(int(sys.argv[2]), 10**6, 2):
    grades.keep(number.to_bytes(32, "big"), Grade(Band.CALM, number / 10, None))
    print(number, flush=True)
"""


@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="kills without a word")
def test_two_runs_at_once_that_are_killed_lose_nothing(tmp_path):
    runs = [
        subprocess.Popen(
            [sys.executable, "-c", WRITER, str(tmp_path), str(parity)],
            env={**os.environ, "PYTHONPATH": str(ROOT)},
            stdout=subprocess.PIPE,
            text=True,
        )
        for parity in (0, 1)
    ]
    told = [[int(run.stdout.readline()) for _ in range(60)] for run in runs]
    for run in runs:
        run.kill()
        run.communicate()
    grades = opened(tmp_path)
    for number in (each for numbers in told for each in numbers):
        assert grades.recall(number.to_bytes(32, "big")) == Grade(Band.CALM, number / 10, None)
    assert not (tmp_path / f"{NAME}.broken").exists()
