"""Findings on the lines of a bank: those settled together are those that each gets alone."""

from collections.abc import Sequence
from dataclasses import replace

import pytest

from tests.support.boards import NEEDS_A_SEARCH
from verify.budget import Budget
from verify.check import Asked, Finding, Item, check
from verify.manifest.bank_line import text_lines
from verify.proof.verdict import ProofFault
from verify.reading.problems import Problem, Unreadable
from verify.reasons import Wanted

ONE = "12343412214343.1"
LINES = (
    [ONE, f"{ONE} 4.5 ebb", "1" + "." * 15, "11" + "." * 14, "Slack Water", ONE[::-1]] * 4
    + [NEEDS_A_SEARCH, "." * 81] * 10
    + ["123456" + "." * 30]
)


def items_of(lines: Sequence[str]) -> list[Item]:
    found = text_lines(lines, "marsh.txt")
    return [Unreadable([each]) if isinstance(each, Problem) else each for each in found]


def findings(items: Sequence[Item], **asked: object) -> list[Finding]:
    found = check(items, Budget(), 1, asked=Asked(**{"wanted": None, **asked}))  # type: ignore[arg-type]
    return [replace(each, seconds=0.0) for each in found]


def test_lines_settled_together_are_told_as_each_alone() -> None:
    items = items_of(LINES)
    together = findings(items)
    assert together == [found for item in items for found in findings([item])]
    assert {found.verdict for found in together} == {"one", "many", "none", "unreadable"}
    assert [found.place and found.place.line for found in together[:4]] == [1, 2, 3, 4]
    assert together[1].kept == "4.5 ebb"


def test_a_small_budget_does_not_depend_on_the_lines_beside() -> None:
    items = items_of([NEEDS_A_SEARCH] * 20)
    scarce, verdicts = Budget(conflicts=1), Asked(wanted=None)
    (alone,) = check(items[:1], scarce, 1, asked=verdicts)
    assert {each.verdict for each in check(items, scarce, 1, asked=verdicts)} == {alone.verdict}
    assert alone.verdict == "undecided"


def test_where_more_is_asked_each_puzzle_is_told_of(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("verify.check.settled_lines", None)
    items = items_of([ONE] * 20)
    assert all(found.grade for found in findings(items, graded=True))
    assert all(found.form for found in findings(items, formed=True))
    assert all(found.certificate for found in findings(items, certified=True))
    assert all(found.spared for found in findings(items, wanted=Wanted(spare=True)))


def test_an_answer_that_breaks_a_rule_is_never_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("verify.settled_lines.keep_all", lambda *each: each[0][:, 0] == 0)
    with pytest.raises(ProofFault):
        findings(items_of([ONE] * 20))
