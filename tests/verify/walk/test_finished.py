"""A walk is finished where its grid is an answer, not where it is full."""

from tests.support.boards import plain
from verify.rule import Use
from verify.rules.cells import greater
from verify.rules.cells.greater import Greater
from verify.walk.walk import walk

FULL_BUT_ONE = (1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 0)


def signed(larger, smaller):
    return walk(plain(4, (2, 2), FULL_BUT_ONE, Use(greater.RULE, (Greater((larger, smaller)),))))


def test_a_full_grid_that_keeps_the_rules():
    assert signed(14, 15).finished


def test_a_full_grid_that_breaks_a_rule_is_no_answer():
    walked = signed(15, 14)
    assert all(walked.pencil)
    assert not walked.finished
