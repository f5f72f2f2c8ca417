"""Kills a run before, within and after every write, link, move and removal that it makes.

`python -m tests.support.kills KIND` forks a child for each place in a job of that kind where it can
be killed, runs the job again, and prints what became of it as JSON. In a process of its own, as a
process with threads must not fork.
"""

import json
import os
import shutil
import signal
import sys
import tempfile
from pathlib import Path

from layout.command import main
from layout.output import files, journal, write
from layout.output.folder_lock import LOCK
from tests.support.books import write_job
from tests.support.seasons import JOB as SEASON
from tests.support.seasons import write_column
from tests.support.worksheets import write_worksheet

NEVER = 10**9

TWO_DAYS = SEASON.replace("issues: 4", "issues: 2").replace("formats: [svg]", "formats: [txt]")
FOUR_DAYS = SEASON.replace("formats: [svg]", "formats: [txt]")


class Killer:
    """Counts the places where a run could be killed, and kills it at one of them."""

    def __init__(self, at: int) -> None:
        self.at, self.reached = at, 0

    def here(self) -> None:
        self.reached += 1
        if self.reached == self.at:
            os.kill(os.getpid(), signal.SIGKILL)

    def around(self, owner: object, name: str) -> None:
        """A place before and one after each call of a function."""
        call = getattr(owner, name)

        def watched(*arguments: object, **more: object) -> object:
            self.here()
            result = call(*arguments, **more)
            self.here()
            return result

        setattr(owner, name, watched)

    def within_writes(self) -> None:
        """A place in the middle of each file."""
        whole = files.write_durably

        def halved(path: Path, data: bytes) -> None:
            path.write_bytes(data[: len(data) // 2])
            self.here()
            whole(path, data)

        write.write_durably = halved  # type: ignore[attr-defined]


def child(words: list[str], at: int) -> int:
    """Runs a command in a child that is killed at a place; its exit code, or -9."""
    process = os.fork()
    if process == 0:
        killer = Killer(at)
        for owner, name in ((os, "replace"), (os, "link"), (os, "unlink"), (shutil, "rmtree")):
            killer.around(owner, name)
        for owner, name in ((tempfile, "mkdtemp"), (journal, "settle"), (write, "write_durably")):
            killer.around(owner, name)
        killer.within_writes()
        code = main(words)
        if at == NEVER:
            (Path(words[1]).parent / "places").write_text(str(killer.reached))
        os._exit(code)
    _, status = os.waitpid(process, 0)
    return os.waitstatus_to_exitcode(status)


def held(folder: Path) -> dict[str, bytes]:
    """All files below a folder but the lock, hidden ones too."""
    found = (path for path in folder.rglob("*") if path.is_file() and path.name != LOCK)
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in found}


class Case:
    """A job in a folder, made once as it was, and then to be made anew."""

    def __init__(self, kind: str, folder: Path) -> None:
        self.folder, self.extra = folder, []
        if kind in ("season", "again", "from"):
            self.job = write_column(folder, TWO_DAYS)
            if kind != "season":
                self._make()
                text = FOUR_DAYS if kind == "again" else TWO_DAYS.replace("Small", "Great")
                self.job.write_text(text, encoding="utf-8")
            if kind == "from":
                self.extra = ["--from", "2027-02-26"]
        else:
            self.job = write_job(folder) if kind == "book" else write_worksheet(folder)
            self._make()
            text = self.job.read_text(encoding="utf-8").replace("title: ", "title: Another ", 1)
            self.job.write_text(text, encoding="utf-8")

    def _make(self) -> None:
        assert main(["make", str(self.job), "--quiet"]) == 0

    @property
    def words(self) -> list[str]:
        return ["make", str(self.job), "--quiet", *self.extra]

    def built(self) -> dict[str, bytes]:
        return held(self.folder / "build")


def faults(kind: str, step: int = 1) -> tuple[int, list[str]]:
    """How many places there are, and what went wrong after a kill at every `step`-th of them."""
    with tempfile.TemporaryDirectory() as at:
        return _faults(kind, Path(at), step)


def _faults(kind: str, root: Path, step: int) -> tuple[int, list[str]]:
    Case("worksheet", root / "warm")  # All modules are loaded before there are children.
    Case("from", root / "warmer")
    first = Case(kind, root / "first")
    before = first.built()
    assert child(first.words, NEVER) == 0
    after, places = first.built(), int((first.folder / "places").read_text())
    found = []
    for place in range(1, places + 1, step):
        case = Case(kind, root / f"{place}")
        if child(case.words, place) != -signal.SIGKILL:
            found.append(f"{place}: not killed")
        found += [f"{place}: {name} is neither" for name in _strange(case.built(), before, after)]
        if (code := child(case.words, NEVER)) != 0:
            found.append(f"{place}: the second run ends with {code}")
        if case.built() != after:
            found.append(f"{place}: the second run leaves {sorted(case.built())}")
        shutil.rmtree(case.folder)
    return places, found


def _strange(now: dict[str, bytes], *known: dict[str, bytes]) -> list[str]:
    """Files in their places that are no file of before or after, and those that are gone."""
    places = {name for each in known for name in each}
    strange = [n for n in places & now.keys() if now[n] not in [each.get(n) for each in known]]
    gone = [name for name in set.intersection(*map(set, known)) if name not in now]
    return strange + gone


if __name__ == "__main__":
    print(json.dumps(faults(sys.argv[1], int(sys.argv[2]) if len(sys.argv) > 2 else 1)))
