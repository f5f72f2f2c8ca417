"""The report on a walk in words."""

import re

import pytest

from layout.language.words import languages, read_words
from layout.telling.report import tell_report
from layout.telling.telling import tell_walk
from tests.support.boards import plain
from tests.support.maker import with_givens
from tests.support.told import told_example
from verify.pencil import highest
from verify.rules import RULES
from verify.walk.facts.step import Kind
from verify.walk.report.report import MOST_HARD, report
from verify.walk.told.path import told_path
from verify.walk.walk import walk


def reported(puzzle, path, language="en"):
    words, walked = read_words(language), walk(puzzle, reasons=False)
    telling = tell_walk(puzzle, path, words)
    return telling, tell_report(puzzle, report(puzzle, walked, path), telling, words)


def lines(puzzle, language="en"):
    return reported(puzzle, told_path(puzzle), language)[1]


@pytest.mark.parametrize("language", languages())
@pytest.mark.parametrize("rule", [rule.name for rule in RULES if rule.name != "anti-queen"])
def test_reports_on_puzzles_of_every_rule(rule, language):
    _, told = reported(*told_example(rule), language)
    assert len(told) >= 3
    for line in told:
        assert line[-1] in ".!?"
        assert not set("{}") & set(line)


def test_a_report_on_a_finished_walk():
    puzzle = plain(4, (2, 2), (1, 0, 0, 0, 0, 0, 3, 0, 0, 4, 0, 0, 0, 0, 0, 2))
    assert lines(puzzle) == (
        "Every step places a digit: it takes no more than looking.",
        "Break-in: none, as there are only plain singles.",
        "Tightest point: 8 ways on, in r1c2, r1c3, r2c1, r2c4, r3c1, r3c4, r4c2 and r4c3 "
        "(hidden single), with 4 of 16 cells filled.",
        "Steps: 12 (last cell 6 and hidden single 6).",
        "The walk needs every given.",
        "Symmetry of the givens: half turn, mirrored in the falling diagonal and mirrored in the "
        "rising diagonal.",
    )


@pytest.mark.parametrize("rule", ["cage", "boxes", "thermometer"])
def test_step_numbers_are_those_of_the_walk_as_it_is_told(rule):
    telling, told = reported(*told_example(rule))
    by_number = {each.number: each for each in telling.paragraphs}
    starts = ("Break-in", "First cell")
    numbered = [re.search(r"step (\d+)[.] (.+)", line) for line in told if line.startswith(starts)]
    pairs = [(by_number[int(found[1])], found[2]) for found in numbered if found]
    assert len(pairs) == 2
    for paragraph, words_of_step in pairs:
        steps = [each.step for each in telling.steps if each.words == words_of_step]
        assert any(step in paragraph.steps for step in steps)


def test_the_steps_at_which_solvers_stick_are_those_that_cost_most():
    telling, told = reported(*told_example("whisper"))
    (line,) = [line for line in told if line.startswith("Solvers will stick")]
    numbers = set(map(int, re.findall(r"\d+", line)))
    suppose = {told.paragraph for told in telling.steps if told.kind is Kind.SUPPOSITION}
    assert 1 <= len(numbers) <= MOST_HARD
    assert numbers <= suppose


def test_marks_are_named_as_in_the_manifest():
    puzzle, _ = told_example("anti-knight")
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
