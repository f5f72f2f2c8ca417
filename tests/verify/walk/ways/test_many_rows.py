"""Marks that are read off for many sheets at once strike what they strike by themselves."""

import random

import numpy
import pytest

from tests.support.sowing import sown
from verify.board import Outside
from verify.pencil import bit
from verify.rules.workings.outside_sum import OutsideSum
from verify.walk.facts.notes import Notes
from verify.walk.ways.many_rows import Totals, read_off

LOOKS = 12
RULES = ["edge-sum", "diagonal-sum", "sum-mark", "sum-quad", "skyscraper"]


def looks(mark, dice, digits):
    """What the cells of a mark may hold; with few candidates and with many."""
    for _ in range(LOOKS):
        chances = [dice.getrandbits(digits), dice.getrandbits(digits), -1]
        few = dice.sample(chances, dice.randint(1, 3))
        every = [few[0] | dice.getrandbits(digits) & few[-1] for _ in mark.cells]
        yield [((mask & (1 << digits) - 1) << 1) | bit(dice.randint(1, digits)) for mask in every]


def struck_by(mark, held):
    """What is left of the cells of a mark, in reading order."""
    pencil = [0] * (1 + max(mark.cells))
    for cell, mask in zip(sorted(mark.cells), held, strict=True):
        pencil[cell] = mask
    kept = pencil.copy()
    for strike in mark.strikes(pencil):
        for cell, mask in strike.removes:
            kept[cell] &= ~mask
    return [kept[cell] for cell in sorted(mark.cells)]


@pytest.mark.parametrize("name", RULES)
@pytest.mark.parametrize("size", [6, 9])
def test_they_keep_what_each_keeps(name, size):
    dice = random.Random(f"{name} {size}")
    notes = Notes(sown(name, size, 1)[0])
    links = [link for link in notes.links if link.rule == name]
    by = read_off(links, notes.facets, notes.digits)
    most, seen = max(len(link.constraint.cells) for link in links), 0
    for marks in dict.fromkeys(each for each in by if each is not None):
        asked = [
            (number, held)
            for number, link in enumerate(links)
            if by[number] is marks
            for held in looks(link.constraint, dice, size)
        ]
        rows = [held + [0] * (most - len(held)) for _, held in asked]
        kept = marks.kept(numpy.array([n for n, _ in asked]), numpy.array(rows, numpy.uint16))
        for (number, held), found in zip(asked, kept.tolist(), strict=True):
            wanted = struck_by(links[number].constraint, held)
            assert found == wanted + [0] * (most - len(held))
            seen += wanted != held
    assert seen > LOOKS


def test_a_large_total_is_read_with_the_digits_turned_about():
    dice, cells = random.Random(1), tuple(range(9))
    mark = OutsideSum(cells, Outside(-1, 0, "n"), 70)
    totals = Totals(9)
    assert totals.has_room_for(0, len(cells), mark.total)
    assert not totals.has_room_for(1, 25, 125)
    held = list(looks(mark, dice, 9))
    kept = totals.kept(numpy.zeros(len(held), int), numpy.array(held, numpy.uint16)).tolist()
    assert kept == [struck_by(mark, each) for each in held]
    assert kept != held
