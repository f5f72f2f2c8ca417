"""How a job says of which grades puzzles are chosen."""

from collections.abc import Mapping
from typing import Any, Final

from verify.reading.node import Items, Node
from verify.reading.problems import Problems
from verify.reading.record import Choice
from verify.walk.report.grade import GRADED

GRADES: Final = tuple(band.value for band in GRADED)

MOST_CHOSEN: Final = 2000


class Grades:
    """A grade, or a list of those that are welcome."""

    def read(self, node: Node, problems: Problems) -> tuple[str, ...] | None:
        """The grades, none twice."""
        nodes = node.items if isinstance(node, Items) and node.items else (node,)
        words = [Choice(GRADES, "grade").read(each, problems) for each in nodes]
        return tuple(dict.fromkeys(word for word in words if word is not None)) or None

    def schema(self) -> Mapping[str, Any]:
        """A word, or an array of words."""
        word = {"enum": list(GRADES)}
        return {"oneOf": [word, {"type": "array", "items": word, "minItems": 1}]}
