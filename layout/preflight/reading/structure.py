"""The structure tree of a finished file, as a screen reader goes through it (ISO 32000-1, 14.7)."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Final

import pikepdf

MOST_ELEMENTS: Final = 200_000
"""Elements that are gone through."""


@dataclass(frozen=True, slots=True)
class Element:
    """An element of the tree: its standard type, that of what it lies in, and the page it is on.

    `told` is the text in its place, if it has one; `holds` are the types of what lies in it, with
    "content" for what is on a page and "annotation" for what is over it; `scope` is whether the
    head of a table says what it is the head of.
    """

    kind: str
    within: str
    page: int
    told: str
    holds: frozenset[str]
    scope: bool


@dataclass(frozen=True, slots=True)
class Structure:
    """The elements in their order, and what else of a file screen readers go by.

    `marked` is what the file says of itself, `suspect` whether it doubts that; `titled` whether its
    title is shown; `untabbed` are pages whose links are not gone through in the order of the tree,
    `mute` those with links that say nothing or lie in no element.
    """

    elements: tuple[Element, ...]
    marked: bool
    suspect: bool
    titled: bool
    untabbed: tuple[int, ...]
    mute: tuple[int, ...]


def structure_of(pdf: Any, numbers: dict[Any, int]) -> Structure | None:
    """What a file has; None where it has no tree. `numbers` are those of its pages."""
    root = pdf.Root.get("/StructTreeRoot")
    if root is None:
        return None
    marks, prefers = pdf.Root.get("/MarkInfo", {}), pdf.Root.get("/ViewerPreferences", {})
    roles = {str(key): str(value) for key, value in root.get("/RoleMap", {}).items()}
    elements = tuple(_elements(root, roles, numbers))
    untabbed, mute = [], []
    for number, page in enumerate(pdf.pages, start=1):
        notes = [each for each in page.get("/Annots", []) if each.get("/Subtype") == "/Link"]
        if notes and page.get("/Tabs") != "/S":
            untabbed.append(number)
        if any("/StructParent" not in each or not str(each.get("/Contents", "")) for each in notes):
            mute.append(number)
    return Structure(
        elements,
        bool(marks.get("/Marked", False)),
        bool(marks.get("/Suspects", False)),
        bool(prefers.get("/DisplayDocTitle", False)),
        tuple(untabbed),
        tuple(mute),
    )


def _elements(root: Any, roles: dict[str, str], numbers: dict[Any, int]) -> Iterator[Element]:
    """The elements in the order in which they are read."""
    waiting = [(each, "") for each in reversed(list(_kids(root)))]
    count = 0
    while waiting and count < MOST_ELEMENTS:
        node, within = waiting.pop()
        kind = _kind(node, roles)
        kids = list(_kids(node))
        page = node.get("/Pg")
        told = str(node.get("/Alt", "")) or str(node.get("/ActualText", ""))
        scope = "/Scope" in node.get("/A", {}) or "/Headers" in node.get("/A", {})
        holds = frozenset(_held(each, roles) for each in kids)
        number = 0 if page is None else numbers.get(page.objgen, 0)
        yield Element(kind, within, number, told, holds, scope)
        inner = [each for each in kids if _is_element(each)]
        waiting += [(each, kind) for each in reversed(inner)]
        count += 1


def _kids(node: Any) -> Iterator[Any]:
    told = node.get("/K")
    if told is None:
        return
    yield from told if isinstance(told, pikepdf.Array) else [told]


def _is_element(each: Any) -> bool:
    return isinstance(each, pikepdf.Dictionary) and "/S" in each


def _held(each: Any, roles: dict[str, str]) -> str:
    if _is_element(each):
        return _kind(each, roles)
    is_annotation = isinstance(each, pikepdf.Dictionary) and each.get("/Type") == "/OBJR"
    return "annotation" if is_annotation else "content"


def _kind(node: Any, roles: dict[str, str]) -> str:
    """The standard type that a file's own type stands for."""
    kind = str(node.get("/S", "/none"))
    for _ in range(len(roles) + 1):
        if kind not in roles:
            break
        kind = roles[kind]
    return kind[1:]
