"""Whatever stands in a file: it is understood, or told in Unreadable, within bounded time."""

import time

import pytest
import yaml
from hypothesis import example, given
from hypothesis import strategies as st

from tests.support.effort import effort
from verify.manifest import tree
from verify.manifest.bank import bank_from_lines
from verify.manifest.blank import new_manifest
from verify.manifest.read import puzzle_from_text
from verify.manifest.source import MOST_BYTES, text_of
from verify.reading.node import Place
from verify.reading.problems import MOST_PROBLEMS, Problem, Unreadable
from verify.rules import RULES

EXAMPLES = [rule.example for rule in RULES] + [new_manifest("tide")]
SCRAPS = [
    "\n", "\t", " ", "  ", ":", ": ", "- ", "[", "]", "{", "}", "'", '"', "|", ">", "#", "&a ",
    "*a", "!x ", "%", "@", "`", ",", "?", "---\n", "...\n", "<<: ", "\\", "\x00", "\x85", "\u2028",
    "\ufeff", "\ud800", "é", "🌊", "r1c1", "r9c9..", "3ne", "0n", "true", "no", "-1", "1e9", ".",
    "\r\n",
]  # fmt: skip


def problems_of(text: str) -> tuple[Problem, ...]:
    try:
        puzzle = puzzle_from_text(text, "f")
    except Unreadable as unreadable:
        return unreadable.problems or (Problem(Place("f", 0, 0), "told of nothing"),)
    assert len(puzzle.givens) == len(puzzle.board.cells)
    return ()


def is_told_or_read(text: str) -> None:
    """Nothing else is raised, and every problem has a place in the text."""
    problems = problems_of(text)
    assert len(problems) <= MOST_PROBLEMS
    lines = text.replace("\r\n", "\n").replace("\r", "\n").count("\n") + 1
    for problem in problems:
        assert problem.message.isprintable()
        assert 1 <= problem.place.line <= lines
        assert problem.place.column >= 1


@effort(4)
@given(st.text(max_size=200))
@example("")
@example("title: \ud800\n")
def test_any_text(text: str) -> None:
    is_told_or_read(text)


@effort(4)
@given(st.lists(st.sampled_from(SCRAPS), max_size=30))
def test_any_heap_of_scraps(scraps: list[str]) -> None:
    is_told_or_read("".join(scraps))


@pytest.mark.parametrize("loader", ["CSafeLoader", "SafeLoader"])
@effort(4)
@given(st.data())
def test_any_damaged_manifest(loader: str, data: st.DataObject) -> None:
    text = data.draw(st.sampled_from(EXAMPLES))
    for _ in range(data.draw(st.integers(1, 4))):
        start = data.draw(st.integers(0, len(text)))
        end = data.draw(st.integers(start, min(len(text), start + 12)))
        text = text[:start] + data.draw(st.sampled_from(["", *SCRAPS])) + text[end:]
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(tree, "_LOADER", getattr(yaml, loader, yaml.SafeLoader))
        is_told_or_read(text)


@effort(4)
@given(st.binary(max_size=200))
def test_any_bytes(data: bytes) -> None:
    try:
        text = text_of(data, "f")
    except Unreadable:
        return
    is_told_or_read(text)


@effort(4)
@given(st.lists(st.text(max_size=100)))
def test_any_bank(lines: list[str]) -> None:
    for found in bank_from_lines(lines):
        assert found is not None


@pytest.mark.parametrize("text", EXAMPLES)
def test_both_parsers_see_the_same(text: str, monkeypatch: pytest.MonkeyPatch) -> None:
    quick = puzzle_from_text(text)
    monkeypatch.setattr(tree, "_LOADER", yaml.SafeLoader)
    assert puzzle_from_text(text) == quick


def manifest(rules: str) -> str:
    return f"kind: sudoku\nsize: 25\nrules:\n{rules}"


def filled(piece: str, before: str = "", after: str = "") -> str:
    """A text that is as large as a file may be."""
    return before + piece * ((MOST_BYTES - len(before) - len(after)) // len(piece)) + after


BOMBS = {
    "brackets": filled("["),
    "braces": filled("{a: "),
    "dashes": filled("- "),
    "questions": filled("? "),
    "anchors": filled("&a "),
    "line ends": filled("\n"),
    "blanks": filled(" ", "a: |\n", "x\n"),
    "one word": filled("a"),
    "one key": filled("a", after=": b\n"),
    "one key again": filled("a: b\n"),
    "quotes": filled("'"),
    "escapes": filled("\\u0041", 'a: "', '"\n'),
    "items": filled("- a\n"),
    "unknown fields": "".join(f"field{number}: x\n" for number in range(9_000)),
    "laughs": "a: &a [x, x]\n" + "".join(f"b{n}: &b{n} [*a, *a]\n" for n in range(1000)),
    "one row of givens": filled(".", "kind: sudoku\nsize: 25\ngivens: |\n  ", "\n"),
    "rows of givens": filled("  .\n", "kind: sudoku\nsize: 25\ngivens: |\n"),
    "a row of blanks": filled(" ", "kind: sudoku\nsize: 25\ngivens: |\n  " + "? " * 24, "?\n"),
    "one trail": filled("e w ", manifest("  thermometer:\n  - r1c1 "), "\n"),
    "steps that are none": filled("nn ", manifest("  thermometer:\n  - r1c1 "), "\n"),
    "words that are none": filled("? ", manifest("  thermometer:\n  - r1c1 "), "\n"),
    "rectangles": filled("r1c1..r25c25 ", manifest("  even: "), "\n"),
    "a count": filled("9", manifest("  thermometer:\n  - r1c1 "), "e\n"),
    "a sum": filled("9", manifest("  cage:\n  - {cells: r1c1 r1c2, sum: "), "}\n"),
    "trails": filled("- r1c1 24e s 24w s 24e s 24w\n", manifest("  slow-thermometer:\n")),
    "a long id": filled("a", "id: ", "\n"),
    "a long kind": filled("a", "kind: ", "\n"),
    "letters": filled("\u0301", "title: ", "\n")[: MOST_BYTES // 2],
}


@pytest.mark.parametrize("bomb", BOMBS)
def test_a_bomb_is_told_in_bounded_time(bomb: str) -> None:
    started = time.process_time()
    is_told_or_read(BOMBS[bomb])
    assert time.process_time() - started < 10
