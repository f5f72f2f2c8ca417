"""What a file calls its pages (ISO 32000-1, 12.4.2)."""

from collections.abc import Iterator
from typing import Any, Final

DEEPEST: Final = 32
MOST_RANGES: Final = 20_000

ONES: Final = ("", "i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix")
TENS: Final = ("", "x", "xx", "xxx", "xl", "l", "lx", "lxx", "lxxx", "xc")
HUNDREDS: Final = ("", "c", "cc", "ccc", "cd", "d", "dc", "dcc", "dccc", "cm")


def page_labels(tree: Any, pages: int) -> list[str] | None:
    """A label for each page; None where the file has none."""
    if tree is None:
        return None
    ranges = dict(_ranges(tree, 0))
    labels, style, prefix, number = [], "", "", 1
    for page in range(pages):
        if page in ranges:
            told = ranges[page]
            style, prefix = str(told.get("/S", "")), str(told.get("/P", ""))
            number = int(told.get("/St", 1))
        labels.append(prefix + numeral(number, style))
        number += 1
    return labels


def numeral(number: int, style: str) -> str:
    """A number in one of the styles of page labels."""
    if style == "/D":
        return str(number)
    if style in ("/r", "/R"):
        lower = roman(number)
        return lower if style == "/r" else lower.upper()
    if style in ("/a", "/A") and 0 < number <= 26 * 100:
        letter = chr(ord("a") + (number - 1) % 26) * ((number - 1) // 26 + 1)
        return letter if style == "/a" else letter.upper()
    return ""


def roman(number: int) -> str:
    """A number from 1 to 4999 in lower case Roman figures; nothing for others."""
    if not 0 < number < 5000:
        return ""
    thousands, rest = divmod(number, 1000)
    return "m" * thousands + HUNDREDS[rest // 100] + TENS[rest // 10 % 10] + ONES[rest % 10]


def _ranges(node: Any, depth: int) -> Iterator[tuple[int, Any]]:
    if depth > DEEPEST:
        return
    numbers = list(node.get("/Nums", ()))[: 2 * MOST_RANGES]
    for first, told in zip(numbers[::2], numbers[1::2], strict=False):
        yield int(first), told
    for kid in list(node.get("/Kids", ()))[:MOST_RANGES]:
        yield from _ranges(kid, depth + 1)
