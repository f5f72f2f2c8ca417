"""A font's name as it stands in a style sheet."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Any, TypeAlias

from layout.type.fonts import MissingFontError, find_font
from verify.reading.node import Node
from verify.reading.problems import Problems
from verify.reading.record import Word


@dataclass(frozen=True, slots=True)
class Installed:
    """The name of a font that is installed."""

    def read(self, node: Node, problems: Problems) -> str | None:
        """The name; a problem where no package has such a font."""
        name = Word(100).read(node, problems)
        if name is None:
            return None
        try:
            find_font(name)
        except MissingFontError as missing:
            problems.add(node.place, str(missing))
            return None
        return name

    def schema(self) -> Mapping[str, Any]:
        """A string."""
        name = "an installed font, such as Fira Sans Medium, or Fira Sans Medium spaced 8%"
        return {"type": "string", "maxLength": 100, "description": name}


FontName: TypeAlias = Annotated[str, Installed()]
