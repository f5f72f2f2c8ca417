"""The report on a walk in words."""

import re

import pytest

from layout.language.words import languages, read_words
from layout.telling.report import tell_report
from layout.telling.telling import tell_walk
from tests.support.boards import plain
from tests.support.maker import with_givens
from verify.manifest.read import puzzle_from_text
from verify.pencil import highest
from verify.rules import BY_NAME, RULES
from verify.walk.report.report import report
from verify.walk.walk import walk


def lines(puzzle, language="en"):
    walked, words = walk(puzzle), read_words(language)
    return tell_report(puzzle, report(puzzle, walked), tell_walk(puzzle, walked, words), words)


def example(rule):
    return puzzle_from_text(BY_NAME[rule].example)


@pytest.mark.parametrize("language", languages())
@pytest.mark.parametrize("rule", [rule.name for rule in RULES if rule.name != "anti-queen"])
def test_reports_on_puzzles_of_every_rule(rule, language):
    told = lines(example(rule), language)
    assert len(told) >= 3
    for line in told:
        assert line[-1] in ".!?"
        assert not set("{}") & set(line)


def test_a_report_on_a_finished_walk():
    puzzle = plain(4, (2, 2), (1, 0, 0, 0, 0, 0, 3, 0, 0, 4, 0, 0, 0, 0, 0, 2))
    assert lines(puzzle) == (
        "Break-in: none, as there are only plain singles.",
        "Tightest point: 8 ways on, in r1c2, r1c3, r2c1, r2c4, r3c1, r3c4, r4c2 and r4c3 "
        "(hidden single), with 4 of 16 cells filled.",
        "Steps: 12 (last cell 4 and hidden single 8).",
        "The walk needs every given.",
        "Symmetry of the givens: half turn, mirrored in the falling diagonal and mirrored in the "
        "rising diagonal.",
    )


def test_step_numbers_are_those_of_the_walk_as_it_is_told():
    puzzle = example("cage")
    walked, words = walk(puzzle), read_words("en")
    telling = tell_walk(puzzle, walked, words)
    told = tell_report(puzzle, report(puzzle, walked), telling, words)
    by_number = {each.number: each for each in telling.paragraphs}
    numbered = [re.search(r"step (\d+)[.] (.+)", line) for line in told]
    pairs = [(by_number[int(found[1])], found[2]) for found in numbered if found]
    assert len(pairs) == 2
    for paragraph, words_of_step in pairs:
        (step,) = (each.step for each in telling.steps if each.words == words_of_step)
        assert step in paragraph.steps


def test_marks_are_named_as_in_the_manifest():
    puzzle = example("anti-knight")
    nearly = [highest(mask) for mask in walk(puzzle).pencil]
    nearly[0] = 0
    told = lines(with_givens(puzzle, nearly))
    assert "The walk does without this mark: anti-knight." in told
    assert any(line.startswith("The walk does without the givens in r") for line in told)


def test_a_walk_that_gets_nowhere():
    assert lines(plain(4, (2, 2))) == (
        "Here the known techniques end; 16 cells are still open. "
        "Cells filled by then: 0; candidates left: 64.",
    )
