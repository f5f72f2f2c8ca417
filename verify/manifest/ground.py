"""What a puzzle stands on: its kind, board and symbols."""

import re
from collections.abc import Collection, Iterable
from dataclasses import dataclass
from typing import Final

from verify.board import DEFAULT_BOXES, LARGEST_SIZE, Board
from verify.manifest.fields import DEFAULT_SYMBOLS, KINDS, LONGEST_SYMBOL
from verify.manifest.outline import read_outline
from verify.reading.node import Fields, Items, Node, Place, Text, describe, shown
from verify.reading.problems import Problems
from verify.reading.record import Schema

_BOXES: Final = re.compile(r"([0-9]{1,2})\s*[x×]\s*([0-9]{1,2})")
_WHOLE: Final = re.compile(r"[0-9]{1,9}")


class Kind:
    """One of `KINDS`."""

    expected: Final = "one of " + ", ".join(KINDS)

    def read(self, node: Node, problems: Problems) -> str | None:
        """The kind."""
        if not isinstance(node, Text) or not node.text.strip():
            problems.expected(node.place, describe(node), self.expected)
        elif node.text in KINDS:
            return node.text
        else:
            problems.unknown(node.place, "kind", node.text, KINDS)
        return None

    def schema(self) -> Schema:
        """An enumeration."""
        return {"enum": list(KINDS)}


class Size:
    """Rows, columns and digits of one grid."""

    expected: Final = f"a whole number from 1 to {LARGEST_SIZE}"

    def read(self, node: Node, problems: Problems) -> int | None:
        """The size."""
        if isinstance(node, Text) and _WHOLE.fullmatch(node.text):
            size = int(node.text)
            if 1 <= size <= LARGEST_SIZE:
                return size
        problems.expected(node.place, f"size {describe(node)}", self.expected)
        return None

    def schema(self) -> Schema:
        """A number with its bounds."""
        return {"type": "integer", "minimum": 1, "maximum": LARGEST_SIZE}


class Boxes:
    """Rows and columns of a box: `3x3`."""

    def read(self, node: Node, problems: Problems) -> tuple[int, int] | None:
        """Both numbers."""
        match = _BOXES.fullmatch(node.text.strip()) if isinstance(node, Text) else None
        if match is None:
            expected = "rows x columns of a box, such as 3x3"
            problems.expected(node.place, describe(node), expected)
            return None
        return int(match[1]), int(match[2])

    def schema(self) -> Schema:
        """Two numbers and a cross, as text."""
        return {"type": "string", "pattern": "^[0-9]{1,2} ?[x×] ?[0-9]{1,2}$"}


class Symbols:
    """What is printed for each digit: the characters of a text, or the items of a list."""

    def read(self, node: Node, problems: Problems) -> tuple[tuple[Place, str], ...] | None:
        """Each symbol with its place."""
        if isinstance(node, Items) and all(isinstance(item, Text) for item in node.items):
            return tuple((item.place, item.text) for item in node.items if isinstance(item, Text))
        if isinstance(node, Text) and len(node.lines) == 1:
            place, line = node.lines[0]
            return tuple((place.right(column), symbol) for column, symbol in enumerate(line))
        problems.expected(node.place, describe(node), "symbols: a text such as ABCDEF, or a list")
        return None

    def schema(self) -> Schema:
        """A text, or a list of short texts."""
        symbol = {"type": ["string", "number", "boolean"], "maxLength": LONGEST_SYMBOL}
        items = {"type": "array", "items": symbol, "minItems": 1, "maxItems": LARGEST_SIZE}
        return {"oneOf": [{"type": ["string", "number"]}, {**items, "uniqueItems": True}]}


KIND: Final = Kind()
SIZE: Final = Size()
BOXES: Final = Boxes()
SYMBOLS: Final = Symbols()


@dataclass(frozen=True, slots=True)
class Ground:
    """A kind, a board, and what is printed for each digit."""

    kind: str
    board: Board
    symbols: tuple[str, ...]


def read_ground(fields: Fields, rules: Collection[str], problems: Problems) -> Ground | None:
    """Kind, size, boxes and symbols; `rules` are the names of the rules that are listed.

    None with problems where there is no board to read the rest on; a kind that is unknown is
    taken for blank, so that the problems of marks and grids are found all the same.
    """
    kind, size = _kind(fields, problems), _size(fields, problems)
    if size is None:
        return None
    boxes = None if kind is None else _boxes(fields, kind, size, rules, problems)
    symbols = _symbols(fields.get("symbols"), size, problems)
    board = read_outline(fields, Board(size, size, size, boxes), rules, problems)
    return Ground(kind or "blank", board, symbols)


def _kind(fields: Fields, problems: Problems) -> str | None:
    """The kind that a manifest tells of."""
    node = fields.get("kind")
    if node is None:
        problems.add(fields.place, f'missing field "kind", expected {KIND.expected}')
    return None if node is None else KIND.read(node, problems)


def _size(fields: Fields, problems: Problems) -> int | None:
    """The size that a manifest tells of."""
    node = fields.get("size")
    if node is None:
        problems.add(fields.place, f'missing field "size", expected {SIZE.expected}')
    return None if node is None else SIZE.read(node, problems)


def _boxes(
    fields: Fields, kind: str, size: int, rules: Collection[str], problems: Problems
) -> tuple[int, int] | None:
    """Rows and columns of a box; None where no rule asks for boxes."""
    node = fields.get("boxes")
    regions = "regions" in rules
    if "boxes" in rules or ("boxes" in KINDS[kind] and not regions):
        return _usual_boxes(fields, size, problems) if node is None else _own(node, size, problems)
    if node is not None:
        reason = "regions take their place" if regions else f"kind {kind} has none"
        problems.add(node.place, f"found boxes, expected none: {reason}")
    return None


def _usual_boxes(fields: Fields, size: int, problems: Problems) -> tuple[int, int] | None:
    """The default boxes of a size."""
    if size not in DEFAULT_BOXES:
        node = fields.get("size") or fields
        expected = "boxes: ROWSxCOLUMNS, or the rule regions"
        problems.expected(node.place, f"size {size}, which has no usual boxes", expected)
    return DEFAULT_BOXES.get(size)


def _own(node: Node, size: int, problems: Problems) -> tuple[int, int] | None:
    """Boxes as the manifest tells them: they tile the board, and hold each digit once."""
    boxes = BOXES.read(node, problems)
    if boxes is None:
        return None
    rows, columns = boxes
    if rows * columns != size:
        found = f"boxes of {rows} x {columns} = {rows * columns} cells"
        problems.expected(node.place, found, f"{size} cells, as many as there are digits")
        return None
    return boxes


def _symbols(node: Node | None, size: int, problems: Problems) -> tuple[str, ...]:
    """What is printed for each digit; the default where there is a problem."""
    default = tuple(DEFAULT_SYMBOLS[:size])
    if node is None:
        return default
    listed = SYMBOLS.read(node, problems)
    if listed is None:
        return default
    if len(listed) != size:
        found = f"{len(listed)} symbol" + ("s" if len(listed) != 1 else "")
        problems.expected(node.place, found, f"{size}, as many as the size")
        return default
    _check_symbols(listed, problems)
    return tuple(symbol for _, symbol in listed)


def _check_symbols(listed: Iterable[tuple[Place, str]], problems: Problems) -> None:
    """Notes each symbol that stands twice or that a grid of text can't hold."""
    first: dict[str, int] = {}
    for number, (place, symbol) in enumerate(listed, start=1):
        if symbol in first:
            found = f'symbol "{shown(symbol)}" for {first[symbol]} and for {number}'
            problems.expected(place, found, "different symbols")
        elif not _is_symbol(symbol):
            expected = f"1 to {LONGEST_SYMBOL} printable characters, no blank and none of . _ | + -"
            problems.expected(place, f'symbol "{shown(symbol)}"', expected)
        first.setdefault(symbol, number)


def _is_symbol(symbol: str) -> bool:
    """Whether a grid of text can hold it."""
    return (
        1 <= len(symbol) <= LONGEST_SYMBOL
        and symbol.isprintable()
        and not set(symbol) & set(" ._|+-")
    )
