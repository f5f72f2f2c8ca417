"""Work over many things keeps its order, reports what is done, and outlives its workers."""

import os
import signal
import subprocess
import sys
import time
from contextlib import suppress
from functools import partial
from itertools import count
from pathlib import Path
from typing import Any

import pytest

from tests.support.checkout import ROOT
from verify.work import AHEAD, FEW, cores, in_order

KILL = getattr(signal, "SIGKILL", signal.SIGTERM)


def double(number):
    return 2 * number


def fail_at_seven(number):
    if number == 7:
        raise ValueError("seven")
    return number


def end_at(number, deadly, folder):
    """Ends its own process at each deadly number, as often as that says, and notes its turns."""
    turn = len(list(folder.glob(f"{number}-*")))
    (folder / f"{number}-{turn}").touch()
    if turn < deadly.get(number, 0):
        os.kill(os.getpid(), KILL)
    return 2 * number


def run_short_of_memory(number):
    if number == 7:
        raise MemoryError
    return 2 * number


def unlike(number):
    return -number


@pytest.mark.parametrize("workers", [1, 2, None])
@pytest.mark.parametrize("count", [0, 1, FEW, FEW + 1, 5 * FEW])
def test_results_come_in_the_order_of_the_items(workers, count):
    done = []
    results = list(in_order(double, range(count), workers, done.append))
    assert results == [2 * number for number in range(count)]
    assert done == list(range(1, count + 1))


@pytest.mark.parametrize("workers", [1, 2])
def test_a_failure_comes_through_in_its_turn_and_ends_the_work(workers):
    results = in_order(fail_at_seven, range(200), workers)
    assert [next(results) for _ in range(7)] == list(range(7))
    with pytest.raises(ValueError, match="seven"):
        next(results)
    assert list(results) == []


def test_a_failure_says_where_it_happened_in_its_worker():
    with pytest.raises(ValueError, match="seven") as caught:
        list(in_order(fail_at_seven, range(200), 2))
    assert "in fail_at_seven" in caught.value.__notes__[0]


def test_work_can_be_left_early():
    results: Any = in_order(double, range(10 * FEW), 2)
    assert next(results) == 0
    results.close()


def test_what_a_killed_worker_left_is_done_by_another(tmp_path):
    task = partial(end_at, deadly={0: 1, 7: 1, 30: 1, 99: 1}, folder=tmp_path)
    assert list(in_order(task, range(100), 2, lost=unlike)) == [2 * each for each in range(100)]


def test_what_kills_two_workers_is_given_up_and_the_rest_goes_on(tmp_path):
    task = partial(end_at, deadly={7: 9, 8: 9, 99: 9}, folder=tmp_path)
    results = list(in_order(task, range(100), 2, lost=unlike))
    assert results == [-each if each in (7, 8, 99) else 2 * each for each in range(100)]
    assert {len(list(tmp_path.glob(f"{each}-*"))) for each in (7, 8, 99)} == {2}


def test_memory_that_runs_out_ends_the_worker_alone():
    results = list(in_order(run_short_of_memory, range(50), 2, lost=unlike))
    assert results == [-7 if each == 7 else 2 * each for each in range(50)]


def test_an_item_that_ends_two_workers_is_a_failure_where_nothing_stands_for_it():
    with pytest.raises(RuntimeError, match="ended over 7"):
        list(in_order(run_short_of_memory, range(50), 2))


def test_no_more_is_done_ahead_than_is_allowed(tmp_path):
    results: Any = in_order(partial(end_at, deadly={}, folder=tmp_path), range(1000), 2)
    next(results)
    time.sleep(0.3)
    done = len(list(tmp_path.iterdir()))
    results.close()
    assert done <= 2 * AHEAD


def test_there_is_a_core():
    assert cores() >= 1


PARENT = """
import os
from verify.work import in_order

def hold(number):
    os.write(1, b"%d\\n" % os.getpid())
    while True:
        pass

if __name__ == "__main__":
    list(in_order(hold, range(100), 2))
"""


def alive(number):
    """Whether a process runs; one that has ended and waits to be asked why does not."""
    with suppress(OSError):
        state = Path(f"/proc/{number}/stat").read_text().rpartition(")")[2].split()[0]
        return state != "Z"
    return False


@pytest.mark.skipif(not Path("/proc/self/stat").exists(), reason="asks /proc what runs")
@pytest.mark.parametrize("number", [signal.SIGTERM, KILL])
def test_no_worker_outlives_its_parent(tmp_path, number):
    (tmp_path / "parent.py").write_text(PARENT)
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    command = [sys.executable, str(tmp_path / "parent.py")]
    with subprocess.Popen(command, env=environment, stdout=subprocess.PIPE, text=True) as parent:
        workers = [int(parent.stdout.readline()) for _ in range(2)]
        assert all(map(alive, workers))
        parent.send_signal(number)
        parent.wait()
    end = time.monotonic() + 2
    while any(map(alive, workers)) and time.monotonic() < end:
        time.sleep(0.02)
    assert not any(map(alive, workers))


@pytest.mark.parametrize("workers", [1, 2])
def test_items_without_end_are_asked_for_as_they_are_needed(workers):
    asked = []

    def endless():
        for number in count():
            asked.append(number)
            yield number

    results: Any = in_order(double, endless(), workers)
    assert [next(results) for _ in range(100)] == [2 * number for number in range(100)]
    results.close()
    assert len(asked) <= 100 + workers * AHEAD
