"""How the things of a list are joined in running text."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated

from verify.reading.node import Node
from verify.reading.problems import Problems
from verify.reading.record import Word


class SpacedWord(Word):
    """Text that keeps the spaces around it."""

    def read(self, node: Node, problems: Problems) -> str | None:
        """The text as it stands."""
        return None if Word.read(self, node, problems) is None else getattr(node, "text", None)


@dataclass(frozen=True, slots=True)
class ListWords:
    """What stands between the things of a list, and before its last.

    A semicolon parts things that are lists themselves.
    """

    comma: Annotated[str, SpacedWord()]
    and_: Annotated[str, SpacedWord()]
    or_: Annotated[str, SpacedWord()]
    semicolon: Annotated[str, SpacedWord()]

    def join(self, things: Sequence[str]) -> str:
        """The things of a list in running text; nothing where there are none."""
        return self._joined(things, self.and_)

    def either(self, things: Sequence[str]) -> str:
        """The things of a list, of which one will do."""
        return self._joined(things, self.or_)

    def _joined(self, things: Sequence[str], before_last: str) -> str:
        if not things:
            return ""
        *others, last = things
        return self.comma.join(others) + before_last + last if others else last
