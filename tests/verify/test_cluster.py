"""A bank over a Dask cluster of processes on this machine, one of which is killed on the way."""

import os
import signal
from dataclasses import replace

import pytest

from layout.command import main
from tests.support.checkout import ROOT
from verify.budget import USUAL
from verify.check import Asked, check
from verify.cluster import over_cluster
from verify.manifest.bank_line import text_lines

dask = pytest.importorskip("dask")
distributed = pytest.importorskip("distributed")

ONE = "12343412214343.1"
LINES = [ONE, "1" + "." * 15, "11" + "." * 14, "x"] * 300
VERDICTS = Asked(wanted=None)


def deadly(numbers):
    """A task that no worker survives at one of its items."""
    for number in numbers:
        if number == 7:
            os._exit(1)
        yield [number]


@pytest.fixture(scope="module")
def cluster():
    os.environ["PYTHONPATH"] = str(ROOT)
    at_once = dask.config.set({"distributed.scheduler.allowed-failures": 0})
    with at_once, distributed.LocalCluster(2, threads_per_worker=1, dashboard_address="") as local:
        yield local


def findings(items, scheduler=""):
    for found in check(items, USUAL, 1, asked=VERDICTS, scheduler=scheduler):
        yield replace(found, seconds=0)


def test_a_worker_that_is_killed_costs_no_line(cluster):
    expected = list(findings(text_lines(LINES, "marsh.txt")))
    with distributed.Client(cluster, set_as_default=False) as client:
        first, *_ = client.run(os.getpid).values()
    found = findings(text_lines(LINES, "marsh.txt"), cluster.scheduler_address)
    begun = [next(found) for _ in range(20)]
    os.kill(first, signal.SIGKILL)
    assert [*begun, *found] == expected


def test_what_no_worker_survives_is_lost_and_the_rest_goes_on(cluster):
    found = over_cluster(cluster.scheduler_address, deadly, range(20), lost=lambda item: -item)
    assert list(found) == [*range(7), -7, *range(8, 20)]


def test_workers_with_other_code_are_refused(cluster, tmp_path, capsys, monkeypatch):
    bank = tmp_path / "marsh.txt"
    bank.write_text(ONE)
    words = ["check", str(bank), "--scheduler", cluster.scheduler_address]
    assert main(words) == 0
    monkeypatch.setattr("verify.cluster.code_digest", lambda: b"another")
    assert main(words) == 2
    assert "a worker of the cluster runs another version" in capsys.readouterr().err


def test_a_scheduler_that_does_not_answer_is_told(tmp_path, capsys, monkeypatch):
    monkeypatch.setattr("verify.cluster.PATIENCE", 0.5)
    (tmp_path / "marsh.txt").write_text(ONE)
    words = ["check", str(tmp_path / "marsh.txt"), "--scheduler"]
    assert main([*words, "tcp://127.0.0.1:1"]) == 2
    assert main([*words, "nowhere at all"]) == 2
    assert capsys.readouterr().err.count("reglet: no cluster at ") == 2
