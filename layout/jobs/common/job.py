"""A job file that was understood."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Generic, TypeVar

from verify.reading.node import Fields, Items, Node, Place

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Job(Generic[T]):
    """A job file: `values` are what it says, `name` is what messages call the file."""

    path: Path
    name: str
    tree: Node
    values: T

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


AnyJob = Job[Any]


def _inner(node: Node, step: str | int) -> Node | None:
    if isinstance(node, Fields) and isinstance(step, str):
        return node.get(step)
    if isinstance(node, Items) and isinstance(step, int):
        return node.items[step]
    return None
