"""Puzzles written out as an editor may write them, in many layouts, read back as they were."""

from collections.abc import Sequence
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.strategies import DrawFn

from tests.support.effort import effort
from tests.support.paths import walks
from verify.board import COMPASS, DEFAULT_BOXES, Board, Cell
from verify.manifest.fields import DEFAULT_SYMBOLS
from verify.manifest.read import puzzle_from_text
from verify.reading.problems import Unreadable

INDENT = "    "


@st.composite
def boards(draw: DrawFn) -> tuple[str, Board]:
    kind = draw(st.sampled_from(["sudoku", "latin", "blank"]))
    size = draw(st.sampled_from(sorted(DEFAULT_BOXES)) if kind == "sudoku" else st.integers(1, 25))
    return kind, Board(size, size, size, DEFAULT_BOXES[size] if kind == "sudoku" else None)


def steps_of(board: Board, path: Sequence[Cell]) -> list[str]:
    """The compass steps of a path."""
    return [
        next(name for name in COMPASS if board.step(here, name) == there)
        for here, there in pairwise(path)
    ]


@st.composite
def written_paths(draw: DrawFn, board: Board, path: Sequence[Cell]) -> str:
    """A path as a list, or as a trail that counts some steps and names some cells."""
    cells = [board.name(cell) for cell in path]
    if draw(st.booleans()):
        return "[" + draw(st.sampled_from([", ", ","])).join(cells) + "]"
    words, index, steps = [cells[0]], 0, steps_of(board, path)
    while index < len(steps):
        run = 1
        while (
            index + run < len(steps) and steps[index + run] == steps[index] and draw(st.booleans())
        ):
            run += 1
        count = str(run) if run > 1 or draw(st.booleans()) else ""
        named = cells[index + 1] if run == 1 and draw(st.integers(0, 3)) == 0 else None
        words.append(named or count + steps[index])
        index += run
    text = draw(st.sampled_from([" ", "  "])).join(words)
    text = text.upper() if draw(st.integers(0, 5)) == 0 else text
    return draw(st.sampled_from(["{}", "'{}'", '"{}"'])).format(text)


@st.composite
def written_groups(draw: DrawFn, board: Board) -> tuple[frozenset[Cell], str]:
    """A group of cells, as words that each add a cell: single cells and rectangles."""
    cells: set[Cell] = set()
    words = []
    for _ in range(draw(st.integers(1, 4))):
        corners = [draw(st.sampled_from(board.cells)) for _ in range(draw(st.integers(1, 2)))]
        rows, columns = zip(*map(board.place, corners), strict=True)
        added = {
            cell
            for cell in board.cells
            if min(rows) <= board.place(cell)[0] <= max(rows)
            and min(columns) <= board.place(cell)[1] <= max(columns)
        }
        if not added <= cells:
            cells |= added
            words.append("..".join(map(board.name, corners)))
    as_list = draw(st.booleans())
    return frozenset(cells), f"[{', '.join(words)}]" if as_list else " ".join(words)


@st.composite
def written_grids(draw: DrawFn, board: Board, digits: Sequence[int]) -> str:
    """A grid as a block: apart, together, or in groups with bars and dashes."""
    symbols = "." + DEFAULT_SYMBOLS
    apart = draw(st.sampled_from(["", " ", "  "]))
    bar = draw(st.sampled_from(["", "|", " | ", " "]))
    dashes = draw(st.sampled_from(["", "---+---", "- - -", "|---|"]))
    every = draw(st.integers(1, max(board.columns - 1, 1)))
    lines = []
    for row, cells in enumerate(board.row_lines()):
        tokens = [symbols[digits[cell]] for cell in cells]
        groups = [tokens[start : start + every] for start in range(0, len(tokens), every)]
        lines.append(bar.join(apart.join(group) for group in groups))
        if dashes and row % every == 0:
            lines.append(dashes)
    return "|\n" + "".join(f"{INDENT}{line}\n" for line in lines)


@st.composite
def manifests(draw: DrawFn) -> tuple[str, dict[str, Any]]:
    """A manifest's text, and what it says."""
    kind, board = draw(boards())
    count = len(board.cells)
    digits = draw(st.lists(st.integers(0, board.digits), min_size=count, max_size=count))
    most = min(board.digits, 9)
    paths = draw(st.lists(walks(board, 2, most), max_size=4)) if board.digits > 1 else []
    paths = [path for path in paths if len(path) > 1]
    group, group_text = draw(written_groups(board))
    title = draw(
        st.text(st.characters(codec="utf-8", categories=["L", "N", "P", "S"]), max_size=30)
    )
    text = [f"kind: {kind}", f"size: {board.digits}", "title: '" + title.replace("'", "''") + "'"]
    text += ["rules:", f"  even: {group_text}"]
    if paths:
        text += ["  thermometer:", *(f"    - {draw(written_paths(board, path))}" for path in paths)]
    grid = draw(written_grids(board, digits))
    text.insert(draw(st.integers(0, 3)), f"givens: {grid}".rstrip("\n"))
    said = {"board": board, "givens": tuple(digits), "paths": paths, "even": group, "title": title}
    return "\n".join(text) + "\n", said


@effort(2)
@given(manifests())
def test_what_is_written_is_what_is_read(written: tuple[str, dict[str, Any]]) -> None:
    text, said = written
    puzzle = puzzle_from_text(text)
    marks = {use.rule.name: use.constraints for use in puzzle.uses}
    assert puzzle.board == said["board"]
    assert puzzle.givens == said["givens"]
    assert puzzle.title == (said["title"] or puzzle.id)
    assert [list(mark.cells) for mark in marks.get("thermometer", ())] == [
        list(path) for path in said["paths"]
    ]
    assert sorted(cell for mark in marks["even"] for cell in mark.cells) == sorted(said["even"])


@effort(2)
@given(st.data())
def test_a_wrong_token_is_told_where_it_stands(data: st.DataObject) -> None:
    """One token of a grid becomes a question mark, in any layout."""
    board = Board(6, 6, 6, (2, 3))
    digits = data.draw(st.lists(st.integers(0, 6), min_size=36, max_size=36))
    text = "kind: sudoku\nsize: 6\ngivens: " + data.draw(written_grids(board, digits))
    grid_start = text.index("|") + 1
    tokens = [at for at, letter in enumerate(text) if at > grid_start and letter in ".123456"]
    at = data.draw(st.sampled_from(tokens))
    broken = text[:at] + "?" + text[at + 1 :]
    line, column = broken.count("\n", 0, at) + 1, at - broken.rindex("\n", 0, at)
    with pytest.raises(Unreadable) as caught:
        puzzle_from_text(broken, "f")
    message = 'found "?", expected . or one of 1 2 3 4 5 6'
    assert str(caught.value) == f"f:{line}:{column}: {message}"


@effort(2)
@given(st.data())
def test_a_wrong_word_of_a_trail_is_told_where_it_stands(data: st.DataObject) -> None:
    board = Board(9, 9, 9, (3, 3))
    path = data.draw(walks(board, 3, 9))
    words = [board.name(path[0]), *steps_of(board, path)]
    wrong = data.draw(st.integers(0, len(words) - 1))
    words[wrong] = "?"
    gaps = [" " * data.draw(st.integers(1, 3)) for _ in words]
    trail = "".join(word + gap for word, gap in zip(words, gaps, strict=True)).rstrip()
    text = f"kind: sudoku\nsize: 9\nrules:\n  thermometer:\n    - '{trail}'\n"
    with pytest.raises(Unreadable) as caught:
        puzzle_from_text(text, "f")
    column = len("    - '") + trail.index("?") + 1
    message = 'found "?", expected a cell such as r4c7 or a step such as 3ne'
    assert str(caught.value) == f"f:5:{column}: {message}"
