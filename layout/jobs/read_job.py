"""A job file -> a job, or every problem in it with its place."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from layout.jobs.book_job import KINDS_LATER, BookJob
from layout.jobs.values import LATER
from layout.record import read_record
from verify.manifest.source import shown_path
from verify.manifest.yaml_text import read_tree
from verify.reading.node import Fields, Items, Node, Place, Text, describe
from verify.reading.problems import Problems, Unreadable

KINDS: Final = ("book",)


@dataclass(frozen=True, slots=True)
class Job:
    """A job file that was understood; `name` is what messages call it."""

    path: Path
    name: str
    tree: Node
    book: BookJob

    @property
    def folder(self) -> Path:
        """The folder that the paths of the job start from."""
        return self.path.parent

    def place(self, path: Sequence[str | int]) -> Place:
        """Where something stands: ("sections", 0, "title"). What is left out has its mapping's."""
        node = self.tree
        for step in path:
            inner = _inner(node, step)
            if inner is None:
                break
            node = inner
        return node.place


def _inner(node: Node, step: str | int) -> Node | None:
    if isinstance(node, Fields) and isinstance(step, str):
        return node.get(step)
    if isinstance(node, Items) and isinstance(step, int):
        return node.items[step]
    return None


def read_job(path: Path) -> Job:
    """The job of a file. Raises Unreadable with every problem in it."""
    name = shown_path(path)
    problems = Problems()
    tree = read_tree(path, name, problems)
    _check_kind(tree, problems)
    book = read_record(tree, BookJob, problems)
    if book is None or problems.found:
        raise Unreadable(problems.found)
    return Job(path, name, tree, book)


def _check_kind(tree: Node, problems: Problems) -> None:
    """Stops at a file that is another kind of job, or none: what it says means other things."""
    if not isinstance(tree, Fields):
        problems.expected(tree.place, describe(tree), "a job, which begins with job: book")
        raise Unreadable(problems.found)
    kind = tree.get("job")
    if kind is None:
        puzzle = "a puzzle; `reglet check` is for puzzles" if tree.get("size") else "no job"
        problems.expected(tree.place, puzzle, "a job, which says job: book")
    elif isinstance(kind, Text) and kind.text in KINDS_LATER:
        problems.add(kind.place, f'the job "{kind.text}" {LATER}')
    elif not isinstance(kind, Text) or kind.text not in KINDS:
        known = (*KINDS, *KINDS_LATER)
        named = kind.text if isinstance(kind, Text) else describe(kind)
        problems.unknown(kind.place, "job", named, known)
    else:
        return
    raise Unreadable(problems.found)
