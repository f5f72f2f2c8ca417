"""Certificates on the disk -> what comes of checking each."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import Final, Literal

from verify.budget import Deadline
from verify.certificate.binding import check_binding
from verify.certificate.checking import CertificateFiles, check_certificate
from verify.certificate.manifest import manifest_bytes
from verify.certificate.reading import MOST_BYTES, Statement
from verify.certificate.refused import Refused
from verify.manifest.find import natural_key
from verify.manifest.source import shown_path, source_bytes
from verify.puzzle import Puzzle
from verify.reading.node import Place
from verify.reading.problems import Problem, Unreadable
from verify.work import in_order

SUFFIXES: Final = (".cnf", ".drat", ".json")

MOST_FILES: Final = 100_000
"""Files that are looked at in one folder."""


@dataclass(frozen=True, slots=True)
class Manifest:
    """A puzzle to hold a certificate against, and the file that it was read from."""

    puzzle: Puzzle
    path: Path


@dataclass(frozen=True, slots=True)
class Item:
    """A certificate to check: its files are `stem` and a suffix.

    Where it `must_be_bound` and there is no manifest of its name, it is refused.
    """

    stem: Path
    manifest: Manifest | None = None
    must_be_bound: bool = False


@dataclass(frozen=True, slots=True)
class Result:
    """What came of a certificate: `problem` is None where it was accepted.

    `bound` says whether it was held against a manifest; `lemmas` is how long its proof is. A puzzle
    that should have a certificate and has none is `missing` it.
    """

    name: str
    word: Literal["accepted", "refused", "unreadable", "missing"]
    problem: Problem | None = None
    bound: bool = False
    lemmas: int = 0


def find_certificates(paths: Iterable[Path]) -> list[Path]:
    """The stems of all certificates in some folders and files, none twice, in natural order.

    Raises Unreadable where a path is missing or no file of a certificate, or a folder has none.
    """
    stems: dict[Path, None] = {}
    problems: list[Problem] = []
    for path in paths:
        try:
            stems.update(dict.fromkeys(_stems_of(path)))
        except Unreadable as unreadable:
            problems += unreadable.problems
    if problems:
        raise Unreadable(problems)
    return list(stems)


def _stems_of(path: Path) -> list[Path]:
    place, kinds = Place(shown_path(path), 1, 1), ", ".join(SUFFIXES)
    try:
        if not path.is_dir():
            if path.suffix not in SUFFIXES:
                message = f"found no file of a certificate ({kinds}), expected one, or a folder"
                raise Unreadable([Problem(place, message)])
            return [path.with_suffix("")]
        names = [each.name for _, each in zip(range(MOST_FILES), path.iterdir(), strict=False)]
    except (OSError, ValueError):
        raise Unreadable([Problem(place, "the folder can't be read")]) from None
    stems = {name[: -len(suffix)] for name in names for suffix in SUFFIXES if _has(name, suffix)}
    if not stems:
        raise Unreadable([Problem(place, f"found a folder without certificates ({kinds})")])
    return [path / stem for stem in sorted(stems, key=lambda stem: (natural_key(stem), stem))]


def _has(name: str, suffix: str) -> bool:
    return name.endswith(suffix) and not name.startswith(".")


def verify_all(
    items: Sequence[Item],
    seconds: float,
    workers: int | None = None,
    progress: Callable[[int], None] = lambda done: None,
) -> Iterator[Result]:
    """What comes of each certificate, in order; each may take so many seconds."""
    return in_order(partial(_verify, seconds=seconds), items, workers, progress, lost=_lost)


def _lost(item: Item) -> Result:
    """What is told of a certificate that no process lived to check."""
    name = shown_path(item.stem)
    problem = Problem(Place(name, 1, 1), "the work on it broke off twice; is there enough memory?")
    return Result(name, "refused", problem)


def _verify(item: Item, seconds: float) -> Result:
    name, deadline = shown_path(item.stem), Deadline.after(seconds)
    try:
        files = CertificateFiles(item.stem.name, *_read(item.stem))
        checked = check_certificate(files, seconds)
        _bind(item, files, checked.statement, deadline)
    except Refused as refused:
        file = shown_path(item.stem.with_name(refused.file))
        return Result(name, "refused", Problem(Place(file, refused.line, 1), refused.message))
    except Unreadable as unreadable:
        return Result(name, "unreadable", unreadable.problems[0])
    return Result(name, "accepted", None, item.manifest is not None, checked.lemmas)


def _bind(item: Item, files: CertificateFiles, statement: Statement, deadline: Deadline) -> None:
    """Holds the certificate against its manifest, where there is one. Raises Refused."""
    if item.manifest is not None:
        puzzle = item.manifest.puzzle
        data = manifest_bytes(puzzle, item.manifest.path)
        check_binding(files, statement, puzzle, data, deadline)
    elif item.must_be_bound:
        message = f'none of the puzzles given has the id "{files.name}"'
        raise Refused(files.called("json"), 1, message)


def _read(stem: Path) -> Iterator[bytes]:
    for suffix in SUFFIXES:
        path = stem.with_name(stem.name + suffix)
        yield source_bytes(path, shown_path(path), MOST_BYTES)
