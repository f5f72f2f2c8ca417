"""A trial: a case is laid out in a folder of its own, its command is run, and what came is judged.

Whatever stands in a file, a command does what it is asked, or refuses with problems that have
their place. It never tells of a defect, writes nothing where it fails, nothing outside the
editor's folder, and nothing over what the editor wrote.
"""

import io
import os
import re
import shutil
import tempfile
import xml.etree.ElementTree as ElementTree
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager, redirect_stderr, redirect_stdout
from dataclasses import dataclass
from functools import cache
from hashlib import sha256
from pathlib import Path
from typing import Final

import html5lib
import pypdfium2
from PIL import Image

from layout.command import main
from layout.output.folder_lock import LOCK
from layout.output.grades import NAME as GRADES
from layout.style.style import read_style
from tests.support.books import manifest
from tests.support.fuzz.cases import COLUMN, MADE, PLAIN, Case

DESK: Final = "desk"
"""The folder that the command works in; beside it lies what is none of its business."""

OUTSIDE: Final = {
    "outside/secret.yaml": manifest(1, "Secret"),
    "outside/mine.yaml": "like: paperback\n",
    "home/x.pdf": "",
}
LINKS: Final = {
    "link": "../outside",
    "loop": "loop",
    "links/away.yaml": "../../outside/secret.yaml",
}

LONGEST_MESSAGE: Final = 2000
"""Characters of a line that an editor may be expected to read."""

_PLACE: Final = re.compile(r"^.+:[1-9][0-9]*:[1-9][0-9]*: .")
_NO_WRITING: Final = re.compile(r"^reglet: can't write ")
_OWN_WORDS: Final = re.compile(r"^reglet (draw|walk): (argument --[a-z-]+|\S+): .")
_DEFECT: Final = re.compile(r"Traceback|a defect in Reglet|Error:|Warning:")

Tree = Mapping[str, str]
"""What lies in a folder: what each path is, by a checksum."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """How a command ended, and what it said; `before` and `after` are all the files there were.

    `broken` tells which of the new ones can't be read by other programs.
    """

    code: object
    out: str
    err: str
    before: Tree
    after: Tree
    broken: tuple[str, ...] = ()


def run(case: Case, root: Path) -> Outcome:
    """Lays the case out in an empty folder and runs its command there."""
    lay_out(case, root)
    before = tree(root)
    code, out, err = spoken(case.words, root)
    after = tree(root)
    new = [root / name for name in sorted(after) if before.get(name) != after[name]]
    return Outcome(code, out, err, before, after, tuple(broken(new)))


def broken(paths: Sequence[Path]) -> Iterator[str]:
    """Which written files are not what their endings say."""
    for path in paths:
        opened = OPENED.get(path.suffix)
        if opened is not None and path.is_file():
            try:
                opened(path)
            except Exception as error:
                yield f"wrote {path.name}, which can't be read: {type(error).__name__}: {error}"


def _open_image(path: Path) -> None:
    with Image.open(path) as image:
        image.verify()


OPENED: Final[Mapping[str, Callable[[Path], object]]] = {
    ".svg": ElementTree.parse,
    ".pdf": lambda path: len(pypdfium2.PdfDocument(path.read_bytes())),
    ".png": _open_image,
    ".tiff": _open_image,
    ".html": lambda path: html5lib.HTMLParser(strict=True).parseFragment(path.read_text("utf-8")),
    ".txt": lambda path: path.read_text("utf-8"),
}


def lay_out(case: Case, root: Path) -> None:
    """All files and links of a case."""
    files = {name: text.encode() for name, text in OUTSIDE.items()}
    if case.made:
        files |= {f"{DESK}/{name}": data for name, data in made_column().items()}
    files |= {f"{DESK}/{name}": data for name, data in case.files.items()}
    for name, data in files.items():
        path = root / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data.replace(b"{ROOT}", os.fsencode(root)))
    if case.obstacle:
        _stand(root / DESK, *case.obstacle.partition(" > "))
    for name, target in LINKS.items():
        (root / DESK / name).parent.mkdir(exist_ok=True)
        (root / DESK / name).symlink_to(target)


def _stand(desk: Path, name: str, _: str, target: str) -> None:
    """A folder, or a link, where nothing of the kind stands."""
    path = desk / name
    if path.parent.is_dir() and path.is_file():
        path.unlink()
    if not target:
        path.mkdir(parents=True, exist_ok=True)
    elif not path.exists():
        path.parent.mkdir(parents=True, exist_ok=True)
        path.symlink_to(target)


@cache
def made_column() -> Mapping[str, bytes]:
    """The files of a desk after the column was made there, by their names."""
    words, files = ("make", MADE, "--jobs", "1"), {MADE: COLUMN.encode()}
    with fresh_folder() as root:
        lay_out(
            Case("", 0, words, "", {name: PLAIN[name].encode() for name in PLAIN} | files), root
        )
        code, _, err = spoken(words, root)
        if code != 0:
            raise AssertionError(err)
        desk = root / DESK
        paths = (path for path in desk.rglob("*") if path.is_file() and not path.is_symlink())
        return {path.relative_to(desk).as_posix(): path.read_bytes() for path in paths}


@contextmanager
def fresh_folder() -> Iterator[Path]:
    """An empty folder, gone afterwards."""
    root = Path(tempfile.mkdtemp(prefix="hostile."))
    try:
        yield root
    finally:
        shutil.rmtree(root, ignore_errors=True)


def spoken(words: Sequence[str], root: Path) -> tuple[object, str, str]:
    """The exit code of a command run at the desk, and what it printed, as on a terminal."""
    out, err = (io.TextIOWrapper(io.BytesIO(), "utf-8", errors) for errors in ("strict", "replace"))
    home, here = os.environ.get("HOME"), os.getcwd()
    os.chdir(root / DESK)
    os.environ["HOME"] = str(root / "home")
    try:
        with redirect_stdout(out), redirect_stderr(err):
            code = _code(words)
    finally:
        os.chdir(here)
        if home is not None:
            os.environ["HOME"] = home
    return code, _text(out), _text(err)


def _code(words: Sequence[str]) -> object:
    try:
        return main(words)
    except SystemExit as end:
        return end.code
    except Exception as error:
        return f"{type(error).__name__}: {error}"


def _text(stream: io.TextIOWrapper) -> str:
    stream.flush()
    buffer = stream.buffer
    assert isinstance(buffer, io.BytesIO)
    return buffer.getvalue().decode("utf-8", "replace")


def tree(root: Path) -> Tree:
    """Everything below a folder."""
    found = {}
    for here, folders, files in os.walk(root):
        for name in (*folders, *files):
            path = Path(here, name)
            found[path.relative_to(root).as_posix()] = _mark(path)
    return found


def _mark(path: Path) -> str:
    if path.is_symlink():
        return f"link to {os.readlink(path)}"
    return "folder" if path.is_dir() else sha256(path.read_bytes()).hexdigest()


def faults(case: Case, outcome: Outcome) -> list[str]:
    """Everything that must not be, in words."""
    return [
        *_of_ending(outcome),
        *_of_messages(case, outcome),
        *_of_files(case, outcome),
        *outcome.broken,
    ]


def _of_ending(outcome: Outcome) -> Iterator[str]:
    if outcome.code not in (0, 1, 2):
        yield f"ended with {outcome.code}"
    if outcome.code == 2 and not any(
        any(way.match(line) for way in (_PLACE, _NO_WRITING, _OWN_WORDS))
        for line in _lines(outcome)
    ):
        yield "refused without a place"
    if outcome.code == 1 and not outcome.err.strip() and not outcome.out.strip():
        yield "refused without a word"


def _of_messages(case: Case, outcome: Outcome) -> Iterator[str]:
    for line in outcome.err.splitlines():
        if _DEFECT.search(line):
            yield f"told of a defect: {line[:300]}"
    for line in _lines(outcome):
        if not line.isprintable():
            yield f"printed what a terminal may obey: {line[:200]!r}"
    long = [line for line in outcome.err.splitlines() if len(line) > LONGEST_MESSAGE]
    if long:
        yield f"a message of {len(long[0])} characters: {long[0][:100]}"


def _lines(outcome: Outcome) -> list[str]:
    return [*outcome.err.split("\n"), *outcome.out.split("\n")]


def _is_own(name: str) -> bool:
    """Whether a file is one that Reglet keeps for itself, whatever comes of a run."""
    return name == LOCK or name.startswith(GRADES)


def _of_files(case: Case, outcome: Outcome) -> Iterator[str]:
    before, after = outcome.before, outcome.after
    names = (name for name in {*before, *after} if not _is_own(Path(name).name))
    changed = sorted(name for name in names if before.get(name) != after.get(name))
    if outcome.code != 0 and changed:
        yield f"failed, and changed {', '.join(changed[:5])}"
    written = {f"{DESK}/{name}" for name in case.files if not name.startswith("build/")}
    for name in changed:
        if not name.startswith(f"{DESK}/"):
            yield f"changed {name}, outside the editor's folder"
        elif name in written:
            yield f"changed {name}, which the editor wrote"
        elif Path(name).name.startswith((".making", ".x.", ".book", ".sheet", ".key")):
            yield f"left {name} behind"


def read_alone(case: Case, root: Path) -> bool:
    """Whether the reader of the hostile file takes it; problems are raised by no other way."""
    from verify.reading.problems import Unreadable

    try:
        kind = "manifests" if case.hostile.startswith("puzzle") else case.kind
        READERS[kind](root / DESK / case.hostile)
    except Unreadable as unreadable:
        return not unreadable.problems
    return True


def _read_manifest(path: Path) -> None:
    from verify.manifest.read import read_puzzle

    read_puzzle(path)


def _read_job(path: Path) -> None:
    from layout.jobs.read_job import read_job

    read_job(path)


def _read_ledger(path: Path) -> None:
    from layout.jobs.column.ledger import read_ledger

    read_ledger(path.parent)


def _read_bank(path: Path) -> None:
    from verify.manifest.bank import read_bank

    list(read_bank(path))


READERS: Final = {
    "manifests": _read_manifest,
    "jobs": _read_job,
    "ledgers": _read_ledger,
    "banks": _read_bank,
    "styles": lambda path: read_style(path.name, path.parent),
}
