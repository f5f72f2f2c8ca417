"""Whether the tests notice breaks on purpose: one line of the product at a time.

    python -m tests.benchmarks.breaks [--jobs 2] [--only TEXT] [--seconds 300]

`breaks.yaml` lists them: a file, some of its text, what stands there instead, and the tests that
must fail then. Each is made in a copy of the tree, where these tests are run. Tests that fail
without a break, too, and a break whose text no longer stands in its file, are told as errors.
`--only` picks the breaks whose file, text or tests hold some words.
"""

import argparse
import os
import shlex
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from queue import SimpleQueue
from typing import Literal

import yaml

from tests.support.checkout import ROOT

LIST = Path(__file__).with_name("breaks.yaml")
COPIED = ("verify", "layout", "styles", "books", "tests", "pyproject.toml", "DEVELOPERS.md")
LEFT_OUT = shutil.ignore_patterns("__pycache__", "build", ".hypothesis")

Outcome = Literal["caught", "survived", "too long", "error"]
OF_PYTEST: dict[int, Outcome] = {0: "survived", 1: "caught", 2: "caught"}
"""What the exit code of a run of tests says of a break; 2 where they can't even be read."""


@dataclass(frozen=True)
class Break:
    """One break: in `file`, `new` stands for `old`; `tests` is what pytest is asked to run."""

    file: str
    old: str
    new: str
    tests: str

    def __str__(self) -> str:
        return f"{self.file}: {self.old.strip()!r} -> {self.new.strip()!r}"


def every_break() -> list[Break]:
    """The list, in order."""
    return [Break(**each) for each in yaml.safe_load(LIST.read_text(encoding="utf-8"))]


def faults(each: Break) -> list[str]:
    """Why a break can't be made or its tests can't be run, in words; nothing where they can."""
    file = ROOT / each.file
    text = file.read_text(encoding="utf-8") if file.is_file() else ""
    named = [
        word.partition("::")[0] for word in shlex.split(each.tests) if word.startswith("tests/")
    ]
    found = [f"no such tests: {name}" for name in named if not (ROOT / name).exists()]
    if text.count(each.old) != 1:
        found.append(f"stands {text.count(each.old)} times in the file, expected once")
    if each.old == each.new or not named:
        found.append("expected another text, and tests")
    return found


class Trees:
    """Copies of the tree, each lent to one run at a time."""

    def __init__(self, folder: Path, count: int) -> None:
        self._free: SimpleQueue[Path] = SimpleQueue()
        for number in range(count):
            self._free.put(copied(folder / str(number)))

    @contextmanager
    def one(self) -> Iterator[Path]:
        """A copy for as long as it is needed."""
        tree = self._free.get()
        try:
            yield tree
        finally:
            self._free.put(tree)


def copied(tree: Path) -> Path:
    """A new copy of all that the tests need."""
    tree.mkdir()
    for name in COPIED:
        source = ROOT / name
        if source.is_dir():
            shutil.copytree(source, tree / name, ignore=LEFT_OUT)
        else:
            shutil.copy(source, tree / name)
    return tree


def run(tree: Path, tests: str, seconds: float) -> Outcome:
    """Runs tests in a copy, up to the first that fails."""
    command = [sys.executable, "-m", "pytest", "-q", "-x", "-p", "no:cacheprovider", "-n", "0"]
    command += shlex.split(tests)
    # Compiled files are told apart by size and second alone: too coarse for breaks in a row.
    surroundings = {**os.environ, "PYTHONDONTWRITEBYTECODE": "1", "REGLET_TESTS": "thorough"}
    surroundings["HYPOTHESIS_STORAGE_DIRECTORY"] = str(tree / ".hypothesis")
    try:
        done = subprocess.run(
            command, cwd=tree, env=surroundings, capture_output=True, timeout=seconds, check=False
        )
    except subprocess.TimeoutExpired:
        return "too long"
    return OF_PYTEST.get(done.returncode, "error")


def outcome(each: Break, trees: Trees, seconds: float) -> Outcome:
    """Makes a break, runs its tests, and takes it back."""
    if faults(each):
        return "error"
    with trees.one() as tree:
        file = tree / each.file
        whole = file.read_text(encoding="utf-8")
        file.write_text(whole.replace(each.old, each.new), encoding="utf-8")
        try:
            return run(tree, each.tests, seconds)
        finally:
            file.write_text(whole, encoding="utf-8")
            shutil.rmtree(tree / ".hypothesis", ignore_errors=True)


def whole(tests: str, trees: Trees, seconds: float) -> bool:
    """Whether tests pass where nothing is broken."""
    with trees.one() as tree:
        return run(tree, tests, seconds) == "survived"


def main() -> int:
    """Makes the breaks and tells each outcome, then how many there are of each."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--jobs", type=int, default=2)
    parser.add_argument("--only", default="", metavar="TEXT")
    parser.add_argument("--seconds", type=float, default=300)
    options = parser.parse_args()
    chosen = [
        each for each in every_break() if options.only in f"{each.file} {each.old} {each.tests}"
    ]
    with tempfile.TemporaryDirectory() as folder, ThreadPoolExecutor(options.jobs) as pool:
        trees = Trees(Path(folder), options.jobs)
        named = sorted({each.tests for each in chosen})
        passing = list(pool.map(lambda tests: whole(tests, trees, options.seconds), named))
        failing = [tests for tests, passes in zip(named, passing, strict=True) if not passes]
        told = pool.map(lambda each: outcome(each, trees, options.seconds), chosen)
        found = tell(chosen, told)
    for tests in failing:
        print(f"error: fails without a break: {tests}")
    return 0 if set(found) <= {"caught"} and not failing else 1


def tell(chosen: Sequence[Break], told: Iterator[Outcome]) -> list[Outcome]:
    """Prints what was not caught as it comes, and how many there are of each outcome."""
    found: list[Outcome] = []
    for each, word in zip(chosen, told, strict=True):
        found.append(word)
        if word != "caught":
            reasons = "; ".join(faults(each))
            print(f"{word}: {each} [{each.tests}] {reasons}".rstrip(), flush=True)
    print(", ".join(f"{found.count(word)} {word}" for word in dict.fromkeys(found)))
    return found


if __name__ == "__main__":
    sys.exit(main())
