"""Scenes of a walk: the sheet before some steps, and what they do to it."""

from itertools import pairwise

import pytest

from tests.support.told import told_example
from verify.pencil import bit, digits_of
from verify.proof.verdict import prove
from verify.walk.report.replay import replay


def scenes_of(rule, told):
    puzzle, path = told_example(rule)
    steps = [kept.step for kept in path.steps]
    return puzzle, steps, list(replay(puzzle, told(steps)))


def placements(steps):
    return [step for step in steps if step.places]


def one_by_one(steps):
    return [(step,) for step in steps]


@pytest.mark.parametrize("rule", ["thermometer", "cage", "quad", "sandwich"])
def test_scenes_lead_from_the_givens_to_the_answer(rule):
    puzzle, steps, scenes = scenes_of(rule, one_by_one)
    answer = prove(puzzle).answers[0]
    assert scenes[0].written == puzzle.givens
    for step, scene in zip(steps, scenes, strict=True):
        assert all(scene.pencil[cell] >> answer[cell] & 1 for cell in puzzle.board.cells)
        assert all(scene.written[cell] in (0, answer[cell]) for cell in puzzle.board.cells)
        assert scene.placed == step.places
        for cell, mask in scene.struck:
            assert mask
            assert mask & ~scene.pencil[cell] == 0
            assert answer[cell] not in digits_of(mask)
    last = list(scenes[-1].written)
    for cell, digit in scenes[-1].placed:
        last[cell] = digit
    assert tuple(last) == answer


def test_what_a_scene_strikes_and_places_is_gone_from_the_next():
    _, _, scenes = scenes_of("cage", one_by_one)
    for scene, after in pairwise(scenes):
        assert not any(after.pencil[cell] & mask for cell, mask in scene.struck)
        assert all(after.written[cell] == digit for cell, digit in scene.placed)
        assert all(after.pencil[cell] == bit(digit) for cell, digit in scene.placed)


def test_reasons_of_a_single_placement_are_shown_and_of_several_are_not():
    _, steps, scenes = scenes_of("boxes", one_by_one)
    for step, scene in zip(steps, scenes, strict=True):
        assert scene.reasons == tuple(sorted(step.because.cells)) or step.chain
    _, steps, (scene,) = scenes_of("boxes", lambda steps: [placements(steps)])
    assert scene.reasons == ()
    assert scene.placed == tuple(place for step in placements(steps) for place in step.places)
