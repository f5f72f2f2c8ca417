"""From a handout to its leaves: worked examples, the pages of every worksheet, a key behind."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import TypeAlias

from layout.language.words import Words, fill
from layout.pages.common.design import Design
from layout.pages.common.format import SAFE, Format, Trim, page_format
from layout.pages.common.misfit import gathered
from layout.pages.worksheet.answer_strips import strip_pages
from layout.pages.worksheet.exercise_blocks import blocks
from layout.pages.worksheet.first_page import first_pages
from layout.pages.worksheet.handout import Copy, Exercise, Handout
from layout.pages.worksheet.key_pages import key_pages
from layout.pages.worksheet.page_head import page_head
from layout.picture.document import Document, Info, Leaf, OutlineEntry
from layout.picture.items import Anchor, Group, Item
from layout.style.page import PageStyle
from layout.style.style import Style
from layout.type.paragraph import one_line
from layout.type.typography import polish

FOOT = 5.0
"""White between what stands on a page and the line in its foot, in millimetres."""


@dataclass(frozen=True, slots=True)
class _Page:
    """What stands on a page, and on the left and the right of its foot.

    `opens` is what the outline calls the part that it begins, where it begins one.
    """

    items: tuple[Item, ...]
    left: str
    right: str
    opens: str = ""


_Part: TypeAlias = list[_Page]
"""The pages of what is handed out by itself."""


def handout_document(
    handout: Handout, copies: Sequence[Copy], design: Design, *, with_key: bool
) -> tuple[Document, dict[str, int]]:
    """Some copies, the key behind them where wanted, and the first page of each part by its name.

    Raises Misfits with everything that does not fit its place.
    """
    makers: list[Callable[[], _Part]] = [
        partial(_first, handout, copies, design),
        *(partial(_copy_pages, handout, each, design) for each in copies),
        *(_key_makers(handout, design) if with_key else ()),
    ]
    return _bound(handout, gathered(makers), design)


def key_document(handout: Handout, design: Design) -> Document:
    """The key alone. Raises Misfits where it does not fit."""
    document, _ = _bound(handout, gathered(_key_makers(handout, design)), design)
    return document


def _bound(
    handout: Handout, parts: Sequence[_Part], design: Design
) -> tuple[Document, dict[str, int]]:
    """Parts one behind the other; where both sides of a leaf are printed, each on its own leaf."""
    pages: list[_Page] = []
    for part in parts:
        if handout.duplex and part and len(pages) % 2:
            pages.append(_Page((), "", ""))
        pages += part
    return _document(handout, pages, design), {
        page.opens: number for number, page in enumerate(pages, start=1) if page.opens
    }


def handout_design(style: Style, words: Words, language: str, trim: Trim) -> Design:
    """The design of loose leaves: margins alike on both sides, no running heads."""
    return Design(_format(trim, style.page), style.page, style.board, words, language)


def _format(trim: Trim, style: PageStyle) -> Format:
    loose = page_format(trim, style, pages=0)
    side = max((loose.inside + loose.outside) / 2, SAFE)
    foot = trim.height - loose.folio + FOOT + style.faces.note.size
    return replace(loose, inside=side, outside=side, top=loose.head, foot=foot)


def _first(handout: Handout, copies: Sequence[Copy], design: Design) -> _Part:
    if not handout.first_page:
        return []
    title = design.words.worksheet.first
    puzzles = [each.puzzle for copy in copies for each in copy.worksheet.exercises]
    return _numbered(first_pages(puzzles, handout.level, design), title, title, design)


def _copy_pages(handout: Handout, copy: Copy, design: Design) -> _Part:
    """All pages of one copy of a worksheet."""
    pages = gathered(
        partial(_worksheet_page, handout, copy, page, design)
        for page in handout.pages_of(copy.worksheet)
    )
    name = copy.worksheet.name(design.words)
    opens = design.words.lists.comma.join(each for each in (copy.pupil, name) if each)
    return _numbered(pages, name, opens or handout.title, design)


def _worksheet_page(
    handout: Handout, copy: Copy, page: Sequence[Exercise], design: Design
) -> tuple[Item, ...]:
    head = page_head(handout, copy, page, design)
    return (*head.items, *blocks(handout, page, head.own, head.depth, design))


def _key_makers(handout: Handout, design: Design) -> Iterator[Callable[[], _Part]]:
    """The key, and strips to be cut where they are wanted."""
    words = design.words.worksheet
    yield lambda: _numbered(key_pages(handout, design), words.key, words.key, design)
    if handout.strips:
        yield lambda: _numbered(strip_pages(handout, design), words.strips, words.strips, design)


def _numbered(pages: Sequence[tuple[Item, ...]], foot: str, opens: str, design: Design) -> _Part:
    """Pages of one part; they are counted where there are several."""
    said = design.words.worksheet.page
    return [
        _Page(
            items,
            foot,
            fill(said, page=number, pages=len(pages)) if len(pages) > 1 else "",
            opens if number == 1 else "",
        )
        for number, items in enumerate(pages, start=1)
    ]


def _document(handout: Handout, pages: Sequence[_Page], design: Design) -> Document:
    leaves = tuple(_leaf(page, number, design) for number, page in enumerate(pages, start=1))
    quotes = design.words.quote_marks
    outline = tuple(
        OutlineEntry(polish(page.opens, quotes), _anchor(number))
        for number, page in enumerate(pages, start=1)
        if page.opens
    )
    info = Info(polish(handout.title, quotes), "", "", design.language)
    return Document(leaves, info, outline)


def _anchor(number: int) -> str:
    return f"page-{number}"


def _leaf(page: _Page, number: int, design: Design) -> Leaf:
    """A page with its margins and its foot."""
    layout, trim = design.format, design.format.trim
    items = (
        Anchor(_anchor(number), layout.top),
        Group(layout.inside, layout.top, page.items),
        Group(0.0, 0.0, tuple(_foot(page, design)), role="furniture"),
    )
    return Leaf(trim.width, trim.height, items, str(number), trim.bleed)


def _foot(page: _Page, design: Design) -> Iterator[Item]:
    """Which worksheet this is, and which page of it."""
    layout, face = design.format, design.faces.note
    yield from one_line(page.left, face).at(layout.inside, layout.folio)
    right = one_line(page.right, face)
    yield from right.at(layout.inside + layout.measure - right.width, layout.folio)
