"""Words beside the trim, for whoever prints and binds."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class PressWords:
    """Which side of which sheet of a booklet it is."""

    front: str
    back: str
