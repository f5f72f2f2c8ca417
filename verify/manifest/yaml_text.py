"""YAML -> nodes with places: the one way in for every file that an editor writes."""

from pathlib import Path

from verify.manifest.source import checked_text, source_text
from verify.reading.node import Node
from verify.reading.problems import Problems, Unreadable


def read_tree(path: Path, name: str, problems: Problems) -> Node:
    """The nodes of a YAML file.

    Raises Unreadable where the file or its YAML can't be understood; what is merely not
    allowed (anchors, tags, a name that stands twice) goes to `problems`.
    """
    return _compose(source_text(path, name), name, problems)


def tree_of(text: str, name: str, problems: Problems) -> Node:
    """The nodes of a YAML text; raises and notes as `read_tree` does."""
    return _compose(checked_text(text, name), name, problems)


def _compose(text: str, name: str, problems: Problems) -> Node:
    """The one document of a checked text."""
    from verify.manifest.tree import compose  # yaml is slow to import

    node = compose(text, name, problems)
    if node is None:
        raise Unreadable(problems.found)
    return node
