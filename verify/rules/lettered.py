"""Letters that tell groups of marks apart."""

from typing import Final

LETTERS: Final = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def letter(index: int) -> str:
    """A, B, ... Z, AA, AB ... for the groups of one puzzle, from 0."""
    before, last = divmod(index, len(LETTERS))
    return (letter(before - 1) if before else "") + LETTERS[last]
