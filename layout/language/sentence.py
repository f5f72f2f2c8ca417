"""A sentence as it stands in a file of words: in both numbers."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from verify.reading.node import Node, Text
from verify.reading.problems import Problems
from verify.reading.record import Record, Word, read_record


@dataclass(frozen=True, slots=True)
class Sentence:
    """A sentence about one mark, and about several."""

    one: str
    many: str

    def of(self, count: int) -> str:
        """The sentence in the right number."""
        return self.one if count == 1 else self.many


class SentenceValue:
    """A sentence for any number, or `{one: ..., many: ...}`."""

    def read(self, node: Node, problems: Problems) -> Sentence | None:
        """The sentence in both numbers."""
        if isinstance(node, Text):
            text = Word().read(node, problems)
            return None if text is None else Sentence(text, text)
        return read_record(node, Sentence, problems)

    def schema(self) -> Mapping[str, Any]:
        """Text or an object."""
        return {"oneOf": [Word().schema(), Record(Sentence).schema()]}
