"""Answers that are remembered: always those that were given, and hardly a question put twice."""

import random

import numpy
import pytest

from verify.walk.ways import answers
from verify.walk.ways.answers import Answers


def questions(dice, count, cells, digits):
    """Who is asked, of a few, and what the cells hold; some questions stand there twice."""
    who = numpy.array([dice.randrange(3) for _ in range(count)])
    kind = numpy.uint16 if digits < 16 else numpy.uint32
    masks = [[1 << dice.randint(1, digits) for _ in range(cells)] for _ in range(count)]
    return who, numpy.array(masks, kind)


def right(who, held):
    """An answer that depends on who is asked, on each mask and on its place."""
    return held ^ (who[:, None] + numpy.arange(held.shape[1])).astype(held.dtype)


@pytest.mark.parametrize("slot_bits", [1, 15])
@pytest.mark.parametrize(("cells", "digits"), [(2, 9), (5, 9), (9, 9), (8, 25)])
def test_each_question_has_its_answer_and_is_seldom_put_twice(
    monkeypatch, slot_bits, cells, digits
):
    monkeypatch.setattr(answers, "MOST_SLOT_BITS", slot_bits)
    known, dice, asked = Answers(cells, digits), random.Random(1), []
    for _ in range(20):
        who, held = questions(dice, 60, cells, digits)

        def ask(at, who=who, held=held):
            asked.extend(zip(who[at].tolist(), map(tuple, held[at].tolist()), strict=True))
            return right(who[at], held[at])

        assert (known.of(who, held, ask) == right(who, held)).all()
    if slot_bits > 1:
        # Now and then two questions want one slot, and forget each other.
        assert len(asked) < 1.1 * len(set(asked))
