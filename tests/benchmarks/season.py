"""A season of a daily column end to end, beside the verdicts alone on the same puzzles.

    python -m tests.benchmarks.season [--days 365] [--jobs 2] [--dpi 600]

Each day is an SVG, a PDF and a PNG with the answer of the day before. The season reads, proves,
walks, tells disguises apart, draws, reads back and writes; the verdicts are those of its puzzles
over as many processes.
"""

import argparse
import tempfile
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from layout.jobs.common.making import Making
from layout.jobs.make import make
from tests.support import maker
from tests.support.boards import plain
from verify.proof.solver import forget
from verify.proof.verdict import prove
from verify.puzzle import Puzzle
from verify.work import cores, in_order

JOB = """\
job: column
title: Slack Water
columns: 2
measure: {{column: 52mm, gutter: 4mm}}
puzzles: [bank.txt]
schedule: {{from: 2027-01-01, issues: {days}}}
output: {{folder: build, formats: [svg, pdf, png], dpi: {dpi}}}
"""


@contextmanager
def silent(label: str, total: int) -> Iterator[Callable[[int], None]]:
    """No bar."""
    yield lambda done: None


def minimal_classic(seed: int) -> Puzzle:
    """A random classic puzzle of which no given can be spared."""
    return maker.make(plain(9, (3, 3)), seed)


def line(puzzle: Puzzle) -> str:
    """A puzzle as a line of a bank."""
    return "".join(map(str, puzzle.givens))


def season(puzzles: Sequence[Puzzle], days: int, jobs: int, dpi: int) -> float:
    """The time of a whole season."""
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "bank.txt").write_text("\n".join(map(line, puzzles)))
        job = Path(folder) / "daily.yaml"
        job.write_text(JOB.format(days=days, dpi=dpi))
        started = time.perf_counter()
        made = make(job, Making(None, jobs, silent))
        taken = time.perf_counter() - started
        assert len(made.written) == 3 * days + 1
    return taken


def verdicts(puzzles: Sequence[Puzzle], jobs: int) -> float:
    """The time of the verdicts on as many puzzles."""
    forget()
    started = time.perf_counter()
    assert all(verdict.word == "one" for verdict in in_order(prove, puzzles, jobs))
    return time.perf_counter() - started


def main() -> None:
    """Makes the puzzles and prints both."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--days", type=int, default=365)
    parser.add_argument("--jobs", type=int, default=cores())
    parser.add_argument("--dpi", type=int, default=600)
    options = parser.parse_args()
    puzzles = list(in_order(minimal_classic, range(options.days), options.jobs))
    alone = verdicts(puzzles, options.jobs)
    whole = season(puzzles, options.days, options.jobs, options.dpi)
    days = options.days
    print(f"{'':<10} {'seconds':>8} {'puzzles/s':>10}")
    print(f"{'season':<10} {whole:>8.1f} {days / whole:>10.1f}")
    print(f"{'verdicts':<10} {alone:>8.1f} {days / alone:>10.1f}")


if __name__ == "__main__":
    main()
