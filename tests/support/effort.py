"""Tests that want more examples than others, and tests that take too long for as many."""

from hypothesis import settings


def effort(times: float) -> settings:
    """So many times the examples of the profile (`tests/conftest.py`), at least one."""
    return settings(max_examples=max(1, round(times * settings().max_examples)))
