"""A manifest's text after a change: lines that say the same stay as they are, comments too.

What changes is written anew, one rule or one field at a time. Where a text can't be taken apart so,
all of it is written anew, without comments.
"""

import json
import re
from collections.abc import Iterator, Sequence
from contextlib import suppress
from dataclasses import replace
from typing import Final

from verify.board import Board, Cell
from verify.manifest.read import puzzle_from_text
from verify.puzzle import Puzzle
from verify.reading.fewer import with_field
from verify.reading.grid import Row, read_rows
from verify.reading.node import Fields, Items, Node, Place, Text
from verify.reading.problems import Problems, Unreadable

DEEPEST: Final = 2
"""Mappings inside one another whose entries stand in lines of their own: fields, and rules."""

_PLAIN: Final = re.compile(r"[A-Za-z0-9](?:[\w .+*/>x-]*[\w*+])?")
_NOTHING: Final = re.compile(r"\s*(#.*)?")


def rewritten(text: str, old: Fields, new: Fields, puzzle: Puzzle) -> str:
    """The text of a manifest that read as `old`, so that it reads as `new` with a puzzle's givens.

    `new` holds entries of `old`, some of them changed. What comes out was read and holds that
    puzzle's rules and givens.
    """
    new = _with_givens(new, puzzle)
    spliced = "\n".join(_spliced(text.split("\n"), old, new, (0, text.count("\n") + 1), 0))
    return spliced if _reads_as(spliced, puzzle) else "\n".join([*_entries(new, 0), ""])


def _reads_as(text: str, puzzle: Puzzle) -> bool:
    with suppress(Unreadable):
        found = puzzle_from_text(text, puzzle.file)
        return (_asked(found), found.givens) == (_asked(puzzle), puzzle.givens)
    return False


def _asked(puzzle: Puzzle) -> list[tuple[str, tuple[object, ...]]]:
    """The rules by their names: one that has come from another process is not the same object."""
    return [(use.rule.name, use.constraints) for use in puzzle.uses]


def _with_givens(root: Fields, puzzle: Puzzle) -> Fields:
    """The manifest with a puzzle's givens; in its own lines where it has some."""
    node = root.get("givens")
    if isinstance(node, Text):
        single = all(len(symbol) == 1 for symbol in puzzle.symbols)
        rows, whole = read_rows(node, puzzle.board, single, "the givens", Problems())
        if whole and len(dict(node.lines)) == len(node.lines):
            text = _overwritten(node, rows, puzzle)
            same = text == node.text.rstrip("\n")
            return root if same else with_field(root, "givens", _block(node.place, text))
    block = _block(root.place, given_rows(puzzle))
    if node is not None:
        return with_field(root, "givens", block)
    return replace(root, entries=(*root.entries, (Text(root.place, "givens", ()), block)))


def _overwritten(node: Text, rows: Sequence[Row], puzzle: Puzzle) -> str:
    """The lines of givens, with other givens in their places."""
    lines = dict(node.lines)
    for number, row in enumerate(rows):
        line = row.text
        for column in reversed(range(puzzle.board.columns)):
            start = row.place_of(column).column - row.line.column
            token, old = puzzle.token_of(puzzle.board.cell(number, column)), row.tokens[column]
            line = line[:start] + token.ljust(len(old)) + line[start + len(old) :]
        lines[row.line] = line.rstrip()
    return "\n".join(lines.values())


def _block(place: Place, text: str) -> Text:
    return Text(place, text, (), quoted=True)


def given_rows(puzzle: Puzzle) -> str:
    """The givens as rows of text, with boxes set off."""
    board: Board = puzzle.board
    height, width = board.boxes or (board.rows, board.columns)
    widest = max(map(len, puzzle.symbols))
    rows: list[str] = []
    for row in range(board.rows):
        cells: list[Cell] = [board.cell(row, column) for column in range(board.columns)]
        tokens = [puzzle.token_of(cell).ljust(widest) for cell in cells]
        boxes = [" ".join(tokens[at : at + width]) for at in range(0, board.columns, width)]
        line = " | ".join(boxes).rstrip()
        if row and row % height == 0:
            rows.append("-" * max(map(len, rows)))
        rows.append(line)
    return "\n".join(rows)


def _spliced(
    lines: Sequence[str], old: Fields, new: Fields, span: tuple[int, int], depth: int
) -> Iterator[str]:
    """The lines of a mapping, those of changed entries written anew; `span` counts from 0."""
    starts = [key.place.line - 1 for key, _ in old.entries]
    ends = [*starts[1:], span[1]]
    yield from lines[span[0] : starts[0]]
    for (key, value), start, end in zip(old.entries, starts, ends, strict=True):
        changed = new.get(key.text)
        last = end
        while last > start + 1 and _NOTHING.fullmatch(lines[last - 1]):
            last -= 1
        if changed == value:
            yield from lines[start:last]
        elif isinstance(changed, Fields) and isinstance(value, Fields) and depth + 1 < DEEPEST:
            yield from _spliced(lines, value, changed, (start, last), depth + 1)
        elif changed is not None:
            yield from _entry(key.text, changed, key.place.column - 1)
        if end == span[1]:
            yield from _added(old, new)
        yield from lines[last:end]


def _added(old: Fields, new: Fields) -> Iterator[str]:
    """The lines of entries that were not there before."""
    known = {key.text for key, _ in old.entries}
    for key, value in new.entries:
        if key.text not in known:
            yield from _entry(key.text, value, old.entries[0][0].place.column - 1)


def _entries(fields: Fields, indent: int) -> Iterator[str]:
    for key, value in fields.entries:
        yield from _entry(key.text, value, indent)


def _entry(key: str, value: Node, indent: int) -> Iterator[str]:
    """The lines of a field: mappings and lists in lines of their own, what is in these in one."""
    margin, name = " " * indent, scalar(key)
    if isinstance(value, Text) and "\n" in value.text.strip("\n"):
        yield f"{margin}{name}: |"
        yield from (f"{margin}  {line}".rstrip() for line in value.text.rstrip("\n").split("\n"))
    elif isinstance(value, Fields) and indent < 2 * DEEPEST and value.entries:
        yield f"{margin}{name}:"
        yield from _entries(value, indent + 2)
    elif isinstance(value, Items) and not _is_short(value):
        yield f"{margin}{name}:"
        yield from (f"{margin}  - {_flow(item)}" for item in value.items)
    else:
        yield f"{margin}{name}: {_flow(value)}"


def _is_short(items: Items) -> bool:
    """Whether a list is one of single words, such as cells."""
    return all(isinstance(item, Text) and " " not in item.text for item in items.items)


def _flow(node: Node) -> str:
    """A node in one line."""
    if isinstance(node, Items):
        return f"[{', '.join(map(_flow, node.items))}]"
    if isinstance(node, Fields):
        return "{" + ", ".join(f"{scalar(k.text)}: {_flow(v)}" for k, v in node.entries) + "}"
    return json.dumps(node.text, ensure_ascii=False) if node.quoted else scalar(node.text)


def scalar(text: str) -> str:
    """A word as it stands, or in quotes where YAML might take it for more."""
    return text if _PLAIN.fullmatch(text) else json.dumps(text, ensure_ascii=False)
