"""Small worksheets for the tests: a job in a folder, made, and its files read back."""

import json
from collections.abc import Callable, Sequence
from contextlib import AbstractContextManager, nullcontext
from pathlib import Path
from typing import Any

import pytest

from layout.command import main
from layout.jobs.common.making import Making, Outcome
from layout.jobs.make import make
from layout.pages.common.format import Trim
from tests.support.books import Printed, manifest

A4 = Trim(210, 297)
LETTER = Trim(215.9, 279.4)

JOB = """\
job: worksheet
title: Low water
class: Class 4
puzzles: [reeds/*.yaml]
per-page: 2
key: separate
output: {pdf: build/sheet.pdf, key: build/key.pdf}
"""

STICK = """\
title: Tide stick
kind: sudoku
size: 4
rules: {thermometer: [r4c1 n n, r1c4 s]}
givens: |
  . . | 2 3
  . . | 1 .
  . . | . .
  . 4 | . .
"""


def write_worksheet(folder: Path, job: str = JOB, manifests: Sequence[str] | None = None) -> Path:
    """The job with its puzzles in a folder; three 4x4 grids where none are given."""
    (folder / "reeds").mkdir(parents=True, exist_ok=True)
    for number, text in enumerate(manifests or [manifest(n) for n in range(3)], start=1):
        (folder / "reeds" / f"reed-{number}.yaml").write_text(text, encoding="utf-8")
    path = folder / "sheet.yaml"
    path.write_text(job, encoding="utf-8")
    return path


def silent(label: str, total: int) -> AbstractContextManager[Callable[[int], None]]:
    """No bar."""
    return nullcontext(lambda done: None)


def made(path: Path) -> Outcome:
    """What making the job gives."""
    return make(path, Making(None, 1, silent))


def printed(folder: Path, name: str, trim: Trim = A4) -> Printed:
    """A file of the job's build folder, read back."""
    return Printed((folder / "build" / name).read_bytes(), trim)


def asked(job: str, **keys: object) -> str:
    """The job with other values for some keys, or with more of them."""
    lines: dict[str, object] = {
        key: value for key, _, value in (line.partition(": ") for line in job.splitlines())
    }
    lines |= {key.rstrip("_").replace("_", "-"): value for key, value in keys.items()}
    return "".join(f"{key}: {value}\n" for key, value in lines.items() if value is not None)


def told_json(path: Path, capsys: pytest.CaptureFixture[str]) -> tuple[Any, int]:
    """The JSON document of a job that was made, and the exit code."""
    code = main(["make", str(path), "--json", "--quiet"])
    return json.loads(capsys.readouterr().out), code
