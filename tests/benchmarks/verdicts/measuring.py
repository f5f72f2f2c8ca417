"""Two worker processes that share the puzzles of a row, their time and their memory."""

import resource
import time
from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from multiprocessing import get_context
from typing import Final

from tests.benchmarks.verdicts.provers import AT_ONCE, PROVERS
from verify.puzzle import Puzzle

WORKERS: Final = 2

WARMING: Final = 32
"""Puzzles that are settled together before time counts."""


@dataclass(frozen=True, slots=True)
class Part:
    """What a worker did: words in the order of its puzzles, seconds of its processor, MiB."""

    words: tuple[str, ...]
    seconds: float
    memory: float


@dataclass(frozen=True, slots=True)
class Measured:
    """What two workers did with a row."""

    parts: tuple[Part, ...]

    @property
    def words(self) -> tuple[str, ...]:
        """All words; the same puzzles give them in the same order."""
        return tuple(word for part in self.parts for word in part.words)

    @property
    def rate(self) -> float:
        """Verdicts a second of both together; what is undecided is none."""
        return sum(
            sum(word not in ("undecided", "") for word in part.words) / max(part.seconds, 1e-9)
            for part in self.parts
        )

    @property
    def memory(self) -> float:
        """The most that one of them held, in MiB."""
        return max(part.memory for part in self.parts)


def measure(prover: str, puzzles: Sequence[Puzzle], each: float, most: float) -> Measured:
    """Has two new processes prove the puzzles, each every other one.

    A puzzle gets `each` seconds, a worker `most`; what it does not come to has the word "". Time is
    that of the processors, so that what else a busy machine does is not counted. Each worker first
    proves puzzles that are not counted: the program and what it keeps are loaded then.
    """
    with ProcessPoolExecutor(WORKERS, mp_context=get_context("spawn")) as workers:
        shares = [puzzles[start::WORKERS] for start in range(WORKERS)]
        tasks = [workers.submit(_share, prover, share, each, most) for share in shares]
        return Measured(tuple(task.result() for task in tasks))


def _share(prover: str, puzzles: Sequence[Puzzle], each: float, most: float) -> Part:
    prove, at_once = PROVERS[prover], AT_ONCE.get(prover, _none_at_once)
    if puzzles:
        at_once([puzzles[0]] * WARMING)
        prove(puzzles[0], each)
    began = time.process_time()
    words = at_once(puzzles)
    for number, puzzle in enumerate(puzzles):
        if time.process_time() - began > most:
            break
        words[number] = words[number] or prove(puzzle, each)
    spent = time.process_time() - began
    return Part(tuple(words), spent, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024)


def _none_at_once(puzzles: Sequence[Puzzle]) -> list[str]:
    return [""] * len(puzzles)
