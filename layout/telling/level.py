"""How much of a walk is told."""

from enum import Enum


class Level(Enum):
    """How much of a walk is told; the value is the word for it.

    Only what matters most; all but the plain singles at the end; each digit with its reason; as
    much as usual, but for somebody who has never done this.
    """

    MOMENTS = "moments"
    WHOLE = "whole"
    EVERY = "every"
    FIRST_TIMER = "first-timer"
