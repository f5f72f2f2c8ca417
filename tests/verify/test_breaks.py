"""The breaks of `tests.benchmarks.breaks` can still be made: the list keeps up with the product."""

from dataclasses import replace

import pytest

from tests.benchmarks.breaks import every_break, faults


@pytest.mark.parametrize("each", every_break(), ids=str)
def test_a_break_stands_once_in_its_file_and_its_tests_are_there(each):
    assert faults(each) == []


def test_there_are_enough_of_them_and_none_twice():
    found = every_break()
    assert len(set(found)) == len(found) >= 80


def test_what_no_longer_stands_in_its_file_is_told():
    (first, *_) = every_break()
    assert faults(replace(first, old="no such text")) != []
    assert faults(replace(first, tests="tests/no_such_file.py")) != []
    assert faults(replace(first, file="verify/no_such_file.py")) != []
