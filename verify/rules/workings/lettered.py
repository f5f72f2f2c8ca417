"""Letters that tell groups of marks apart."""

from typing import Final

LETTERS: Final = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def letter(index: int) -> str:
    """A, B ... Z, then AA, BB ... ZZ and so on, for the groups of one puzzle, from 0."""
    again, which = divmod(index, len(LETTERS))
    return LETTERS[which] * (again + 1)
