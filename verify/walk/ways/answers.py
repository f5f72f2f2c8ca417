"""What was answered before, by who was asked and what its cells held: many questions at once."""

from collections.abc import Callable, Iterator
from typing import Final, TypeAlias

from verify.walk.facts.arrays import Masks, Numbers, Words, kind_of

Ask: TypeAlias = "Callable[[Numbers], Masks]"
"""The numbers of some questions -> their answers, a row for each."""

MOST_SLOT_BITS: Final = 15
MOST_MASKS: Final = 1 << 18
"""Bits of the number of a slot, and masks in all slots: about 1 MB."""

WORD: Final = 64
NUMBER: Final = 20
"""Bits of a word, and of the number of who is asked."""

MIXING: Final = 0x9E3779B97F4A7C15
"""An odd number without order in its bits: words times it differ in their upper bits."""


class Answers:
    """Remembers answers that have a mask for each of some cells; in each slot the latest one."""

    def __init__(self, cells: int, digits: int) -> None:
        import numpy

        self.cells = cells
        self._bits = digits + 1
        self._slot_bits = min(MOST_SLOT_BITS, (MOST_MASKS // max(1, cells)).bit_length() - 1)
        slots = 1 << self._slot_bits
        self._answers = numpy.zeros((slots, cells), kind_of(digits))
        self._last = numpy.zeros(slots, numpy.int32)
        words = list(self._words(numpy.zeros(0, int), self._answers[:0]))
        self._keys = numpy.zeros((len(words), slots), numpy.uint64)

    def of(self, who: Numbers, held: Masks, ask: Ask) -> Masks:
        """The answers. What is not remembered is asked for, each question once.

        `who` and `held` have a row for each question.
        """
        import numpy

        keys = numpy.stack(list(self._words(who, held)))
        slots = self._slots(keys)
        answers: Masks = self._answers[slots]
        left = numpy.flatnonzero((self._keys[:, slots] != keys).any(axis=0))
        while len(left):
            here = slots[left]
            self._last[here] = left
            asked = left[self._last[here] == left]
            self._keys[:, slots[asked]] = keys[:, asked]
            self._answers[slots[asked]] = ask(asked)
            # Others in the same slot asked the same, or are still to ask.
            same = (self._keys[:, here] == keys[:, left]).all(axis=0)
            answers[left[same]] = self._answers[here[same]]
            left = left[~same]
        return answers

    def _words(self, who: Numbers, held: Masks) -> Iterator[Words]:
        """Questions as words, no two of them alike."""
        import numpy

        bits, room = numpy.uint64(self._bits), WORD - NUMBER
        word = who.astype(numpy.uint64) + numpy.uint64(1)
        for cell in held.T:
            if room < self._bits:
                yield word
                word, room = numpy.zeros_like(word), WORD
            word = word << bits | cell
            room -= self._bits
        yield word

    def _slots(self, keys: Words) -> Numbers:
        """The slot of each question."""
        import numpy

        mixing, half = numpy.uint64(MIXING), numpy.uint64(WORD // 2)
        mixed = keys[0] * mixing
        for word in keys[1:]:
            mixed = ((mixed ^ mixed >> half) + word) * mixing
        slots: Numbers = (mixed >> numpy.uint64(WORD - self._slot_bits)).astype(numpy.intp)
        return slots
