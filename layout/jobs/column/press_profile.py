"""How the paper's press prints greys, as a job tells it: a profile's file, or a dot gain."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

from layout.jobs.common.input_file import input_file
from layout.lengths import Share
from layout.writers.grey_profile import grey_profile, is_grey_profile
from verify.reading.node import Node, Place, Text, shown
from verify.reading.problems import Problem, Problems, Unreadable

ENDINGS: Final = (".icc", ".icm")

MOST_GAIN: Final = 40
"""Per cent; coldset presses have about 26 (from memory)."""

MOST_BYTES: Final = 1_000_000


@dataclass(frozen=True, slots=True)
class PressProfile:
    """A file in the job's folder, or what is printed of half of the ink more than that."""

    file: str = ""
    gain: float | None = None


NO_PROFILE: Final = PressProfile()


class PressProfileValue:
    """Reads either."""

    def read(self, node: Node, problems: Problems) -> PressProfile | None:
        """What was told, or None where a problem was noted."""
        text = node.text.strip() if isinstance(node, Text) else ""
        if text.lower().endswith(ENDINGS) and len(text) <= 300 and text.isprintable():
            return PressProfile(file=text)
        if text.endswith("%"):
            gain = Share(0, MOST_GAIN).read(node, problems)
            return None if gain is None else PressProfile(gain=gain)
        expected = "a dot gain such as 26%, or a grey profile: the name of a file that ends in .icc"
        problems.expected(node.place, f'"{shown(text)}"', expected)
        return None

    def schema(self) -> Mapping[str, Any]:
        """A percentage, or a name."""
        return {"type": "string", "pattern": r"%\s*$|\.[iI][cC][cCmM]\s*$"}


def profile_of(told: PressProfile, folder: Path, place: Place) -> bytes:
    """The profile; nothing where none is told. Raises Unreadable for a file that is none."""
    if told.gain is not None:
        return grey_profile(told.gain)
    if not told.file:
        return b""
    path = input_file(folder, told.file, place)
    data = path.read_bytes() if path.is_file() and path.stat().st_size <= MOST_BYTES else b""
    if not is_grey_profile(data):
        message = f'found "{shown(told.file)}", expected an ICC profile of one grey channel'
        raise Unreadable([Problem(place, message)])
    return data
