"""The grades of the demo books are those that are pinned: a change must move them knowingly."""

import pytest

from tests.books.grades import FOLDERS, lines_of, pinned
from tests.support.checkout import BOOKS


@pytest.mark.parametrize("folder", FOLDERS)
def test_every_puzzle_has_its_pinned_grade(folder):
    """Where a change of a grade is meant: `python -m tests.books.grades`."""
    assert lines_of(folder) == [line for line in pinned() if line.split()[0] == folder]


def test_no_puzzle_of_the_books_is_left_out():
    no_books = {"build", "sketches"}
    manifests = {path for path in BOOKS.glob("*/*/**/*.yaml") if no_books.isdisjoint(path.parts)}
    banks = (path.read_text(encoding="utf-8") for path in BOOKS.glob("*/bank*/*.txt"))
    lines = "".join(banks).splitlines()
    banked = sum(not line.startswith("#") for line in lines)
    assert len(pinned()) == len(manifests) + banked
