"""The rules of a manifest: those that its kind brings, then those that it lists."""

from collections.abc import Iterable, Iterator
from typing import Any, Final

from verify.board import Board
from verify.manifest.fields import KINDS
from verify.manifest.ground import Ground
from verify.reading.node import Fields, Items, Node, Text, describe
from verify.reading.problems import Problems
from verify.reading.reader import Reader
from verify.rule import Use
from verify.rules import BY_NAME
from verify.rules.houses import boxes, columns, rows

MOST_MARKS: Final = 2_500
"""Entries of one list: a board of 25 x 25 has 1,200 edges, 625 cells and 576 corners."""

_OF_BOARD = {"rows": rows.of_board, "columns": columns.of_board, "boxes": boxes.of_board}


def listed_rules(fields: Fields, problems: Problems) -> tuple[tuple[Text, Node], ...]:
    """Each known rule that a manifest lists, with its marks."""
    node = fields.get("rules")
    if node is None or (isinstance(node, Text) and not node.text.strip()):
        return ()
    if not isinstance(node, Fields):
        expected = "a mapping, each rule with its marks, such as diagonals: both"
        problems.expected(node.place, describe(node), expected)
        return ()
    for key, _ in node.entries:
        if key.text not in BY_NAME:
            problems.unknown(key.place, "rule", key.text, BY_NAME)
    return tuple(entry for entry in node.entries if entry[0].text in BY_NAME)


def read_uses(
    ground: Ground, listed: tuple[tuple[Text, Node], ...], problems: Problems
) -> tuple[Use[Any], ...]:
    """The rules of the kind, then the listed ones in the manifest's order."""
    names = {key.text for key, _ in listed}
    implied = [name for name in KINDS[ground.kind] if not (name == "boxes" and "regions" in names)]
    reader = Reader(ground.board, problems)
    uses = list(implied_uses(implied, ground.board))
    for key, marks in listed:
        if key.text in implied:
            found = f'rule "{key.text}"'
            problems.expected(key.place, found, f"it left out: kind {ground.kind} brings it")
        else:
            rule = BY_NAME[key.text]
            too_long = next(_too_long(marks), None)
            if too_long is None:
                uses.append(Use(rule, rule.read(marks, reader)))
            else:
                found = f"a list of {len(too_long.items)}"
                problems.expected(too_long.place, found, f"at most {MOST_MARKS} in it")
    return tuple(uses)


def _too_long(marks: Node) -> Iterator[Items]:
    """Lists of more marks, or cells of a mark, than any board has room for."""
    waiting = [marks]
    while waiting:
        node = waiting.pop()
        if isinstance(node, Items):
            if len(node.items) > MOST_MARKS:
                yield node
            waiting += node.items
        elif isinstance(node, Fields):
            waiting += (value for _, value in node.entries)


def implied_uses(names: Iterable[str], board: Board) -> tuple[Use[Any], ...]:
    """Rules that a kind brings, over the whole board."""
    return tuple(Use(BY_NAME[name], _OF_BOARD[name](board)) for name in names)
