"""What a book's pages go to: its parts, its blank pages, and how they fold into signatures."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any, Final

from layout.console import counted
from layout.pages.book.pagination import Paginated

SIGNATURE: Final = 16
"""Pages of a usual signature: a sheet folded three times, printed on both sides (common practice,
no source)."""


@dataclass(frozen=True, slots=True)
class PlannedPart:
    """A part as its line of the outline names it, the label of its first page, its pages."""

    title: str
    first: str
    pages: int


@dataclass(frozen=True, slots=True)
class PagePlan:
    """All pages by parts; `front` stand before the first part, `blank` have nothing on them."""

    front: int
    parts: tuple[PlannedPart, ...]
    blank: int

    @property
    def pages(self) -> int:
        """All of them."""
        return self.front + sum(part.pages for part in self.parts)

    @property
    def signatures(self) -> int:
        """How many signatures hold them."""
        return -(-self.pages // SIGNATURE)

    @property
    def left(self) -> int:
        """Pages of the last signature that the book does not fill."""
        return self.signatures * SIGNATURE - self.pages

    def told(self) -> str:
        """One line for the editor."""
        front = [f"front matter {self.front}"] if self.front else []
        parts = ", ".join(front + [f"{part.title} {part.pages}" for part in self.parts])
        blank = f", {self.blank} of them blank" if self.blank else ""
        left = f", the last with {counted(self.left, 'page')} to spare" if self.left else ""
        folded = f"{counted(self.signatures, 'signature')} of {SIGNATURE}{left}"
        return f"{counted(self.pages, 'page')}{blank}: {parts}; {folded}"

    def facts(self) -> dict[str, Any]:
        """The same for the JSON document."""
        parts = [
            {"title": part.title, "first_page": part.first, "pages": part.pages}
            for part in self.parts
        ]
        folded = {"of": SIGNATURE, "count": self.signatures, "pages_left": self.left}
        return {
            "front_matter": self.front,
            "parts": parts,
            "blank": self.blank,
            "signatures": folded,
        }


def page_plan(laid: Paginated) -> PagePlan:
    """Reads it off the finished pages. A part goes on to where the next one begins."""
    leaves = laid.document.leaves
    labels = [leaf.label for leaf in leaves]
    outline = [entry for entry in laid.document.outline if entry.level == 0]
    starts = [labels.index(laid.labels[entry.anchor]) for entry in outline]
    ends = _ends(starts, len(leaves))
    parts = tuple(
        PlannedPart(entry.title, labels[start], end - start)
        for entry, start, end in zip(outline, starts, ends, strict=True)
    )
    front = starts[0] if starts else len(leaves)
    return PagePlan(front, parts, sum(not any(True for _ in leaf.items) for leaf in leaves))


def _ends(starts: Sequence[int], leaves: int) -> list[int]:
    return [later for _, later in pairwise([*starts, leaves])]
