"""Damaged files are read as far as they go, or refused: nothing else comes of them."""

from functools import cache

from hypothesis import given
from hypothesis import strategies as st

from layout.library import draw, pdf
from layout.preflight.preflight import Terms, preflight
from layout.preflight.reading.opening import Unusable, read_bytes
from tests.support.books import manifest
from verify.manifest.read import puzzle_from_text


@cache
def small():
    """A file of one page."""
    return pdf(draw(puzzle_from_text(manifest(1))))


def usable(data):
    try:
        list(preflight(read_bytes(data, "small.pdf"), Terms()))
    except Unusable:
        return False
    return True


def test_the_file_itself_is_read():
    assert usable(small())


@given(st.data())
def test_a_damaged_file_is_read_or_refused(data):
    damaged = bytearray(small())
    for at in data.draw(st.lists(st.integers(0, len(damaged) - 1), min_size=1, max_size=12)):
        damaged[at] = data.draw(st.sampled_from(b" 0/<>[()]Rn9-\x00\xff"))
    cut = data.draw(st.one_of(st.just(len(damaged)), st.integers(1, len(damaged))))
    assert usable(bytes(damaged[:cut])) in (True, False)
