"""Sets of digits as bits."""

from hypothesis import given
from hypothesis import strategies as st

from verify.pencil import at_most, bit, digits_of, every_digit, highest, is_single, lowest

SETS = st.sets(st.integers(1, 25))


@given(SETS)
def test_a_mask_holds_just_its_digits(digits):
    mask = sum(map(bit, digits))
    assert list(digits_of(mask)) == sorted(digits)
    assert is_single(mask) == (len(digits) == 1)
    if digits:
        assert (lowest(mask), highest(mask)) == (min(digits), max(digits))


@given(st.integers(1, 25), st.integers(-3, 30))
def test_ranges(digits, limit):
    assert list(digits_of(every_digit(digits))) == list(range(1, digits + 1))
    assert list(digits_of(at_most(limit))) == list(range(1, limit + 1))
