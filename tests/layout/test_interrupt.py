"""Ctrl-C in the middle of a long proof: one message, the right exit code, no traceback."""

import os
import signal
import subprocess
import sys
import time

import pytest

from tests.support.checkout import ROOT

RUN = "import sys; from layout.start import main; sys.exit(main())"

# Fifteen whole rows of a size of 25 are not fixed by anything: far too hard to settle in a while.
HARD = "kind: sudoku\nsize: 25\nrules:\n  cage:\n" + "".join(
    f"    - {{cells: r{row}c{column}..r{row + 3}c{column + 3}, sum: {180 + 3 * row + column}}}\n"
    for row in range(1, 22, 4)
    for column in range(1, 22, 4)
)


@pytest.mark.skipif(os.name == "nt", reason="signals of this kind are POSIX")
@pytest.mark.parametrize("copies", [1, 30])
def test_an_interrupt_ends_the_work_at_once(tmp_path, copies):
    for number in range(copies):
        (tmp_path / f"hard-{number}.yaml").write_text(HARD)
    with subprocess.Popen(
        [sys.executable, "-c", RUN, "check", str(tmp_path), "--jobs", "2"],
        cwd=ROOT,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    ) as process:
        time.sleep(2.5)
        assert process.poll() is None, "the proof is too easy for this test"
        process.send_signal(signal.SIGINT)
        out, err = process.communicate(timeout=30)
    assert (process.returncode, out) == (130, "")
    assert err == "reglet: interrupted; no file was changed\n"
