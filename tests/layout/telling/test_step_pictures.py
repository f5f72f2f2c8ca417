"""Which diagram each paragraph of a walk stands beside."""

import pytest

from layout.language.words import read_words
from layout.telling.step_pictures import FEW, step_pictures
from layout.telling.telling import tell_walk
from tests.support.told import told_example


def plates_of(rule):
    puzzle, path = told_example(rule)
    telling = tell_walk(puzzle, path, read_words("en"))
    return telling, step_pictures(puzzle, telling)


@pytest.mark.parametrize("rule", ["arrow", "thermometer", "skyscraper", "sandwich"])
def test_every_paragraph_stands_beside_one_diagram(rule):
    telling, made = plates_of(rule)
    told = [paragraph for shown in made for paragraph in shown.paragraphs]
    assert tuple(told) == telling.paragraphs
    assert all(shown.number == shown.paragraphs[-1].number for shown in made)


@pytest.mark.parametrize("rule", ["arrow", "skyscraper", "sandwich"])
def test_only_small_placements_wait_for_the_next_diagram(rule):
    _, made = plates_of(rule)
    for shown in made:
        for paragraph in shown.paragraphs[:-1]:
            places = [place for step in paragraph.steps for place in step.places]
            assert 0 < len(places) <= FEW
            written = [shown.scene.written[cell] for cell, _ in places]
            assert written == [digit for _, digit in places]
