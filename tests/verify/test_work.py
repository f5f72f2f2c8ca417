"""Work over many things keeps its order and reports what is done."""

import pytest

from verify.work import FEW, cores, in_order


def double(number):
    return 2 * number


def fail_at_seven(number):
    if number == 7:
        raise ValueError("seven")
    return number


@pytest.mark.parametrize("workers", [1, 2, None])
@pytest.mark.parametrize("count", [0, 1, FEW, FEW + 1, 5 * FEW])
def test_results_come_in_the_order_of_the_items(workers, count):
    done = []
    results = list(in_order(double, range(count), workers, done.append))
    assert results == [2 * number for number in range(count)]
    assert done == list(range(1, count + 1))


@pytest.mark.parametrize("workers", [1, 2])
def test_a_failure_comes_through_and_ends_the_work(workers):
    with pytest.raises(ValueError, match="seven"):
        list(in_order(fail_at_seven, range(200), workers))


def test_work_can_be_left_early():
    results = in_order(double, range(10 * FEW), 2)
    assert next(results) == 0
    results.close()


def test_there_is_a_core():
    assert cores() >= 1
