"""Work over many things: results in order, over worker processes, with progress.

Everything that is done to each of many puzzles goes through `in_order`. A pool of the standard
library breaks as a whole when one worker is killed, and pools whose workers share one pipe hang
when one is killed while it reads; so each worker here has a pipe of its own, and its end is seen
on that pipe alone.
"""

import os
from collections import deque
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, Final, Generic, NoReturn, TypeVar

if TYPE_CHECKING:
    from multiprocessing.connection import Connection
    from multiprocessing.context import BaseContext
    from multiprocessing.process import BaseProcess

T = TypeVar("T")
R = TypeVar("R")

FEW: Final = 24
"""Items that one process finishes before another could have started."""

CHUNK: Final = 8
"""Items handed to a worker at a time, at most."""

AHEAD: Final = 64
"""Items for each worker that may be done before the first of them is asked for."""


def cores() -> int:
    """Processor cores that this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def _refuse_lost(item: object) -> NoReturn:
    raise RuntimeError(f"two worker processes have ended over {item!r:.200}")


def in_order(
    task: Callable[[T], R],
    items: Sequence[T],
    workers: int | None = None,
    progress: Callable[[int], None] = lambda done: None,
    *,
    few: int = FEW,
    lost: Callable[[T], R] = _refuse_lost,
) -> Iterator[R]:
    """`task(item)` for each item, in the order of the items.

    `workers` processes share the work (default: the cores there are); up to `few` items are done
    in this process. `progress` is called with the number of results so far. An item whose worker
    is killed, or runs out of memory, is done again by another; one that ends two workers has
    `lost(item)` for its result, and the rest goes on. Closing the iterator, or an exception such
    as KeyboardInterrupt, ends the workers at once; they never outlive this process.
    """
    workers = cores() if workers is None else workers
    results = (
        map(task, items)
        if workers < 2 or len(items) <= few
        else _spread(_Crew(task, items, lost, min(workers, len(items))))
    )
    for done, result in enumerate(results, start=1):
        progress(done)
        yield result


def _spread(crew: "_Crew[T, R]") -> Iterator[R]:
    try:
        for number in range(len(crew.items)):
            while number not in crew.results:
                crew.hand_out(number + AHEAD * crew.size)
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

    `begun` is the number of the first item that was never handed out, `again` those of items
    whose worker ended, `blamed` those whose own turn it was when that happened.
    """

    task: Callable[[T], R]
    items: Sequence[T]
    lost: Callable[[T], R]
    size: int
    results: dict[int, R | _Failure] = field(default_factory=dict)
    workers: list[_Worker] = field(default_factory=list)
    begun: int = 0
    again: list[int] = field(default_factory=list)
    blamed: set[int] = field(default_factory=set)

    def hand_out(self, end: int) -> None:
        """Gives every idle worker something to do, of the items before the number `end`."""
        while len(self.workers) < self.size and (self.again or self.begun < len(self.items)):
            with _interrupts_wait():
                self.workers.append(_hired(self.task))
            self._employ(self.workers[-1], end)
        for worker in self.workers:
            if not worker.numbers:
                self._employ(worker, end)

    def _employ(self, worker: _Worker, end: int) -> None:
        numbers = self._next_numbers(end)
        if numbers:
            worker.numbers.extend(numbers)
            with suppress(OSError):  # it has ended; `collect` will see it
                worker.pipe.send([self.items[number] for number in numbers])

    def _next_numbers(self, end: int) -> Sequence[int]:
        """What is done next: one item whose worker ended, else a few new ones."""
        if self.again:
            return [self.again.pop(0)]
        fair = max(1, min(CHUNK, len(self.items) // (4 * self.size)))
        numbers = range(self.begun, min(self.begun + fair, end, len(self.items)))
        self.begun += len(numbers)
        return numbers

    def collect(self) -> None:
        """Waits for results, and takes those that are there."""
        from multiprocessing.connection import wait

        busy = {worker.pipe: worker for worker in self.workers if worker.numbers}
        for pipe in wait(list(busy)):
            worker = busy[pipe]  # type: ignore[index]
            try:
                result = worker.pipe.recv()
            except (EOFError, OSError):
                self._bury(worker)
            else:
                self.results[worker.numbers.popleft()] = result

    def _bury(self, worker: _Worker) -> None:
        """Sees to the items of a worker that has ended; the first of them is the one to blame."""
        self.workers.remove(worker)
        _end(worker)
        first = worker.numbers[0]
        if first in self.blamed:
            self.results[first] = self.lost(self.items[worker.numbers.popleft()])
        self.blamed.add(first)
        self.again = sorted([*self.again, *worker.numbers])

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


def _hired(task: Callable[[T], R]) -> _Worker:
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


def _serve(task: Callable[[T], R], pipe: "Connection[Any, Any]") -> NoReturn:
    """A worker's life: answers item by item until the pipe closes, its parent or itself ends."""
    from threading import Thread

    Thread(target=_end_with_parent, daemon=True).start()
    try:
        while True:
            for item in pipe.recv():
                pipe.send(_outcome(task, item))
    finally:
        os._exit(1)  # without a word: the parent sees it, and tells what is to be told


def _end_with_parent() -> None:
    """Ends this process when its parent has, however deep in a proof it is."""
    from multiprocessing import parent_process

    parent = parent_process()
    if parent is not None:
        parent.join()
    os._exit(1)


def _outcome(task: Callable[[T], R], item: T) -> R | _Failure:
    """The result, or what was raised; memory that ran out ends the worker instead."""
    from traceback import format_exc

    try:
        return task(item)
    except MemoryError:
        raise
    except Exception as error:
        error.add_note(format_exc())
        return _Failure(error)
