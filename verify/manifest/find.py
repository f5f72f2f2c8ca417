"""Paths of the command line -> the manifests and banks that they mean, in a stable order."""

import os
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from difflib import get_close_matches
from itertools import islice
from pathlib import Path
from typing import Final

from verify.manifest.source import shown_path
from verify.reading.node import Place
from verify.reading.problems import Problems

MANIFEST_SUFFIXES: Final = frozenset({".yaml", ".yml"})

MOST_FILES: Final = 100_000
"""Files and folders that are looked at under one folder."""

DEEPEST_FOLDER: Final = 40
"""Folders inside one another that are looked into."""

MOST_SIBLINGS: Final = 2000
"""Names that are compared with that of a missing file."""


@dataclass(frozen=True, slots=True)
class Found:
    """A file that holds a puzzle, or a bank of them; `name` is what messages call it."""

    path: Path
    name: str
    is_bank: bool


def find_puzzles(paths: Iterable[Path]) -> list[Found]:
    """Every manifest and bank of some files and folders, none twice.

    A file is a manifest where its suffix says so, else a bank; in folders, and the folders in
    them, only manifests are looked for. Files come in the order of the paths, those of a
    folder in the natural order of their names (2 before 10). Raises Unreadable, all problems
    in one, where a path is missing or a folder has no manifest.
    """
    problems = Problems()
    found: dict[str, Found] = {}
    for path in paths:
        for file in _files_of(path, problems):
            name = shown_path(file)
            is_bank = file.suffix.lower() not in MANIFEST_SUFFIXES
            found.setdefault(os.path.realpath(file), Found(file, name, is_bank))
    problems.raise_if_any()
    return list(found.values())


def natural_key(name: str) -> tuple[tuple[bool, int, str], ...]:
    """Sorts names with numbers as people do: `tide-2` before `tide-10`, numbers before words."""
    parts = re.findall(r"[0-9]{1,18}|[^0-9]+", name.casefold())
    return tuple(
        (False, int(part), "") if part[0] in "0123456789" else (True, 0, part) for part in parts
    )


def _files_of(path: Path, problems: Problems) -> Iterator[Path]:
    """The files that one path means."""
    place = Place(shown_path(path), 1, 1)
    try:
        is_folder = path.is_dir()
        exists = is_folder or path.exists()
    except (OSError, ValueError):
        exists = is_folder = False
    if not exists:
        problems.add(place, _what_is_missing(path))
    elif not is_folder:
        yield path
    else:
        told = len(problems.found)
        files = list(_manifests_under(path, problems))
        if not files and told == len(problems.found):
            problems.add(place, "found a folder without manifests (*.yaml), expected at least one")
        yield from files


def _manifests_under(folder: Path, problems: Problems) -> Iterator[Path]:
    """The manifests of a folder and of the folders in it, in natural order."""
    looked_at, seen = 0, set[tuple[int, int]]()
    waiting = [(folder, 1)]
    while waiting:
        here, depth = waiting.pop()
        entries = _entries(here, seen, problems)
        looked_at += len(entries)
        if looked_at > MOST_FILES:
            message = f"found more than {MOST_FILES} files, expected a folder of manifests"
            problems.add(Place(shown_path(folder), 1, 1), message)
            return
        folders = [entry for entry in entries if _is_folder(entry)]
        yield from (
            here / entry.name
            for entry in entries
            if _is_manifest(entry.name) and entry not in folders
        )
        if depth < DEEPEST_FOLDER:
            waiting.extend((here / entry.name, depth + 1) for entry in reversed(folders))


def _entries(
    folder: Path, seen: set[tuple[int, int]], problems: Problems
) -> list[os.DirEntry[str]]:
    """What stands in a folder, in natural order; nothing the second time, for loops of links.

    Names that begin with a dot are passed over.
    """
    try:
        status = folder.stat()
        if (status.st_dev, status.st_ino) in seen:
            return []
        seen.add((status.st_dev, status.st_ino))
        with os.scandir(folder) as entries:
            plain = (entry for entry in entries if not entry.name.startswith("."))
            some = list(islice(plain, MOST_FILES + 1))
    except OSError as error:
        message = f"the folder can't be read: {error.strerror}"
        problems.add(Place(shown_path(folder), 1, 1), message)
        return []
    return sorted(some, key=lambda entry: (natural_key(entry.name), entry.name))


def _is_folder(entry: os.DirEntry[str]) -> bool:
    """Whether an entry is a folder or a link to one; a link to itself is none."""
    try:
        return entry.is_dir()
    except OSError:
        return False


def _is_manifest(name: str) -> bool:
    """Whether a file's suffix is that of a manifest."""
    return os.path.splitext(name)[1].lower() in MANIFEST_SUFFIXES


def _what_is_missing(path: Path) -> str:
    """That nothing is there, or only a link that leads to nothing."""
    if os.path.islink(path):
        return "found a link that leads to nothing, or in a circle"
    return "no such file or folder" + _near_sibling(path)


def _near_sibling(path: Path) -> str:
    """The nearest name beside a missing path, as a question."""
    try:
        with os.scandir(path.parent) as entries:
            names = sorted(entry.name for entry in islice(entries, MOST_SIBLINGS))
    except (OSError, ValueError):
        return ""
    near = get_close_matches(path.name, names, n=1, cutoff=0.6)
    return f'; did you mean "{shown_path(path.parent / near[0])}"?' if near else ""
