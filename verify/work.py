"""Work over many things: results in order, over worker processes, with progress.

Everything that is done to each of many puzzles goes through `in_order`. A pool of the standard
library breaks as a whole when one worker is killed, and pools whose workers share one pipe hang
when one is killed while it reads; so each worker here has a pipe of its own, and its end is seen
on that pipe alone.
"""

import os
from collections import deque
from collections.abc import Callable, Generator, Iterable, Iterator, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from functools import partial
from itertools import chain, count, islice
from operator import length_hint
from typing import TYPE_CHECKING, Any, Final, Generic, NoReturn, TypeAlias, TypeVar

if TYPE_CHECKING:
    from multiprocessing.connection import Connection
    from multiprocessing.context import BaseContext
    from multiprocessing.process import BaseProcess

T = TypeVar("T")
R = TypeVar("R")

FEW: Final = 24
"""Items that one process finishes before another could have started."""

CHUNK: Final = 16
"""Items handed to a worker at a time, at most."""

AHEAD: Final = 64
"""Items for each worker that may usually be done before the first of them is asked for."""

LOOK_AGAIN: Final = 64
"""Results that are given out before it is seen whether a worker has nothing to do."""

BatchTask: TypeAlias = Callable[[Sequence[T]], Iterator[Sequence[R]]]
"""Work on some items together; the results come in their order, any number of them at a time."""


def cores() -> int:
    """Processor cores that this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def _refuse_lost(item: object) -> NoReturn:
    raise RuntimeError(f"two worker processes have ended over {item!r:.200}")


def in_order(
    task: Callable[[T], R],
    items: Iterable[T],
    workers: int | None = None,
    progress: Callable[[int], None] = lambda done: None,
    *,
    few: int = FEW,
    lost: Callable[[T], R] = _refuse_lost,
    ahead: int = AHEAD,
) -> Generator[R, None, None]:
    """`task(item)` for each item, in the order of the items.

    Items are asked for only as they are needed, so that there may be any number of them; for each
    worker `ahead` of them may be done before the first is asked for.
    `workers` processes share the work (default: the cores there are); up to `few` items are done
    in this process. `progress` is called with the number of results so far. An item whose worker
    is killed, or runs out of memory, is done again by another; one that ends two workers has
    `lost(item)` for its result, and the rest goes on. Closing the iterator, or an exception such
    as KeyboardInterrupt, ends the workers at once; they never outlive this process.
    """
    batches, most = partial(_one_by_one, task), max(1, min(CHUNK, ahead // 4))
    return in_batches(batches, items, workers, progress, few=few, lost=lost, most=most, ahead=ahead)


def _one_by_one(task: Callable[[T], R], items: Sequence[T]) -> Iterator[Sequence[R]]:
    for item in items:
        yield [task(item)]


def in_batches(
    task: BatchTask[T, R],
    items: Iterable[T],
    workers: int | None = None,
    progress: Callable[[int], None] = lambda done: None,
    *,
    few: int = FEW,
    lost: Callable[[T], R] = _refuse_lost,
    most: int = CHUNK,
    ahead: int = AHEAD,
) -> Generator[R, None, None]:
    """As `in_order`, for a task that sees some items together, at most so many.

    It yields a result for each of them, in their order: those at a time that it has at a time.
    """
    workers = cores() if workers is None else workers
    coming = iter(items)
    first = list(islice(coming, few + 1))
    every = chain(first, coming)
    if workers < 2 or len(first) <= few:
        results = _here(task, every, most)
    else:
        left = len(first) + length_hint(coming, CHUNK * 4 * workers)
        chunk = max(1, min(CHUNK, most, left // (4 * workers)))
        results = _spread(_Crew(task, every, lost, workers, chunk, most, max(ahead, 2 * most)))
    for done, result in enumerate(results, start=1):
        progress(done)
        yield result


def _here(task: BatchTask[T, R], items: Iterator[T], most: int) -> Iterator[R]:
    """The work of this process alone."""
    while some := list(islice(items, most)):
        for results in task(some):
            yield from results


def _spread(crew: "_Crew[T, R]") -> Iterator[R]:
    try:
        for number in count():
            if number % LOOK_AGAIN == 0:
                crew.hand_out(number)
                crew.collect(wait_for=0)
            while number not in crew.results:
                crew.hand_out(number)
                if number == crew.begun:  # there are no more
                    return
                crew.collect()
            result = crew.results.pop(number)
            if isinstance(result, _Failure):
                raise result.error
            yield result
    finally:
        crew.dismiss()


@dataclass(frozen=True, slots=True)
class _Failure:
    """What a task raised, on its way to the first process."""

    error: Exception


@dataclass(eq=False, slots=True)
class _Worker:
    """A process, its pipe, and the numbers of the items that it has not answered yet, in order."""

    process: "BaseProcess"
    pipe: "Connection[Any, Any]"
    numbers: deque[int] = field(default_factory=deque)


@dataclass(slots=True)
class _Crew(Generic[T, R]):
    """The workers, the results that nobody asked for yet, and what is still to be done.

    `coming` gives the items that were never handed out, `chunk` of them at a time and later more,
    up to `most`: an eighth of all so far, so that the last ones are shared fairly; `ahead` of them
    for each worker may be done before the first of them is asked for. `held` are
    those that were, by their numbers, until there is a result. `begun` is the number of the first
    item that was never handed out, `again` those of items whose worker ended, `blamed` those whose
    own turn it was when that happened.
    """

    task: BatchTask[T, R]
    coming: Iterator[T]
    lost: Callable[[T], R]
    size: int
    chunk: int
    most: int
    ahead: int
    held: dict[int, T] = field(default_factory=dict)
    results: dict[int, R | _Failure] = field(default_factory=dict)
    workers: list[_Worker] = field(default_factory=list)
    begun: int = 0
    again: list[int] = field(default_factory=list)
    blamed: set[int] = field(default_factory=set)

    def hand_out(self, asked_for: int) -> None:
        """Gives every idle worker something to do, not too far behind what is asked for."""
        end = asked_for + self.ahead * self.size
        for worker in self.workers:
            if not worker.numbers:
                self._employ(worker, self._next_numbers(end))
        while len(self.workers) < self.size and (numbers := self._next_numbers(end)):
            with _interrupts_wait():
                self.workers.append(_hired(self.task))
            self._employ(self.workers[-1], numbers)

    def _employ(self, worker: _Worker, numbers: Sequence[int]) -> None:
        if numbers:
            worker.numbers.extend(numbers)
            with suppress(OSError):  # it has ended; `collect` will see it
                worker.pipe.send([self.held[number] for number in numbers])

    def _next_numbers(self, end: int) -> Sequence[int]:
        """What is done next: one item whose worker ended, else a few new ones."""
        if self.again:
            return [self.again.pop(0)]
        start = self.begun
        chunk = min(self.most, max(self.chunk, start // (4 * self.size)))
        for item in islice(self.coming, max(0, min(chunk, end - start))):
            self.held[self.begun] = item
            self.begun += 1
        return range(start, self.begun)

    def collect(self, wait_for: float | None = None) -> None:
        """Waits for results, at most so many seconds, and takes those that are there."""
        from multiprocessing.connection import wait

        busy = {worker.pipe: worker for worker in self.workers if worker.numbers}
        for pipe in wait(list(busy), wait_for):
            worker = busy[pipe]  # type: ignore[index]
            try:
                results = worker.pipe.recv()
            except (EOFError, OSError):
                self._bury(worker)
            else:
                for result in results:
                    self._note(worker.numbers.popleft(), result)

    def _bury(self, worker: _Worker) -> None:
        """Sees to the items of a worker that has ended; the first of them is the one to blame."""
        self.workers.remove(worker)
        _end(worker)
        first = worker.numbers[0]
        if first in self.blamed:
            self._note(worker.numbers.popleft(), self.lost(self.held[first]))
        self.blamed.add(first)
        self.again = sorted([*self.again, *worker.numbers])

    def _note(self, number: int, result: R | _Failure) -> None:
        self.results[number] = result
        del self.held[number]

    def dismiss(self) -> None:
        """Ends all workers at once: one may be deep in a proof that nobody waits for any more."""
        for worker in self.workers:
            worker.process.kill()
        for worker in self.workers:
            _end(worker)
        self.workers.clear()


def _context() -> "BaseContext":
    """How processes are started: never as a copy of this one, in which threads may hold locks.

    Copies of a server that knows how to check a puzzle are as quick to start, where there are any.
    """
    from multiprocessing import get_all_start_methods, get_context

    if "forkserver" not in get_all_start_methods():
        return get_context("spawn")
    context = get_context("forkserver")
    context.set_forkserver_preload(["verify.check"])
    return context


def _hired(task: BatchTask[T, R]) -> _Worker:
    context = _context()
    ours, theirs = context.Pipe()
    with theirs:
        process = context.Process(target=_serve, args=(task, theirs), daemon=True)  # type: ignore[attr-defined]
        process.start()
    return _Worker(process, ours)


def _end(worker: _Worker) -> None:
    worker.process.kill()
    worker.process.join()
    worker.pipe.close()


@contextmanager
def _interrupts_wait() -> Iterator[None]:
    """Ctrl-C waits until a worker has started, which never hears of it: only its parent does."""
    import signal

    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    from multiprocessing.resource_tracker import ensure_running

    ensure_running()  # else it starts in the block, and lets interrupts through again
    earlier = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, earlier)


def _serve(task: BatchTask[T, R], pipe: "Connection[Any, Any]") -> NoReturn:
    """A worker's life: answers items in order until the pipe closes, its parent or itself ends."""
    from threading import Thread

    Thread(target=_end_with_parent, daemon=True).start()
    try:
        while True:
            for results in _outcomes(task, pipe.recv()):
                pipe.send(results)
    finally:
        os._exit(1)  # without a word: the parent sees it, and tells what is to be told


def _end_with_parent() -> None:
    """Ends this process when its parent has, however deep in a proof it is."""
    from multiprocessing import parent_process

    parent = parent_process()
    if parent is not None:
        parent.join()
    os._exit(1)


def _outcomes(task: BatchTask[T, R], items: Sequence[T]) -> Iterator[Sequence[R | _Failure]]:
    """The results, or what was raised instead; memory that ran out ends the worker."""
    from traceback import format_exc

    try:
        yield from task(items)
    except MemoryError:
        raise
    except Exception as error:
        error.add_note(format_exc())
        yield [_Failure(error)]
