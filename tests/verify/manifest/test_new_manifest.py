import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from verify.manifest.blank import new_manifest
from verify.manifest.read import puzzle_from_text

OFFERED = re.compile(r"^# ((constructor|boxes|symbols|note): )|^#(?=  )", re.MULTILINE)


@pytest.mark.parametrize(
    ("name", "title"),
    [
        ("slack-water", "Slack Water"),
        ("low_tide 2", "Low Tide 2"),
        ("---", "tide"),
        ('a"b\\c', 'A"b\\c'),
        ("x: y # z", "X: Y # Z"),
        ("a\nb", "A B"),
        ("é🌊", "É🌊"),
        ("\ud800x", "X"),
        ("x" * 500, "X" + "x" * 199),
    ],
)
def test_a_new_manifest_reads_back_with_its_title(name: str, title: str) -> None:
    puzzle = puzzle_from_text(new_manifest(name), "tide.yaml")
    assert puzzle.title == title
    assert not any(puzzle.givens)


@given(st.text())
def test_any_name_gives_a_manifest(name: str) -> None:
    puzzle_from_text(new_manifest(name))


def test_every_line_that_is_offered_can_be_used() -> None:
    """Each field behind a # is taken up; but for the answer, which has no grid yet."""
    text = OFFERED.sub(r"\1", new_manifest("tide"))
    puzzle = puzzle_from_text(text)
    assert [use.rule.name for use in puzzle.uses][3:] == ["thermometer", "cage", "diagonals"]
    assert puzzle.credits.constructor == "Ida Marsh"
    assert puzzle.credits.note == "For the tide-table chapter"
    assert puzzle.symbols == tuple("ABCDEFGHI")
    assert len(puzzle.uses[3].constraints) == 2
