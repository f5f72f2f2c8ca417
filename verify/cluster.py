"""Any number of items over the workers of a Dask cluster, in order: for more than one machine.

It does what `verify.work` does with processes of this machine. Dask hands what a worker that ended
had to do to another; who ends three of them is asked for one item at a time, and what ends them
again has no result. Every worker must run this very code: each says which it runs.
"""

from collections import deque
from collections.abc import Callable, Generator, Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from itertools import islice
from threading import Lock
from typing import TYPE_CHECKING, Any, Final, Generic, TypeVar, cast

from verify.walk.report.kept import code_digest
from verify.work import CHUNK, BatchTask

if TYPE_CHECKING:
    from distributed import Client, Future

T = TypeVar("T")
R = TypeVar("R")

AHEAD: Final = 4
"""Batches for each core of the cluster that are under way at once."""

PATIENCE: Final = 20.0
"""Seconds to wait for a scheduler to answer."""

_ONE_AT_A_TIME: Final = Lock()
"""Solvers are kept for the next puzzle, so threads of one worker must not share them."""


class NoCluster(Exception):  # noqa: N818 - what befell the run, in the editor's words
    """The scheduler can't be reached, has no workers, or they don't run this program."""


def over_cluster(
    address: str,
    task: BatchTask[T, R],
    items: Iterable[T],
    progress: Callable[[int], None] = lambda done: None,
    *,
    lost: Callable[[T], R],
    most: int = CHUNK,
) -> Generator[R, None, None]:
    """As `verify.work.in_batches`, over the workers of the scheduler at an address.

    Raises NoCluster, also on the way, where there is none; ImportError where Dask is not installed.
    """
    with _client(address) as client:
        crew = _Crew(client, task, iter(items), lost, most)
        for done, result in enumerate(crew.results(), start=1):
            progress(done)
            yield result


@contextmanager
def _client(address: str) -> Iterator["Client"]:
    from distributed import Client
    from distributed.client import FutureCancelledError

    try:
        with Client(address, timeout=PATIENCE, set_as_default=False) as client:
            client.wait_for_workers(1, PATIENCE)
            yield client
    except (OSError, ValueError, FutureCancelledError) as error:
        raise NoCluster(f"no cluster at {address}: {error or type(error).__name__}") from error


@dataclass(slots=True)
class _Batch(Generic[T]):
    """Some items, and what will come of them."""

    items: Sequence[T]
    future: "Future"


@dataclass(slots=True)
class _Crew(Generic[T, R]):
    """The batches that are under way, in order; `begun` counts the items in all so far."""

    client: "Client"
    task: BatchTask[T, R]
    coming: Iterator[T]
    lost: Callable[[T], R]
    most: int
    begun: int = 0

    def results(self) -> Iterator[R]:
        """The results in the order of the items."""
        waiting: deque[_Batch[T]] = deque()
        while True:
            cores = max(1, sum(self.client.ncores().values()))
            while len(waiting) < AHEAD * cores and (some := self._next_items(cores)):
                waiting.append(_Batch(some, self._handed_out(some)))
            if not waiting:
                return
            yield from self._outcome(waiting.popleft())

    def _next_items(self, cores: int) -> Sequence[T]:
        """A few items at first, later more, so that the last ones are shared fairly."""
        some = list(islice(self.coming, min(self.most, max(CHUNK, self.begun // (4 * cores)))))
        self.begun += len(some)
        return some

    def _handed_out(self, items: Sequence[T]) -> "Future":
        return self.client.submit(_done, self.task, items, pure=False)

    def _outcome(self, batch: _Batch[T]) -> Iterator[R]:
        from distributed import KilledWorker

        try:
            digest, results = cast("tuple[bytes, list[R]]", batch.future.result())
        except KilledWorker:
            yield from self._singly(batch.items)
            return
        if digest != code_digest():
            raise NoCluster("a worker of the cluster runs another version of Reglet")
        yield from results

    def _singly(self, items: Sequence[T]) -> Iterator[R]:
        """The results of items one of which ends workers: only one is handed out at a time."""
        if len(items) == 1:
            yield self.lost(items[0])
            return
        for item in items:
            yield from self._outcome(_Batch([item], self._handed_out([item])))


def _done(task: BatchTask[Any, Any], items: Sequence[Any]) -> tuple[bytes, list[Any]]:
    """What a worker does; and which code it runs."""
    with _ONE_AT_A_TIME:
        return code_digest(), [result for results in task(items) for result in results]
