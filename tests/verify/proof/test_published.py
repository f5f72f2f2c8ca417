"""Published instances get their published verdicts and answers."""

import pytest

from tests.support.boards import classic
from tests.support.published import lines, manifests, needs_cases, verdicts
from verify.budget import Budget
from verify.manifest.read import read_puzzle
from verify.proof.verdict import prove
from verify.reading.problems import Unreadable


def readable(path):
    try:
        return read_puzzle(path)
    except Unreadable as unreadable:
        others = [p for p in unreadable.problems if "unknown rule" not in p.message]
        if others:
            raise
        return None


PATIENT = Budget(seconds=600)
"""Conflicts bound the proof; the clock must not, on a busy machine."""


@needs_cases
@pytest.mark.parametrize("path", manifests(), ids=lambda path: path.stem)
def test_manifest_gets_its_published_verdict(path):
    puzzle = readable(path)
    if puzzle is None:
        pytest.skip("asks for a rule that is not in the catalogue")
    published = verdicts()[path.name]
    if published["by"] == "two SAT solvers":
        # Left open by CP-SAT in 20 s: a small budget may end undecided, never wrong.
        assert prove(puzzle, Budget(conflicts=10_000)).word in ("one", "undecided")
        return
    verdict = prove(puzzle, PATIENT)
    assert verdict.word == published["verdict"]
    assert verdict.contradicts == ()


@needs_cases
@pytest.mark.parametrize("name", ["classic17.txt", "classic-lists.txt"])
def test_every_listed_classic_has_one_answer(name):
    # G. Royle's collection, and the lists of norvig/pytudes: one answer each, by the cases' README.
    listed = lines(name)
    assert len(listed) > 800
    several = [line for line in listed if prove(classic(line)).word != "one"]
    assert several == []


@needs_cases
def test_a_published_puzzle_without_one_of_its_17_givens_has_many_answers():
    # No 9x9 puzzle of 16 givens has one answer: McGuire, Tugemann, Civario 2014 (from memory).
    for line in lines("classic17.txt")[::500]:
        at = next(index for index, char in enumerate(line) if char != "0")
        verdict = prove(classic(line[:at] + "0" + line[at + 1 :]))
        assert verdict.word == "many"
