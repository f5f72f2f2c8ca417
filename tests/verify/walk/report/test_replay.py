"""Scenes of a walk: the sheet before some steps, and what they say and do."""

from functools import reduce
from itertools import groupby, pairwise
from operator import and_

import pytest

from verify.manifest.read import puzzle_from_text
from verify.pencil import bit, digits_of
from verify.proof.verdict import prove
from verify.rules import BY_NAME
from verify.walk.facts.step import Kind, Technique, kind_of
from verify.walk.report.replay import replay
from verify.walk.told.path import told_path


def one_by_one(steps):
    return [[step] for step in steps]


def scenes_of(rule, groups=one_by_one):
    puzzle = puzzle_from_text(BY_NAME[rule].example)
    steps = [kept.based for kept in told_path(puzzle).steps]
    return puzzle, steps, list(replay(puzzle, groups(steps)))


@pytest.mark.parametrize("rule", ["thermometer", "cage", "quad", "sandwich"])
def test_scenes_lead_from_the_givens_to_the_answer(rule):
    puzzle, steps, scenes = scenes_of(rule)
    answer = prove(puzzle).answers[0]
    assert scenes[0].written == puzzle.givens
    for based, scene in zip(steps, scenes, strict=True):
        assert all(scene.pencil[cell] >> answer[cell] & 1 for cell in puzzle.board.cells)
        assert all(scene.written[cell] in (0, answer[cell]) for cell in puzzle.board.cells)
        assert scene.placed == based.step.places
        for cell, mask in scene.struck:
            assert mask
            assert mask & ~scene.pencil[cell] == 0
            assert answer[cell] not in digits_of(mask)
    last = list(scenes[-1].written)
    for cell, digit in scenes[-1].placed:
        last[cell] = digit
    assert tuple(last) == answer


def test_what_a_scene_strikes_and_places_is_gone_from_the_next():
    _, _, scenes = scenes_of("cage")
    for scene, after in pairwise(scenes):
        assert not any(after.pencil[cell] & mask for cell, mask in scene.struck)
        assert all(after.written[cell] == digit for cell, digit in scene.placed)
        assert all(after.pencil[cell] == bit(digit) for cell, digit in scene.placed)


@pytest.mark.parametrize("rule", ["thermometer", "cage", "skyscraper"])
def test_a_push_shows_what_it_rests_on_and_what_it_leaves_true_to_the_answer(rule):
    puzzle, steps, scenes = scenes_of(rule)
    answer = prove(puzzle).answers[0]
    pushes = 0
    for based, scene in zip(steps, scenes, strict=True):
        if kind_of(based.step.technique) is not Kind.PUSH:
            continue
        pushes += 1
        assert scene.pushing == tuple(cell for cell, _ in based.needs)
        assert scene.concluded == tuple(cell for cell, _ in based.step.removes)
        assert scene.speaking == based.step.because.links
        told = dict(scene.told)
        assert set(scene.concluded) <= told.keys()
        for cell, left in told.items():
            assert not scene.written[cell]
            assert left >> answer[cell] & 1
    assert pushes


@pytest.mark.parametrize("rule", ["thermometer", "quad", "sandwich"])
def test_what_is_said_of_a_cell_twice_is_what_is_left_after_both(rule):
    puzzle, _, (scene,) = scenes_of(rule, lambda steps: [steps])
    answer = prove(puzzle).answers[0]
    _, _, alone = scenes_of(rule)
    for cell, left in scene.told:
        said = [dict(each.told)[cell] for each in alone if cell in dict(each.told)]
        assert left == reduce(and_, said)
        assert left >> answer[cell] & 1


def test_one_placement_is_seen_by_the_digits_that_leave_no_other_place():
    puzzle, steps, scenes = scenes_of("boxes")
    board, seen = puzzle.board, set()
    for based, scene in zip(steps, scenes, strict=True):
        step = based.step
        if not step.places:
            continue
        seen.add(step.technique)
        ((cell, digit),) = scene.placed
        assert cell not in scene.pushing
        held = {scene.written[each] for each in scene.pushing}
        if step.technique is Technique.HIDDEN_SINGLE:
            assert scene.grounds == tuple(sorted(step.because.houses[0].cells))
            assert held <= {digit}
        if step.technique is Technique.NAKED_SINGLE:
            assert held <= set(range(1, board.digits + 1)) - {digit}
            assert held
    assert len(seen) >= 2


def test_several_placements_ring_nothing():
    _, _, scenes = scenes_of(
        "boxes", lambda steps: [list(g) for _, g in groupby(steps, lambda b: bool(b.step.places))]
    )
    several = [scene for scene in scenes if len(scene.placed) > 1]
    assert several
    assert all((scene.pushing, scene.grounds) == ((), ()) for scene in several)


def test_an_if_shows_its_chain_and_what_goes_but_not_all_that_counts():
    _, steps, scenes = scenes_of("between")
    found = 0
    for based, scene in zip(steps, scenes, strict=True):
        if kind_of(based.step.technique) is Kind.SUPPOSITION and based.step.chain:
            found += 1
            assert scene.chain == based.step.chain
            assert scene.dead_end == based.step.dead_end
            assert dict(scene.counting).keys() == dict(scene.struck).keys()
            assert not scene.grounds
    assert found


def test_of_several_suppositions_no_chain_is_shown():
    _, _, (scene,) = scenes_of("double-arrow", lambda steps: [steps])
    _, _, alone = scenes_of("double-arrow")
    assert sum(bool(each.chain) for each in alone) > 1
    assert scene.chain == ()


@pytest.mark.parametrize("rule", ["whisper", "boxes"])
def test_sets_and_patterns_show_the_candidates_that_they_are_about(rule):
    _, steps, scenes = scenes_of(rule)
    found = 0
    for based, scene in zip(steps, scenes, strict=True):
        step = based.step
        if kind_of(step.technique) in (Kind.SETS, Kind.PLACES):
            found += 1
            counting = dict(scene.counting)
            assert set(scene.grounds) <= set(step.because.cells)
            for cell, mask in scene.struck:
                assert counting[cell] & mask == mask
            for cell in scene.grounds:
                assert counting[cell] & step.because.digits
    assert found
