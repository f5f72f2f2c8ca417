"""Work over many things: results in order, over worker processes, with progress.

Everything that is done to each of many puzzles goes through `in_order`.
"""

from collections.abc import Callable, Iterator, Sequence
from typing import Final, TypeVar

T = TypeVar("T")
R = TypeVar("R")

FEW: Final = 24
"""Items that one process finishes before another could have started."""

CHUNK: Final = 8
"""Items handed to a worker at a time."""


def cores() -> int:
    """Processor cores that this process may use."""
    import os

    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def in_order(
    task: Callable[[T], R],
    items: Sequence[T],
    workers: int | None = None,
    progress: Callable[[int], None] = lambda done: None,
) -> Iterator[R]:
    """`task(item)` for each item, in the order of the items.

    `workers` processes share the work (default: the cores there are); a few items are done
    in this process. `progress` is called with the number of results so far. Closing the
    iterator, or an exception such as KeyboardInterrupt, cancels what has not begun.
    """
    workers = cores() if workers is None else workers
    results = (
        map(task, items)
        if workers < 2 or len(items) <= FEW
        else _spread(task, items, min(workers, len(items)))
    )
    for done, result in enumerate(results, start=1):
        progress(done)
        yield result


def _spread(task: Callable[[T], R], items: Sequence[T], workers: int) -> Iterator[R]:
    from concurrent.futures import ProcessPoolExecutor
    from multiprocessing import active_children

    pool = ProcessPoolExecutor(workers, initializer=_ignore_interrupts)
    try:
        yield from pool.map(task, items, chunksize=CHUNK)
    except BaseException:
        # A worker may be deep in a long proof that nobody waits for any more.
        for child in active_children():
            child.terminate()
        raise
    finally:
        pool.shutdown(wait=True, cancel_futures=True)


def _ignore_interrupts() -> None:
    """Ctrl-C goes to the parent alone, which then ends its workers in good order."""
    import signal

    signal.signal(signal.SIGINT, signal.SIG_IGN)
