"""Hostile manifests, jobs, ledgers, banks and style sheets; every case that goes wrong is kept.

    python -m tests.benchmarks.fuzz [--count KIND=N ...] [--seed S] [--jobs N] [--keep FOLDER]
    python -m tests.benchmarks.fuzz --only "jobs 17"     # one case again, with its traceback

Each case runs the command's own `main` in a forked worker, in a fresh folder: see
`tests.support.fuzz.trial` for what is asked of it. Besides, the file alone must be read, or
refused, within `READING` seconds, the command must end within `MAKING`, and no worker may grow
over `MOST_MEMORY`. What is wrong is told, and kept as it lay on the desk in a folder of its own.
"""

import argparse
import multiprocessing
import os
import resource
import shutil
import signal
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from multiprocessing.connection import Connection, wait
from multiprocessing.process import BaseProcess
from pathlib import Path

from tests.support.fuzz.cases import KINDS, Case, case_of
from tests.support.fuzz.trial import DESK, faults, fresh_folder, lay_out, read_alone, run

COUNTS = {"manifests": 10_000, "jobs": 2_000, "ledgers": 1_000, "banks": 1_000, "styles": 1_000}

READING, MAKING = 5, 20
"""Seconds to read one file, and for the whole command."""

PATIENCE = 10
"""Seconds more after which a worker that does not heed its alarm is ended."""

MOST_MEMORY = 1 << 30
"""Bytes that a worker may hold at its highest."""

MOST_ADDRESSES = 4 << 30
"""Bytes of addresses; past that the system refuses, and spares the machine."""

LONGEST_LIFE = 400
"""Cases of one worker; a fresh one then tells what one case needs from what all have left."""

MESSAGE = "message.txt"


class TooSlow(BaseException):
    """Time is up; no handler of errors may take it for one of its own."""


@dataclass(frozen=True, slots=True)
class Told:
    """What came of a case."""

    case: str
    code: object
    faults: tuple[str, ...]
    seconds: float
    memory: int


@contextmanager
def within(seconds: float) -> Iterator[None]:
    """Raises TooSlow in the block when time is up."""

    def ring(number: int, frame: object) -> None:
        raise TooSlow

    signal.signal(signal.SIGALRM, ring)
    signal.setitimer(signal.ITIMER_REAL, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)


def tried(case: Case, keep: Path) -> Told:
    """Runs a case, and keeps its desk where anything is wrong."""
    started = time.perf_counter()
    code: object = None
    with fresh_folder() as root:
        found: list[str] = []
        try:
            code, found = _judged(case, root)
        except TooSlow:
            found = [f"not done after {time.perf_counter() - started:.1f} s"]
        except Exception as error:
            found = [f"the reader let out {type(error).__name__}: {error}"]
        memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * 1024
        if memory > MOST_MEMORY:
            found.append(f"held {memory >> 20} MiB")
    told = Told(str(case), code, tuple(found), time.perf_counter() - started, memory)
    if found:
        kept(case, found, keep)
    return told


def _judged(case: Case, root: Path) -> tuple[object, list[str]]:
    """The exit code, and what is wrong."""
    with within(MAKING):
        outcome = run(case, root)
    found = faults(case, outcome)
    shutil.rmtree(root)
    root.mkdir()
    lay_out(case, root)
    with within(READING):
        taken = read_alone(case, root)
    if not taken and outcome.code != 2:
        found.append(f"the file can't be read, and the command ended with {outcome.code}")
    return outcome.code, found


def kept(case: Case, found: Sequence[str], keep: Path) -> None:
    """Lays the case out where it stays, with what is wrong."""
    root = keep / f"{case.kind}-{case.number}"
    shutil.rmtree(root, ignore_errors=True)
    root.mkdir(parents=True)
    lay_out(case, root)
    lines = (str(case), f"in {DESK}/: reglet {' '.join(case.words)}", *found, "")
    (root / MESSAGE).write_text("\n".join(lines), encoding="utf-8")


@dataclass(slots=True)
class Worker:
    """A process that tries cases, and the one that it is at."""

    process: BaseProcess
    pipe: Connection
    at: tuple[str, int] | None = None
    since: float = 0.0
    lived: int = 0

    def give(self, task: tuple[str, int]) -> None:
        """Hands out a case."""
        self.at, self.since = task, time.monotonic()
        self.lived += 1
        self.pipe.send(task)

    def end(self) -> None:
        """Ends the process, whatever it does."""
        self.pipe.close()
        self.process.kill()
        self.process.join()


def _work(pipe: Connection, seed: int, keep: Path) -> None:
    """What a worker does, until nobody asks any more."""
    resource.setrlimit(resource.RLIMIT_AS, (MOST_ADDRESSES, MOST_ADDRESSES))
    try:
        while True:
            kind, number = pipe.recv()
            pipe.send(tried(case_of(kind, number, seed), keep))
    except (EOFError, OSError):
        os._exit(0)


@dataclass(slots=True)
class Run:
    """All cases over some workers."""

    tasks: list[tuple[str, int]]
    seed: int
    keep: Path
    workers: list[Worker] = field(default_factory=list)

    def results(self, count: int) -> Iterator[tuple[str, Told]]:
        """What came of each case, with its kind, as they are done."""
        self.workers = [self._hired() for _ in range(count)]
        self.tasks.reverse()
        while self.tasks or any(worker.at for worker in self.workers):
            for worker in self.workers:
                if worker.at is None and self.tasks:
                    worker.give(self.tasks.pop())
            ready = wait([worker.pipe for worker in self.workers if worker.at], timeout=1)
            for at, worker in enumerate(self.workers):
                if worker.at is None:
                    continue
                told = self._told_by(worker, worker.pipe in ready)
                if told is None:
                    continue
                yield worker.at[0], told
                worker.at = None
                if told.faults or worker.lived >= LONGEST_LIFE:
                    worker.end()
                    self.workers[at] = self._hired()
        for worker in self.workers:
            worker.end()

    def _hired(self) -> Worker:
        ours, theirs = multiprocessing.Pipe()
        context = multiprocessing.get_context("fork")
        process = context.Process(target=_work, args=(theirs, self.seed, self.keep), daemon=True)
        process.start()
        theirs.close()
        return Worker(process, ours)

    def _told_by(self, worker: Worker, ready: bool) -> Told | None:
        """What a worker tells, or that it hangs or has died; None while it works."""
        assert worker.at is not None
        if ready:
            try:
                told: Told = worker.pipe.recv()
            except (EOFError, OSError):
                return self._lost(worker, "the process died")
            return told
        if time.monotonic() - worker.since > READING + MAKING + PATIENCE:
            return self._lost(worker, "hangs, and heeds no alarm")
        return None

    def _lost(self, worker: Worker, fault: str) -> Told:
        assert worker.at is not None
        case = case_of(*worker.at, self.seed)
        kept(case, [fault], self.keep)
        return Told(str(case), None, (fault,), time.monotonic() - worker.since, 0)


def _counts(words: Sequence[str]) -> dict[str, int]:
    """The counts asked for; all the usual ones where none is."""
    asked = {kind: int(count) for kind, _, count in (word.partition("=") for word in words)}
    unknown = asked.keys() - KINDS.keys()
    if unknown:
        sys.exit(f"unknown kind {', '.join(unknown)}; known: {', '.join(KINDS)}")
    return asked or COUNTS


def main() -> None:
    """Tries all cases, and prints what was wrong and a table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", action="append", default=[], metavar="KIND=N")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--jobs", type=int, default=len(os.sched_getaffinity(0)))
    parser.add_argument("--keep", type=Path)
    parser.add_argument("--only", metavar="KIND N")
    options = parser.parse_args()
    os.environ.pop("REGLET_TRACEBACK", None)
    if options.only:
        _once(options.only, options.seed)
        return
    keep = options.keep or Path(tempfile.mkdtemp(prefix="fuzz."))
    counts = _counts(options.count)
    tasks = [(kind, number) for kind, count in counts.items() for number in range(count)]
    for kind in counts:
        case_of(kind, 0, options.seed)  # what all workers share is made before they are forked
    _table(Run(tasks, options.seed, keep), options.jobs, counts)
    print(f"cases that went wrong are kept in {keep}")


def _once(wanted: str, seed: int) -> None:
    """One case again, in this process."""
    kind, number = wanted.split()
    case = case_of(kind, int(number), seed)
    os.environ["REGLET_TRACEBACK"] = "1"
    with fresh_folder() as root:
        outcome = run(case, root)
    print(case.files[case.hostile].decode("utf-8", "backslashreplace")[:3000])
    print(case, f"ended with {outcome.code}", outcome.out, outcome.err, sep="\n")
    print(*faults(case, outcome), sep="\n")


def _table(run: Run, jobs: int, counts: dict[str, int]) -> None:
    """What is wrong as it comes, then a line for each kind."""
    started = time.perf_counter()
    codes = {kind: Counter[object]() for kind in counts}
    wrong, seconds = Counter[str](), dict.fromkeys(counts, 0.0)
    slowest = dict.fromkeys(counts, (0.0, ""))
    memory = 0
    for kind, told in run.results(jobs):
        codes[kind][told.code] += 1
        seconds[kind] += told.seconds
        slowest[kind] = max(slowest[kind], (told.seconds, told.case))
        memory = max(memory, told.memory)
        if told.faults:
            wrong[kind] += 1
            print(told.case, *(f"    {fault}" for fault in told.faults), sep="\n", flush=True)
    print(f"{'kind':<10} {'cases':>6} {'done':>6} {'held':>6} {'refused':>8} {'wrong':>6} {'s':>8}")
    for kind, count in counts.items():
        done, held, refused = (codes[kind][code] for code in (0, 1, 2))
        print(
            f"{kind:<10} {count:>6} {done:>6} {held:>6} {refused:>8} {wrong[kind]:>6} "
            f"{seconds[kind]:>8.1f}   slowest {slowest[kind][0]:.1f} s: {slowest[kind][1]}"
        )
    print(f"{time.perf_counter() - started:.0f} s in all, {memory >> 20} MiB at the highest")


if __name__ == "__main__":
    main()
