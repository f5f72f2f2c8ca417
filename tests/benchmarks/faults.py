"""A bank of a million lines under ill luck: kills, bad lines, a puzzle that nobody can decide.

    python -m tests.benchmarks.faults [--lines 1000000] [--few 10000]

The bank holds disguises of some minimal classics. Every thousandth line is no puzzle, and a puzzle
that exhausts its budget stands before all. `reglet check --out` is run on the first `--few` lines,
for its memory; on all; and once more, where it is killed without a word at a third and at two
thirds and one of its workers in between. The last file must be the undisturbed one to the byte, and
no line that was finished may be done again. Memory is that of the command and all of its workers.
"""

import argparse
import os
import signal
import subprocess
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice
from multiprocessing import Pool
from pathlib import Path
from typing import Final

from layout.output.results import PART
from tests.benchmarks.hostile import hostile
from tests.benchmarks.verdicts.rows import puzzles_of
from tests.support.checkout import ROOT
from verify.manifest.bank import cells_in_line

PROGRAM: Final = "import layout.start, sys; sys.exit(layout.start.main())"

SECONDS: Final = 2
"""Budget of a puzzle."""

UNDECIDED: Final = "cages of 12"
"""The hostile puzzle that no budget of a few seconds decides."""

BAD: Final = 1000
"""One line of so many is no puzzle."""

LOOK: Final = 0.05
"""Seconds between two looks at a run."""


@dataclass(slots=True)
class Run:
    """A run of `check` on a bank, its seconds, and the most memory of all its processes in MiB."""

    process: "subprocess.Popen[bytes]"
    began: float
    most: float = 0.0

    def wait(self, part: Path | None = None, lines: int = 0) -> int:
        """Waits until the run has ended, or until so many lines are finished; tells how many are.

        The memory is looked at meanwhile.
        """
        done = 0
        while self.process.poll() is None:
            self.most = max(self.most, sum(map(resident, family(self.process.pid))))
            done = whole_lines(part) if part else 0
            if part and done >= lines:
                break
            time.sleep(LOOK if not part else 10 * LOOK)
        return done

    @property
    def seconds(self) -> float:
        """Seconds since it began."""
        return time.monotonic() - self.began


def family(number: int) -> Iterator[int]:
    """A process and all that it and its children have started."""
    yield number
    try:
        tasks = list(Path(f"/proc/{number}/task").iterdir())
        children = " ".join((task / "children").read_text() for task in tasks).split()
    except OSError:
        return
    for child in children:
        yield from family(int(child))


def resident(number: int) -> float:
    """MiB that a process holds in memory, of which others may share a part; 0 where it is gone."""
    try:
        pages = int(Path(f"/proc/{number}/statm").read_text().split()[1])
    except OSError:
        return 0.0
    return pages * os.sysconf("SC_PAGE_SIZE") / 2**20


def whole_lines(path: Path) -> int:
    """Lines of a file that have an end."""
    if not path.exists():
        return 0
    with path.open("rb") as stream:
        return sum(block.count(b"\n") for block in iter(lambda: stream.read(1 << 20), b""))


def started(folder: Path, bank: Path, out: Path) -> Run:
    """Begins a run."""
    words = ["check", str(folder / "flood.yaml"), str(bank), "--out", str(out)]
    process = subprocess.Popen(
        [sys.executable, "-c", PROGRAM, *words, "--seconds", str(SECONDS), "--quiet"],
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )
    return Run(process, time.monotonic())


def undisturbed(folder: Path, bank: Path, out: Path, lines: int) -> Run:
    """A run from its beginning to its end."""
    run = started(folder, bank, out)
    run.wait()
    print(
        f"{lines} lines: {run.seconds:.0f} s, {lines / run.seconds:.0f} a second,"
        f" {run.most:.0f} MiB, exit {run.process.returncode}",
        flush=True,
    )
    return run


def disturbed(folder: Path, bank: Path, out: Path, plain: Path, lines: int) -> None:
    """Kills the run twice, and a worker once, and lets it end."""
    part = out.with_name(out.name + PART)
    for share in (1, 2):
        run = started(folder, bank, out)
        run.wait(part, share * lines // 3)
        run.process.kill()
        run.process.wait()
        done = whole_lines(part)
        with plain.open("rb") as one, part.open("rb") as other:
            alike = all(mine == theirs for mine, theirs in zip(islice(other, done), one))  # noqa: B905
        print(f"killed after {run.seconds:.0f} s: {done} lines finished, alike: {alike}")
    run = started(folder, bank, out)
    begun = run.wait(part, done + (lines - done) // 2)
    worker = max((each for each in family(run.process.pid) if each != run.process.pid), key=spent)
    os.kill(worker, signal.SIGKILL)
    print(f"worker {worker} killed when {begun} lines were finished", flush=True)
    run.wait()
    same = out.read_bytes() == plain.read_bytes()
    print(f"the rest in {run.seconds:.0f} s, exit {run.process.returncode}; same file: {same}")


def spent(number: int) -> int:
    """Ticks of the processor that a process has used."""
    try:
        return int(Path(f"/proc/{number}/stat").read_text().rpartition(")")[2].split()[11])
    except OSError:
        return -1


def main() -> None:
    """Makes the bank, runs and kills, and prints what came of it."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--lines", type=int, default=1_000_000)
    parser.add_argument("--few", type=int, default=10_000)
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        hard = next(each for each in hostile(25) if each.name == UNDECIDED)
        (folder / "flood.yaml").write_text(hard.manifest(), encoding="utf-8")
        with Pool(2) as pool:
            puzzles = puzzles_of("9x9 minimal", options.few, None, pool)
        some = [cells_in_line(puzzle) for puzzle in puzzles]
        for at in range(BAD - 1, len(some), BAD):
            some[at] = "spring flood"
        few, bank = folder / "few.txt", folder / "bank.txt"
        few.write_text("\n".join(some) + "\n")
        with bank.open("w") as stream:
            for _ in range(options.lines // len(some)):
                stream.write("\n".join(some) + "\n")
        small = undisturbed(folder, few, folder / "few.jsonl", len(some))
        plain = folder / "plain.jsonl"
        large = undisturbed(folder, bank, plain, options.lines)
        print(f"{large.most - small.most:+.0f} MiB")
        with plain.open("rb") as stream:
            words = Counter(
                line.partition(b'"verdict": "')[2].partition(b'"')[0] for line in stream
            )
        print({word.decode(): count for word, count in words.items()})
        disturbed(folder, bank, folder / "killed.jsonl", plain, options.lines)


if __name__ == "__main__":
    main()
